import { Document, isMap, stringify } from 'yaml';
import type { Estimate, FittedReading } from '../common/Estimate.ts';
import { visibleJson, visibleText } from '../common/visibleText.ts';
import type { FitReport, PartReport } from '../fitting/fitScenario.ts';
import type { NextReading } from '../fitting/nextReading.ts';
import { estimateTable } from './estimateTable.ts';
import { type Look, type Paint, paint, TERMINAL_COLUMNS, textTable } from './textTable.ts';
import { CAUTION_LINES, capital, shortNumber } from './words.ts';

/**
 * What the bench readings of a scenario gave, as text: what differs and what to read next, readings against the fit,
 * the model's parameters with intervals beside what would be taken without the readings, and YAML to paste.
 *
 * in: report; look, of the terminal
 * out: text, ending in a line break
 */
export function fitText({ scenario, lamps }: FitReport, look: Look = {}): string {
  const style = paint(look);
  const lines = [
    ...style.wrap(`Bench readings of ${scenario}. Intervals hold the true value 9 times in 10.`),
    ...careLines(style),
  ];
  for (const { lamp, parts } of lamps) {
    if (!style.details) lines.push('');
    for (const part of parts)
      lines.push(...(style.details ? [''] : []), `${lamp}, ${part.part}`, ...partLines(part, style));
    lines.push(
      '',
      `To paste in place of the readings of ${lamp}:`,
      ...(style.details
        ? ['', ...yamlLines({ lamps: { [lamp]: keysOf(parts) } })]
        : tightYaml(lamp, parts, style)),
    );
  }
  if (!style.details) lines.push('', ...style.wrap(MORE));
  return `${lines.join('\n')}\n`;
}

/** What is left to --details. */
const MORE = 'With --details: each reading beside its fit, and the values of the model with their intervals.';

/** Whoever reads this goes back to the bench. */
export function careLines(style: Paint): string[] {
  return [
    '',
    ...CAUTION_LINES.flatMap((line) => style.wrap(line)),
    ...style.wrap(
      'Before the next reading: the sheet of `longnight check SCENARIO --bench` begins with how this capacitor is emptied, and through which resistor.',
    ),
  ];
}

function partLines({ fit, next }: PartReport, style: Paint): string[] {
  const sentences = [
    ...fit.estimates.flatMap(differenceSentence),
    ...fit.notes.map((note) => `${capital(note)}.`),
    ...nextSentence(next, style),
  ];
  const lines = sentences.flatMap((sentence) => style.wrap(sentence, 2, 4));
  if (!style.details) return lines;
  if (fit.readings.length > 0) lines.push('', ...readingTable(fit.readings, style));
  return [...lines, '', '  Model details', ...estimateTable(fit.estimates, style)];
}

function readingTable(readings: readonly FittedReading[], style: Paint): string[] {
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
    style.columns,
  );
}

/** A value of datasheet or scenario that the readings rule out. */
function differenceSentence({ what, unit, value, low, high, datasheet }: Estimate): string[] {
  if (datasheet === undefined || (datasheet >= low && datasheet <= high)) return [];
  const more = value / datasheet;
  // What was read off once has no interval: small differences say nothing.
  if (low === high && Math.abs(more - 1) < 0.1) return [];
  const by =
    more > 2 || more < 0.5
      ? `${shortNumber(more, 2)} times`
      : `${Math.abs((more - 1) * 100).toFixed(0)} percent ${more > 1 ? 'above' : 'below'}`;
  const [found, without] = [value, datasheet].map((number) => `${shortNumber(number)} ${unit}`.trim());
  return [`${capital(what)}: ${found}, ${by} the ${without} taken without readings.`];
}

/** What to read next; that nothing is left only where all is told. */
function nextSentence(next: NextReading | undefined, { details }: Paint): string[] {
  if (next === undefined)
    return details ? ['Next: nothing at the bench would narrow this much further.'] : [];
  const { read, gain } = next;
  if (gain === undefined) return [`Next, read ${read}.`];
  return [
    `Next, read ${read}: it narrows the ${gain.what} from +-${shortNumber(gain.half, 2)} to +-${shortNumber(gain.halfAfter, 2)} ${gain.unit}.`,
  ];
}

function keysOf(parts: readonly PartReport[]): object {
  return Object.fromEntries(parts.map(({ part, fit }) => [part, fit.keys]));
}

/** Part of a scenario, to be pasted; signs that are not seen as YAML's own escapes, which only quotes take. */
export function yamlLines(section: object): string[] {
  return shownYaml(new Document(section), TERMINAL_COLUMNS);
}

/** The same of a lamp, the keys of each of its parts in a paragraph. */
function tightYaml(lamp: string, parts: readonly PartReport[], style: Paint): string[] {
  const document = new Document({ lamps: { [lamp]: keysOf(parts) } });
  for (const { part } of parts) {
    const keys = document.getIn(['lamps', lamp, part]);
    if (isMap(keys)) keys.flow = true;
  }
  return shownYaml(document, 0).flatMap((line) =>
    line.endsWith('}') ? style.wrap(line.trim(), line.search(/\S/), line.search(/\S/) + 2) : [line],
  );
}

function shownYaml(document: Document, lineWidth: number): string[] {
  const yaml = (defaultKeyType: 'PLAIN' | 'QUOTE_DOUBLE') =>
    stringify(document, { lineWidth, defaultKeyType }).trimEnd();
  const plain = yaml('PLAIN');
  const text = visibleText(plain) === plain ? plain : visibleJson(yaml('QUOTE_DOUBLE'));
  return text.split('\n').map((line) => `  ${line}`);
}

function noMinusZero(text: string): string {
  return Number(text) === 0 ? text.replace('-', '') : text;
}
