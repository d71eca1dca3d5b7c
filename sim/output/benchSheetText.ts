import type { BenchCheck } from '../trial/benchChecks.ts';
import type { BenchPart, BenchSheet, BuildSheet, WithheldSheet } from '../trial/benchSheet.ts';
import { costSentence } from './moneyWords.ts';
import { type Look, type Paint, paint, textTable } from './textTable.ts';
import { shortNumber } from './words.ts';

/** Above the wires: no wire is touched before. */
export const WIRING_WORDS = 'Step 0 before the first, and again before any is changed.';

/**
 * The build and bench sheets of a scenario's lamps as text.
 *
 * in: sheets, one a lamp; look, of the terminal
 * out: text, ending in a line break; tolerances once, at the end
 */
export function benchSheetText(sheets: readonly BenchSheet[], look: Look = {}): string {
  const style = paint(look);
  const built = sheets.find((sheet) => 'checks' in sheet);
  const lines = sheets.flatMap((sheet) => [
    ...('withheld' in sheet ? withheldLines(sheet, style) : sheetLines(sheet, style)),
    '',
  ]);
  if (built === undefined) lines.pop();
  else lines.push('Bands rest on', ...built.tolerances.flatMap(itemsOf(style)));
  return `${lines.join('\n')}\n`;
}

function withheldLines({ lamp, flags, withheld, cautions }: WithheldSheet, style: Paint): string[] {
  const item = itemsOf(style);
  return [
    `No build and bench sheet of ${lamp} yet`,
    ...flagLines(flags, style),
    '',
    ...style.wrap(withheld.why, 2),
    ...withheld.changes.flatMap(item),
    '',
    'Care, with any capacitor',
    ...cautions.flatMap(item),
  ];
}

function flagLines(flags: readonly string[], style: Paint): string[] {
  return flags.flatMap((flag) => style.wrap(`Please note: ${flag}`, 2, 4));
}

function sheetLines(
  { lamp, flags, discharge, cautions, parts, ...rest }: BuildSheet,
  style: Paint,
): string[] {
  const item = itemsOf(style);
  const { wires, checks, sealing } = rest;
  return [
    `Build and bench sheet of ${lamp}`,
    ...flagLines(flags, style),
    '',
    'Care first. Step 0, before the first wire and before every rewiring',
    ...discharge.steps.flatMap((step) => style.wrap(step, 2)),
    ...cautions.flatMap(item),
    '',
    'Parts',
    ...parts.flatMap((part) => partLines(part, style)),
    ...style.wrap(costSentence(rest), 2, 4),
    '',
    `Wires. ${WIRING_WORDS}`,
    ...wires.flatMap(({ from, to }) => style.wrap(`${from} to ${to}`, 2, 4)),
    '',
    'Before the lid is closed: bare cell, everything at 20 degC',
    ...textTable(
      [
        { heading: ['', 'measure'], cell: ({ what }: BenchCheck) => what },
        { heading: ['expect', ''], cell: ({ expected }) => shortNumber(expected) },
        { heading: ['good', 'from'], cell: ({ low }) => shortNumber(low) },
        { heading: ['', 'to'], cell: ({ high }) => shortNumber(high) },
        { heading: ['', 'unit'], cell: ({ unit }) => unit },
        { heading: ['', 'read'], cell: () => '______' },
      ],
      checks.map((check, k) => ({ ...check, what: `${String(k + 1).padStart(2)} ${check.what}` })),
      style.columns,
    ),
    '',
    'How',
    ...benchWays(checks).flatMap(({ rows, how }) => style.wrap(`${rows.join(', ')}: ${how}`, 2, 4)),
    '',
    'Sealing, drainage and glass (common practice, no source)',
    ...sealing.flatMap(item),
  ];
}

function partLines({ part, count, rating, price, cost, pack, in_drawer }: BenchPart, style: Paint): string[] {
  const drawer = in_drawer === undefined ? 0 : Math.min(count, in_drawer);
  const words = [
    rating,
    drawer > 0 && (drawer === count ? 'at hand' : `${drawer} of them at hand`),
    price !== undefined &&
      count - drawer > 1 &&
      `${count - drawer} times ${price.toFixed(2)}, ${cost!.toFixed(2)}`,
    price !== undefined && count - drawer === 1 && price.toFixed(2),
    pack !== undefined && `sold in packs of ${pack}`,
  ];
  return style.wrap(`${count} ${part}: ${words.filter((word) => word !== false).join('; ')}`, 2, 4);
}

/** A sentence as an item of a list. */
function itemsOf(style: Paint): (sentence: string) => string[] {
  return (sentence) => style.wrap(`- ${sentence}`, 2, 4);
}

/**
 * The ways of measuring of a bench sheet, each once, with the numbers of the checks that it is for, from 1.
 *
 * in: checks, in the order of the sheet
 */
export function benchWays(checks: readonly BenchCheck[]): { rows: number[]; how: string }[] {
  const ways = new Map<string, number[]>();
  checks.forEach(({ how }, k) => {
    ways.set(how, [...(ways.get(how) ?? []), k + 1]);
  });
  return [...ways].map(([how, rows]) => ({ rows, how }));
}
