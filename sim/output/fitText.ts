import { stringify } from 'yaml';
import type { Estimate, FittedReading } from '../common/Estimate.ts';
import type { FitReport, NextReading, PartReport } from '../fitting/FitReport.ts';
import { estimateTable } from './estimateTable.ts';
import { shortNumber } from './shortNumber.ts';
import { textTable } from './textTable.ts';
import { wrapText } from './wrapText.ts';

/**
 * What the bench readings of a scenario gave, as text: parameters with intervals, and beside them what would be taken without the readings,
 * readings against the fit, the most useful next reading, and YAML to paste.
 *
 * in: report
 * out: text, ending in a line break
 */
export function fitText({ scenario, lamps }: FitReport): string {
  const lines = [`Bench readings of ${scenario}. Intervals hold the true value 9 times in 10.`];
  for (const { lamp, parts } of lamps) {
    for (const part of parts) lines.push('', `${lamp}, ${part.part}`, ...partLines(part));
    lines.push('', `To paste in place of the readings of ${lamp}:`, '', ...fragment(lamp, parts));
  }
  return `${lines.join('\n')}\n`;
}

function partLines({ fit, next }: PartReport): string[] {
  const lines = estimateTable(fit.estimates);
  if (fit.readings.length > 0) lines.push('', ...readingTable(fit.readings));
  const sentences = [
    ...fit.estimates.flatMap(differenceSentence),
    ...fit.notes.map((note) => `${capital(note)}.`),
    nextSentence(next),
  ];
  return [...lines, '', ...sentences.flatMap((sentence) => wrapText(sentence, 2, 4))];
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

function fragment(lamp: string, parts: readonly PartReport[]): string[] {
  const keys = Object.fromEntries(parts.map(({ part, fit }) => [part, fit.keys]));
  return stringify({ lamps: { [lamp]: keys } }, { lineWidth: 100 })
    .trimEnd()
    .split('\n')
    .map((line) => `  ${line}`);
}

function noMinusZero(text: string): string {
  return Number(text) === 0 ? text.replace('-', '') : text;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
