import { greatest, range, rollup } from 'd3-array';
import { classifyCell } from './classifyCell.ts';
import type { Layout, QuantityName } from './DetectedFormat.ts';
import { unitFromWords } from './unitFromWords.ts';

/** A number and what stands behind it. */
const WITH_UNIT = /^[+-]?[\d.,]*\d[ \u00a0]?(?<unit>[^\d\s.,:][^\s:]{0,7})$/;
/** So many cells, and this share of those that hold something, bear the unit. */
const FEWEST = 12;
const SHARE = 0.9;
/** Quantities that have units of their own. */
const FAMILIES: readonly QuantityName[] = ['ghi', 'air_temperature', 'snow_depth', 'rain', 'wind'];

/**
 * Rows whose numbers bear their unit in every cell ('12.3 W/m2'), without it.
 *
 * in: rows; width, their columns
 * out: the same rows where no column is such; else rows without these units, and the units
 */
export function withoutUnits(
  rows: string[][],
  width: number,
): { rows: string[][] } & Pick<Layout, 'cellUnits'> {
  const cellUnits = range(width).map((column) => unitOf(rows, column));
  if (cellUnits.every((unit) => unit === '')) return { rows };
  const bare = rows.map((cells) => cells.map((cell, column) => bareCell(cell, cellUnits[column] ?? '')));
  return { rows: bare, cellUnits };
}

/** Whether a cell holds a number with something behind it. */
export function bearsUnit(cell: string): boolean {
  return WITH_UNIT.test(cell.trim());
}

/** What takes the units from cells of some columns; nothing where they bear none. */
export function bareCells({ cellUnits = [] }: Pick<Layout, 'cellUnits'>, columns: readonly number[]) {
  const units = columns.map((column) => cellUnits[column] ?? '');
  return units.every((unit) => unit === '')
    ? (cells: readonly string[]) => cells
    : (cells: readonly string[]) => cells.map((cell, c) => bareCell(cell, units[c]!));
}

/** A cell without its unit. in: unit, '' of a column whose cells bear none */
function bareCell(cell: string, unit: string): string {
  if (unit === '') return cell;
  const text = cell.trim();
  return text.endsWith(unit) && WITH_UNIT.test(text) ? text.slice(0, -unit.length).trimEnd() : cell;
}

function unitOf(rows: readonly string[][], column: number): string {
  const filled = rows
    .map((cells) => (cells[column] ?? '').trim())
    .filter((cell) => classifyCell(cell) !== 'empty');
  const units = filled.flatMap((cell) => WITH_UNIT.exec(cell)?.groups?.unit ?? []);
  const [unit, count] = greatest(
    rollup(
      units,
      (list) => list.length,
      (text) => text,
    ),
    ([, own]) => own,
  ) ?? ['', 0];
  const isUnit = FAMILIES.some((quantity) => unitFromWords(unit, quantity) !== undefined);
  return isUnit && count >= FEWEST && count >= SHARE * filled.length ? unit : '';
}
