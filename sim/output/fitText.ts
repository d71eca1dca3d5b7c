import { stringify } from 'yaml';
import type { Estimate, FittedReading } from '../common/Estimate.ts';
import type { FitReport, NextReading, PartReport } from '../fitting/FitReport.ts';
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

function estimateTable(estimates: readonly Estimate[]): string[] {
  if (estimates.length === 0) return [];
  return textTable(
    [
      { heading: ['', ''], cell: ({ what }: Estimate) => what },
      {
        heading: ['', 'found'],
        cell: ({ value, unit }) => `${short(value)}${unit === '' ? '' : ` ${unit}`}`,
      },
      { heading: ['90 percent', 'interval'], cell: interval },
      {
        heading: ['without', 'readings'],
        cell: ({ datasheet }) => (datasheet === undefined ? '' : short(datasheet)),
      },
    ],
    estimates,
  );
}

function interval({ low, high }: Estimate): string {
  if (high === Number.POSITIVE_INFINITY) return `at least ${short(low)}`;
  if (low === 0) return `at most ${short(high)}`;
  return low === high ? 'as read' : `${short(low)} to ${short(high)}`;
}

function readingTable(readings: readonly FittedReading[]): string[] {
  return textTable(
    [
      { heading: ['', 'reading'], cell: ({ what }: FittedReading) => what },
      { heading: ['', 'read'], cell: ({ measured, unit }) => `${short(measured, 4)} ${unit}` },
      { heading: ['', 'fitted'], cell: ({ fitted }) => short(fitted, 4) },
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
      ? `${short(more, 2)} times`
      : `${Math.abs((more - 1) * 100).toFixed(0)} percent ${more > 1 ? 'above' : 'below'}`;
  return [`${capital(what)}: ${by} what it would be without the readings, ${short(datasheet)}.`];
}

function nextSentence(next: NextReading | undefined): string {
  if (next === undefined) return 'Next: nothing at the bench would narrow this much further.';
  const { read, gain } = next;
  if (gain === undefined) return `Next, read ${read}.`;
  return `Next, read ${read}: it narrows the ${gain.what} from +-${short(gain.half, 2)} to +-${short(gain.halfAfter, 2)} ${gain.unit}.`;
}

function fragment(lamp: string, parts: readonly PartReport[]): string[] {
  const keys = Object.fromEntries(parts.map(({ part, fit }) => [part, fit.keys]));
  return stringify({ lamps: { [lamp]: keys } }, { lineWidth: 100 })
    .trimEnd()
    .split('\n')
    .map((line) => `  ${line}`);
}

function short(value: number, digits = 3): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size < 1e-3 || size >= 1e6) return value.toExponential(digits - 1);
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(size)));
  return value.toFixed(decimals);
}

function noMinusZero(text: string): string {
  return Number(text) === 0 ? text.replace('-', '') : text;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
