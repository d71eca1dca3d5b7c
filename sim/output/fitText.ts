import { DateTime } from 'luxon';
import { stringify } from 'yaml';
import type { Estimate, FittedReading } from '../common/Estimate.ts';
import { visibleJson, visibleText } from '../common/visibleText.ts';
import type { LogReport } from '../fitting/fitLog.ts';
import type { FitReport, PartReport } from '../fitting/fitScenario.ts';
import type { NextReading } from '../fitting/nextReading.ts';
import type { ServiceFit } from '../fitting/serviceLog.ts';
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
const CARE_LINES = [
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

type Hour = ServiceFit['hours'][number];

/** Marks of a difference, simulated less logged, by its size in volts. */
const NEAR_V = 0.01;
const FAR_V = 0.03;

/**
 * What a log of a lamp in service gave, as text: estimates with intervals, what cannot be told, log against simulation
 * day by day and hour by hour, and YAML to paste.
 *
 * in: report
 * out: text, ending in a line break
 */
export function logFitText(report: LogReport): string {
  const { lamp, spot, log, fit, keys } = report;
  const days = byDay(report);
  const lines = [
    ...wrapText(`${lamp} on ${spot}, from the log ${log}`),
    'Intervals hold the true value 9 times in 10.',
    ...CARE_LINES,
    '',
    ...estimateTable(fit.estimates),
    '',
    ...wrapText(
      `Log less simulation: ${(fit.misfit_V * 1000).toFixed(1)} mV (root mean square over ${fit.hours.length} hours; ${fit.darkOff_h} of them with the LED off and the cell dark).`,
      2,
    ),
    ...fit.notes.flatMap((note) => wrapText(`${capital(note)}.`, 2, 4)),
    '',
    ...dayTable(days),
    '',
    ...strip(days),
    '',
    'To paste:',
    '',
    ...yamlLines({ spots: { [spot]: keys.spot }, lamps: { [lamp]: keys.lamp } }),
  ];
  return `${lines.join('\n')}\n`;
}

interface Day {
  date: string;
  hours: (Hour & { hour: number })[];
}

/** Hours by civil date, each with the clock hour that it ends with. */
function byDay({ fit, timeZone }: LogReport): Day[] {
  const days = new Map<string, Day['hours']>();
  for (const each of fit.hours) {
    const middle = DateTime.fromMillis(each.time_ms - 1_800_000, { zone: timeZone });
    const date = middle.toFormat('yyyy-MM-dd');
    const day = days.get(date) ?? [];
    day.push({ ...each, hour: middle.hour });
    days.set(date, day);
  }
  return [...days].map(([date, hours]) => ({ date, hours }));
}

function dayTable(days: readonly Day[]): string[] {
  const extreme = (day: Day, of: 'logged_V' | 'simulated_V', pick: (...all: number[]) => number) =>
    pick(...day.hours.map((hour) => hour[of])).toFixed(2);
  return textTable(
    [
      { heading: ['', 'day'], cell: ({ date }: Day) => date },
      { heading: ['highest V', 'logged'], cell: (day) => extreme(day, 'logged_V', Math.max) },
      { heading: ['', 'simulated'], cell: (day) => extreme(day, 'simulated_V', Math.max) },
      { heading: ['lowest V', 'logged'], cell: (day) => extreme(day, 'logged_V', Math.min) },
      { heading: ['', 'simulated'], cell: (day) => extreme(day, 'simulated_V', Math.min) },
    ],
    days,
  );
}

/** One character an hour: where the simulation stands above or below the log. */
function strip(days: readonly Day[]): string[] {
  return [
    ...wrapText(
      `Simulation against log, one character an hour from midnight: . within ${NEAR_V * 1000} mV, + and - above and below, A and B by more than ${FAR_V * 1000} mV`,
      2,
    ),
    '',
    ...days.map(({ date, hours }) => {
      const marks = Array.from({ length: 24 }, (_, hour) => mark(hours.find((each) => each.hour === hour)));
      return `  ${date}  ${marks.join('')}`.trimEnd();
    }),
  ];
}

function mark(hour: Hour | undefined): string {
  if (hour === undefined) return ' ';
  const off_V = hour.simulated_V - hour.logged_V;
  if (Math.abs(off_V) <= NEAR_V) return '.';
  if (off_V > 0) return off_V > FAR_V ? 'A' : '+';
  return off_V < -FAR_V ? 'B' : '-';
}

/** Estimates with their intervals, and beside them what would be taken without. */
function estimateTable(estimates: readonly Estimate[]): string[] {
  if (estimates.length === 0) return [];
  return textTable(
    [
      { heading: ['', ''], cell: ({ what }: Estimate) => what },
      {
        heading: ['', 'found'],
        cell: ({ value, unit }) => `${shortNumber(value)}${unit === '' ? '' : ` ${unit}`}`,
      },
      { heading: ['90 percent', 'interval'], cell: interval },
      {
        heading: ['without', 'readings'],
        cell: ({ datasheet }) => (datasheet === undefined ? '' : shortNumber(datasheet)),
      },
    ],
    estimates,
  );
}

function interval({ low, high }: Estimate): string {
  if (high === Number.POSITIVE_INFINITY) return `at least ${shortNumber(low)}`;
  if (low === 0) return `at most ${shortNumber(high)}`;
  return low === high ? 'as read' : `${shortNumber(low)} to ${shortNumber(high)}`;
}
