import { DateTime } from 'luxon';
import type { DiaryFit, DiaryNightFit } from '../fitting/diaryFit.ts';
import type { LogReport } from '../fitting/fitLog.ts';
import type { ServiceFit } from '../fitting/serviceLog.ts';
import { estimateTable } from './estimateTable.ts';
import { careLines, yamlLines } from './fitText.ts';
import { type Look, type Paint, paint, textTable } from './textTable.ts';
import { capital } from './words.ts';

type Hour = ServiceFit['hours'][number];

/** Marks of a difference, simulated less logged, by its size in volts. */
const NEAR_V = 0.01;
const FAR_V = 0.03;

/**
 * What a log or a diary of a lamp in service gave, or both, as text: estimates with intervals, what cannot be told, what
 * was read against the simulation day by day, and YAML to paste.
 *
 * in: report; look, of the terminal
 * out: text, ending in a line break
 */
export function logFitText(report: LogReport, look: Look = {}): string {
  const style = paint(look);
  const { lamp, spot, logs, fit, diary, keys } = report;
  const lines = [
    ...style.wrap(`${lamp} on ${spot}, from ${logs.join(' and ')}`),
    'Intervals hold the true value 9 times in 10.',
    ...careLines(style),
    ...(fit === undefined ? [] : voltageLines(fit, report, style)),
    ...(diary === undefined ? [] : diaryLines(diary, style)),
    '',
    'To paste:',
    '',
    ...yamlLines({ spots: { [spot]: keys.spot }, lamps: { [lamp]: keys.lamp } }),
  ];
  return `${lines.join('\n')}\n`;
}

function voltageLines(fit: ServiceFit, { timeZone }: LogReport, style: Paint): string[] {
  const days = byDay(fit, timeZone);
  return [
    '',
    ...estimateTable(fit.estimates, style),
    '',
    ...style.wrap(
      `Log less simulation: ${(fit.misfit_V * 1000).toFixed(1)} mV (root mean square over ${fit.hours.length} hours; ${fit.darkOff_h} of them with the LED off and the cell dark).`,
      2,
    ),
    ...fit.notes.flatMap((note) => style.wrap(`${capital(note)}.`, 2, 4)),
    '',
    ...dayTable(days, style),
    '',
    ...strip(days, style),
  ];
}

function diaryLines({ estimates, misfit_min, notes, nights }: DiaryFit, style: Paint): string[] {
  const out = nights.filter(({ atLeast }) => !atLeast).length;
  return [
    '',
    'Diary',
    ...estimateTable(estimates, style),
    '',
    ...style.wrap(
      `Seen less simulation: ${misfit_min.toFixed(0)} minutes (root mean square over the ${out} nights on which it went out).`,
      2,
    ),
    ...notes.flatMap((note) => style.wrap(`${capital(note)}.`, 2, 4)),
    '',
    ...textTable(
      [
        { heading: ['', 'night'], cell: ({ night }: DiaryNightFit) => night },
        {
          heading: ['lit for,', 'seen'],
          cell: ({ atLeast, seen_h }) => `${atLeast ? 'at least ' : ''}${hoursMinutes(seen_h)}`,
        },
        { heading: ['could last,', 'simulated'], cell: ({ fitted_h }) => hoursMinutes(fitted_h) },
      ],
      nights,
      style.columns,
    ),
  ];
}

function hoursMinutes(hours: number): string {
  const minutes = Math.round(hours * 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
}

interface Day {
  date: string;
  hours: (Hour & { hour: number })[];
}

/** Hours by civil date, each with the clock hour that it ends with. */
function byDay(fit: ServiceFit, timeZone: string): Day[] {
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

function dayTable(days: readonly Day[], style: Paint): string[] {
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
    style.columns,
  );
}

/** One character an hour: where the simulation stands above or below the log. */
function strip(days: readonly Day[], style: Paint): string[] {
  return [
    ...style.wrap(
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
