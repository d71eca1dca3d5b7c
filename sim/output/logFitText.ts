import { DateTime } from 'luxon';
import { stringify } from 'yaml';
import type { LogReport } from '../fitting/fitLog.ts';
import type { ServiceFit } from '../fitting/serviceLog.ts';
import { estimateTable } from './estimateTable.ts';
import { textTable } from './textTable.ts';
import { wrapText } from './wrapText.ts';

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
    '',
    ...estimateTable(fit.estimates),
    '',
    ...wrapText(
      `Log less simulation: ${(fit.misfit_V * 1000).toFixed(1)} mV (root mean square over ${fit.hours.length} hours; ${fit.darkOff_h} of them with the LED off and the cell dark).`,
      2,
    ),
    ...fit.notes.flatMap((note) => wrapText(`${note.charAt(0).toUpperCase()}${note.slice(1)}.`, 2, 4)),
    '',
    ...dayTable(days),
    '',
    ...strip(days),
    '',
    'To paste:',
    '',
    ...stringify({ spots: { [spot]: keys.spot }, lamps: { [lamp]: keys.lamp } })
      .trimEnd()
      .split('\n')
      .map((line) => `  ${line}`),
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
