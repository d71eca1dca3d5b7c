import { stringify } from 'yaml';
import type { Estimate, FittedReading } from '../common/Estimate.ts';
import { visibleJson, visibleText } from '../common/visibleText.ts';
import type { FitReport, PartReport } from '../fitting/fitScenario.ts';
import type { NextReading } from '../fitting/nextReading.ts';
import { estimateTable } from './estimateTable.ts';
import { TERMINAL_COLUMNS, textTable, wrapText } from './textTable.ts';
import { CAUTION_LINES, capital, shortNumber } from './words.ts';

/**
 * What the bench readings of a scenario gave, as text: what differs and what to read next, readings against the fit,
 * the model's parameters with intervals beside what would be taken without the readings, and YAML to paste.
 *
 * in: report
 * out: text, ending in a line break
 */
export function fitText({ scenario, lamps }: FitReport): string {
  const lines = [
    `Bench readings of ${scenario}. Intervals hold the true value 9 times in 10.`,
    ...CARE_LINES,
  ];
  for (const { lamp, parts } of lamps) {
    for (const part of parts) lines.push('', `${lamp}, ${part.part}`, ...partLines(part));
    lines.push(
      '',
      `To paste in place of the readings of ${lamp}:`,
      '',
      ...yamlLines({ lamps: { [lamp]: keysOf(parts) } }),
    );
  }
  return `${lines.join('\n')}\n`;
}

/** Whoever reads this goes back to the bench. */
export const CARE_LINES = [
  '',
  ...CAUTION_LINES,
  ...wrapText(
    'Before the next reading: the sheet of `longnight check SCENARIO --bench` begins with how this capacitor is emptied, and through which resistor.',
  ),
];

function partLines({ fit, next }: PartReport): string[] {
  const sentences = [
    ...fit.estimates.flatMap(differenceSentence),
    ...fit.notes.map((note) => `${capital(note)}.`),
    nextSentence(next),
  ];
  const lines = sentences.flatMap((sentence) => wrapText(sentence, 2, 4));
  if (fit.readings.length > 0) lines.push('', ...readingTable(fit.readings));
  return [...lines, '', '  Model details', ...estimateTable(fit.estimates)];
}

function readingTable(readings: readonly FittedReading[]): string[] {
  return textTable(
    [
      { heading: ['', 'reading'], cell: ({ what }: FittedReading) => what },
      { heading: ['', 'read'], cell: ({ measured, unit }) => `${shortNumber(measured, 4)} ${unit}` },
      { heading: ['', 'fitted'], cell: ({ fitted }) => shortNumber(fitted, 4) },
      {
        heading: ['off by', 'errors'],
        cell: ({ measured, fitted, error }) =>
          Number.isNaN(error) ? '' : noMinusZero(((measured - fitted) / error).toFixed(1)),
      },
    ],
    readings,
  );
}

/** A value of datasheet or scenario that the readings rule out. */
function differenceSentence({ what, value, low, high, datasheet }: Estimate): string[] {
  if (datasheet === undefined || (datasheet >= low && datasheet <= high)) return [];
  const more = value / datasheet;
  // What was read off once has no interval: small differences say nothing.
  if (low === high && Math.abs(more - 1) < 0.1) return [];
  const by =
    more > 2 || more < 0.5
      ? `${shortNumber(more, 2)} times`
      : `${Math.abs((more - 1) * 100).toFixed(0)} percent ${more > 1 ? 'above' : 'below'}`;
  return [`${capital(what)}: ${by} what it would be without the readings, ${shortNumber(datasheet)}.`];
}

function nextSentence(next: NextReading | undefined): string {
  if (next === undefined) return 'Next: nothing at the bench would narrow this much further.';
  const { read, gain } = next;
  if (gain === undefined) return `Next, read ${read}.`;
  return `Next, read ${read}: it narrows the ${gain.what} from +-${shortNumber(gain.half, 2)} to +-${shortNumber(gain.halfAfter, 2)} ${gain.unit}.`;
}

function keysOf(parts: readonly PartReport[]): object {
  return Object.fromEntries(parts.map(({ part, fit }) => [part, fit.keys]));
}

/** Part of a scenario, to be pasted; signs that are not seen as YAML's own escapes, which only quotes take. */
export function yamlLines(section: object): string[] {
  const yaml = (defaultKeyType: 'PLAIN' | 'QUOTE_DOUBLE') =>
    stringify(section, { lineWidth: TERMINAL_COLUMNS, defaultKeyType }).trimEnd();
  const plain = yaml('PLAIN');
  const text = visibleText(plain) === plain ? plain : visibleJson(yaml('QUOTE_DOUBLE'));
  return text.split('\n').map((line) => `  ${line}`);
}

function noMinusZero(text: string): string {
  return Number(text) === 0 ? text.replace('-', '') : text;
}
