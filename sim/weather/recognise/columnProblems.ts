import { fixOf, InputProblem } from '../../common/InputProblem.ts';
import type { ColumnContext } from './ColumnChoices.ts';
import { type UnitChoice, unitTyped } from './chooseUnit.ts';
import { columnName, headingPlace, type Layout, type QuantityName } from './DetectedFormat.ts';
import { listed, typed } from './words.ts';

/** A column as it is typed; by number where its heading is not its own. */
export function columnTyped({ headings }: Layout, quantity: QuantityName, column: number): string {
  const heading = headings[column] ?? '';
  const isOwn = heading !== '' && headings.filter((other) => other === heading).length === 1;
  return `--column ${typed(`${quantity}=${isOwn ? heading : column + 1}`)}`;
}

/** The columns there are, in words. */
export function columnsText(layout: Layout): string {
  if (layout.headings.length === 0) return `${layout.width} columns without headings`;
  return `the columns ${listed(
    layout.headings.filter((heading) => heading !== ''),
    20,
  )}`;
}

/** Two columns that could be the same light and disagree. */
export function twoLights(
  context: ColumnContext,
  quantity: QuantityName,
  a: number,
  b: number,
): InputProblem {
  const { layout, file } = context;
  return new InputProblem({
    code: 'WEATHER_AMBIGUOUS',
    file,
    ...headingPlace(layout),
    field: quantity,
    got: `${columnName(layout, a)} and ${columnName(layout, b)}, which could both be ${quantity} and disagree`,
    expected: `one column for ${quantity}`,
    ...fixOf(
      [a, b].map((column) => columnTyped(layout, quantity, column)),
      ` (in a scenario, weather.columns.${quantity}.column).`,
    ),
  });
}

/** A unit of global irradiance that its numbers do not settle. */
export function unitOpen(
  { file, layout, latitude_deg }: ColumnContext,
  quantity: QuantityName,
  column: number,
  { unit, others }: UnitChoice,
): InputProblem {
  const units = [unit, ...others];
  const key = quantity === 'ghi' ? ' (in a scenario, weather.columns.ghi.unit)' : '';
  return new InputProblem({
    code: 'WEATHER_AMBIGUOUS',
    file,
    ...headingPlace(layout),
    field: layout.headings[column] || `column ${column + 1}`,
    got: `no unit, and numbers that could be ${units.join(' or ')}`,
    expected: 'a stated unit, or a longer stretch in which clear days show',
    ...fixOf(
      units.map((name) => unitTyped(quantity, name)),
      `${key}${latitude_deg === undefined ? '; a latitude may settle it too' : ''}.`,
    ),
  });
}

/** A column that the user names and that holds no numbers. */
export function noNumbers(
  { file, layout, rows }: ColumnContext,
  quantity: QuantityName,
  column: number,
): InputProblem {
  const found = rows.findIndex((cells) => (cells[column] ?? '').trim() !== '');
  return new InputProblem({
    code: 'WEATHER_VALUE_NOT_NUMBER',
    file,
    line: layout.firstDataLine,
    field: layout.headings[column] || `column ${column + 1}`,
    got: found < 0 ? 'empty cells' : `cells such as "${rows[found]![column]!.trim()}"`,
    expected: `numbers alone, for ${quantity}`,
    fix: 'name another column, or write its cells as numbers alone.',
  });
}
