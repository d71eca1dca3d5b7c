import type { SettledSection } from '../../lamp/schema.ts';
import type { BenchPart, BenchSheet } from '../../trial/benchSheet.ts';
import { benchWays } from '../benchSheetText.ts';
import { connectionFigure } from '../figures/connectionFigure.ts';
import { element, escapeText } from '../figures/element.ts';
import { costSentence, shortNumber } from '../words.ts';
import { nameMarkup } from './nameMarkup.ts';
import { type MarkupColumn, tableMarkup } from './tableMarkup.ts';

/**
 * A lamp's build and bench sheet as a part of the page, which prints on one sheet.
 *
 * in: id; sheet; section, the lamp's parts, for the picture
 * out: markup
 */
export function benchPart(id: string, sheet: BenchSheet, section: SettledSection): string {
  const { lamp, parts, cost, unpriced, wires, checks, tolerances, sealing, flags, cautions } = sheet;
  const figure = connectionFigure(id, lamp, section, wires);
  const rows = checks.map((check, k) => ({ ...check, row: String(k + 1) }));
  return [
    `<section class="bench" id="${id}" aria-labelledby="${id}-name">`,
    `<h2 id="${id}-name">To build ${nameMarkup(lamp)}, and to measure before the lid is closed</h2>`,
    flags.length === 0 ? '' : list('ul', flags, 'flags'),
    '<div class="pair"><div>',
    `<div class="wiring scroll" role="region" aria-labelledby="${id}-connection-title" tabindex="0">${figure.svg}</div>`,
    tableMarkup(`Parts of ${lamp}`, PART_COLUMNS, parts),
    `<p>${escapeText(costSentence(cost, unpriced))}</p>`,
    `<h3>Wires</h3><p>${escapeText(figure.summary)}</p>`,
    `<h3>Sealing and drainage</h3>${list('ul', sealing, 'sealing')}`,
    `<h3>What the bands rest on</h3><p>${escapeText(tolerances.join('; '))}</p>`,
    '</div><div>',
    tableMarkup(
      `Readings of ${lamp}: bare cell, everything at 20 degC`,
      [
        { heading: 'measure', cell: ({ row, what }: (typeof rows)[number]) => `${row} ${what}` },
        { heading: 'expect', number: true, cell: ({ expected }) => shortNumber(expected) },
        {
          heading: 'good',
          number: true,
          cell: ({ low, high }) => `${shortNumber(low)} to ${shortNumber(high)}`,
        },
        { heading: 'unit', cell: ({ unit }) => unit },
        { heading: 'read', cell: () => '________' },
      ],
      rows,
    ),
    '<h3>How</h3>',
    list(
      'ul',
      benchWays(checks).map((way) => `${way.rows.join(', ')}: ${way.how}`),
      'ways',
    ),
    `<h3>Care</h3>${list('ul', cautions, 'cautions')}`,
    '</div></div>',
    '</section>',
  ].join('\n');
}

const PART_COLUMNS: MarkupColumn<BenchPart>[] = [
  { heading: 'number', number: true, cell: ({ count }) => String(count) },
  { heading: 'part', cell: ({ part }) => part },
  { heading: 'rating', cell: ({ rating }) => rating },
  { heading: 'cost', number: true, cell: ({ cost }) => cost?.toFixed(2) ?? '' },
];

function list(name: string, sentences: readonly string[], kind: string): string {
  const items = sentences.map((sentence) => element('li', {}, `<bdi>${escapeText(sentence)}</bdi>`));
  return element(name, { class: kind }, items.join(''));
}
