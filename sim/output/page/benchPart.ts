import type { SettledSection } from '../../lamp/schema.ts';
import type { BenchPart, BenchSheet, BuildSheet, WithheldSheet } from '../../trial/benchSheet.ts';
import { benchWays, WIRING_WORDS } from '../benchSheetText.ts';
import { connectionFigure } from '../figures/connectionFigure.ts';
import { isolated } from '../figures/element.ts';
import { costSentence } from '../moneyWords.ts';
import { capital, shortNumber } from '../words.ts';
import {
  listMarkup,
  type MarkupColumn,
  nameMarkup,
  numberColumn,
  paragraphMarkup,
  sheetOf,
  tableMarkup,
} from './tableMarkup.ts';

/**
 * A lamp's build and bench sheet as a part of the page, which prints on one sheet; of a lamp that must be changed first
 * what to change.
 *
 * in: id; sheet; section, the lamp's parts, for the picture; of, names on the page of the trials with this lamp, beside
 *   one of which alone it is shown; all by default
 * out: markup
 */
export function benchPart(
  id: string,
  sheet: BenchSheet,
  section: SettledSection,
  of?: readonly string[],
): string {
  const name = nameMarkup(sheet.lamp);
  const [title, body] =
    'withheld' in sheet
      ? [`${name} is not to be built yet`, withheldMarkup(sheet)]
      : [`To build ${name}, and to measure before the lid is closed`, sheetMarkup(id, sheet, section)];
  return [
    `<section class="bench" id="${id}"${sheetOf(of)} aria-labelledby="${id}-name">`,
    `<h2 id="${id}-name">${title}</h2>`,
    listMarkup(sheet.flags, 'flags'),
    ...body,
    '</section>',
  ].join('\n');
}

function withheldMarkup({ withheld, cautions }: WithheldSheet): string[] {
  return [
    paragraphMarkup(withheld.why),
    listMarkup(withheld.changes, 'ways'),
    `<h3>Care, with any capacitor</h3>${listMarkup(cautions, 'cautions')}`,
  ];
}

function sheetMarkup(id: string, sheet: BuildSheet, section: SettledSection): string[] {
  const { lamp, checks, parts } = sheet;
  const figure = connectionFigure(id, lamp, section, sheet.wires);
  const rows = checks.map((check, k) => ({ ...check, what: `${k + 1} ${check.what}` }));
  const ways = benchWays(checks).map((way) => `${way.rows.join(', ')}: ${way.how}`);
  const columns = sheet.cost !== undefined ? [...PART_COLUMNS, COST_COLUMN] : PART_COLUMNS;
  return [
    '<div class="sheet">',
    '<h3>Care first. Step 0, before the first wire and before every rewiring</h3>',
    `<div class="care">${paragraphMarkup(sheet.discharge.steps.join(' '), 'stepZero')}${listMarkup(sheet.cautions, 'cautions')}</div>`,
    '<div class="pair"><div>',
    `<div class="wiring"><div class="across">${figure.svg}</div><div class="narrow">${figure.narrow.svg}</div></div>`,
    tableMarkup(`Parts of ${isolated(lamp)}`, columns, parts),
    paragraphMarkup(costSentence(sheet)),
    `<h3>Wires</h3>${paragraphMarkup(`${WIRING_WORDS} ${capital(figure.summary)}`)}`,
    `<h3>Sealing, drainage and glass</h3>${listMarkup(sheet.sealing, 'sealing')}`,
    '</div><div>',
    tableMarkup(`Readings of ${isolated(lamp)}: bare cell, everything at 20 degC`, CHECK_COLUMNS, rows),
    `<h3>How</h3>${listMarkup(ways, 'ways')}`,
    '</div></div>',
    `<h3>Where the bands come from</h3>${paragraphMarkup(sheet.tolerances.join('; '), 'bands')}`,
    '</div>',
  ];
}

const PART_COLUMNS: MarkupColumn<BenchPart>[] = [
  numberColumn('number', ({ count }) => String(count)),
  { heading: 'part', cell: ({ part }) => isolated(part) },
  { heading: 'rating', cell: ({ rating }) => rating },
];

const COST_COLUMN: MarkupColumn<BenchPart> = numberColumn('cost', ({ cost, included }) =>
  included || cost === undefined ? '' : cost.toFixed(2),
);

const CHECK_COLUMNS: MarkupColumn<BuildSheet['checks'][number]>[] = [
  { heading: 'measure', cell: ({ what }) => what },
  numberColumn('expect', ({ expected }) => shortNumber(expected)),
  numberColumn('good', ({ low, high }) => `${shortNumber(low)} to ${shortNumber(high)}`),
  { heading: 'unit', cell: ({ unit }) => unit },
  { heading: 'read', cell: () => '________' },
];
