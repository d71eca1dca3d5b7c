import type { SettledSection } from '../../lamp/schema.ts';
import type { BenchPart, BenchSheet } from '../../trial/benchSheet.ts';
import { benchWays } from '../benchSheetText.ts';
import { connectionFigure } from '../figures/connectionFigure.ts';
import { costSentence, shortNumber } from '../words.ts';
import {
  listMarkup,
  type MarkupColumn,
  nameMarkup,
  numberColumn,
  paragraphMarkup,
  tableMarkup,
} from './tableMarkup.ts';

/**
 * A lamp's build and bench sheet as a part of the page, which prints on one sheet.
 *
 * in: id; sheet; section, the lamp's parts, for the picture
 * out: markup
 */
export function benchPart(id: string, sheet: BenchSheet, section: SettledSection): string {
  const { lamp, checks } = sheet;
  const figure = connectionFigure(id, lamp, section, sheet.wires);
  const rows = checks.map((check, k) => ({ ...check, what: `${k + 1} ${check.what}` }));
  const ways = benchWays(checks).map((way) => `${way.rows.join(', ')}: ${way.how}`);
  return [
    `<section class="bench" id="${id}" aria-labelledby="${id}-name">`,
    `<h2 id="${id}-name">To build ${nameMarkup(lamp)}, and to measure before the lid is closed</h2>`,
    listMarkup(sheet.flags, 'flags'),
    '<div class="pair"><div>',
    `<div class="wiring scroll" role="region" aria-labelledby="${id}-connection-title" tabindex="0">${figure.svg}</div>`,
    tableMarkup(`Parts of ${lamp}`, PART_COLUMNS, sheet.parts),
    paragraphMarkup(costSentence(sheet.cost, sheet.unpriced)),
    `<h3>Wires</h3>${paragraphMarkup(figure.summary)}`,
    `<h3>Sealing and drainage</h3>${listMarkup(sheet.sealing, 'sealing')}`,
    `<h3>Where the bands come from</h3>${paragraphMarkup(sheet.tolerances.join('; '))}`,
    '</div><div>',
    tableMarkup(`Readings of ${lamp}: bare cell, everything at 20 degC`, CHECK_COLUMNS, rows),
    `<h3>How</h3>${listMarkup(ways, 'ways')}`,
    `<h3>Care</h3>${listMarkup(sheet.cautions, 'cautions')}`,
    '</div></div>',
    '</section>',
  ].join('\n');
}

const PART_COLUMNS: MarkupColumn<BenchPart>[] = [
  numberColumn('number', ({ count }) => String(count)),
  { heading: 'part', cell: ({ part }) => part },
  { heading: 'rating', cell: ({ rating }) => rating },
  numberColumn('cost', ({ cost }) => cost?.toFixed(2) ?? ''),
];

const CHECK_COLUMNS: MarkupColumn<BenchSheet['checks'][number]>[] = [
  { heading: 'measure', cell: ({ what }) => what },
  numberColumn('expect', ({ expected }) => shortNumber(expected)),
  numberColumn('good', ({ low, high }) => `${shortNumber(low)} to ${shortNumber(high)}`),
  { heading: 'unit', cell: ({ unit }) => unit },
  { heading: 'read', cell: () => '________' },
];
