import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import { HIGHEST_NIGHT_W_M2 } from '../limits.ts';
import type { SunLight } from './SunLight.ts';
import { type Stretch, stretchesOf } from './stretchesOf.ts';

/** Days that nobody measured: drawn from those around them. */
export interface DrawnDays extends Stretch {
  evidence: string;
}

/** In coarser steps days are alike, cloudless ones sooner. */
const COARSEST_W_M2 = 5;
const COARSEST_CLEAR_W_M2 = 2;
/** Light of so many steps of the resolution tells; in less, rounding makes days alike. */
const TELLING_STEPS = 20;
/** A day with fewer telling hours is left alone. */
const LEAST_HOURS = 3;
/** Days running that are drawn, and hours in them. */
const LEAST_DAYS = 4;
const LEAST_RUN_HOURS = 20;
/** Cloudless days follow each other as if drawn; of them so many days running are none. */
const LEAST_CLEAR_DAYS = 10;
/** Mean share of the cleanest cloudless sky from which a day counts as cloudless. */
const CLEAR_SHARE = 0.7;
/** A run may come about by chance once in so many records like this one. */
const RECORDS_PER_CHANCE = 1e6;

/** How a day may be drawn from those around it. */
interface Way {
  words: string;
  /** Whether hour i is so drawn, to rounding; scale is its day's light over that of the day before. */
  fits: (i: number, scale: number) => boolean;
}

/**
 * Runs of days whose light goes hour by hour in a straight line from the day before to the day after, or is that of the
 * day before times one factor: months filled from their edges.
 *
 * in: values, W/m2, NaN missing; light, over the same hours; resolution_W_m2, step in which the values are written
 * out: stretches of whole days, in order
 * valid: records in steps of 5 W/m2 and finer; where the record's other days fit by chance too, as in coarse steps, longer runs are wanted
 */
export function drawnDays(values: Float64Array, light: SunLight, resolution_W_m2: number): DrawnDays[] {
  if (resolution_W_m2 > COARSEST_W_M2) return [];
  const slack = Math.max(resolution_W_m2, 1e-6);
  const at = (i: number): number => values[i] ?? Number.NaN;
  const ways: Way[] = [
    {
      words: 'the light of every hour goes in a straight line from day to day',
      fits: (i) => Math.abs(at(i - 24) - 2 * at(i) + at(i + 24)) <= 2.02 * slack,
    },
    {
      words: 'the light of every hour is that of the day before times one factor',
      fits: (i, scale) => Math.abs(at(i) - scale * at(i - 24)) <= 0.6 * (1 + scale) * slack,
    },
  ];
  const days = tellingDays(values, light, slack);
  const [lines = [], scaled = []] = ways.map((way) => runsOf(way, days, values, slack));
  const alone = scaled.filter((run) => !lines.some((line) => run.from < line.to && line.from < run.to));
  return [...lines, ...alone].toSorted((a, b) => a.from - b.from);
}

/** A day of the record, its telling hours, and what it is made of. */
interface Day extends Stretch {
  hours: number[];
  clear: boolean;
  /** Its light over that of the day before. */
  scale: number;
}

function tellingDays(values: Float64Array, light: SunLight, slack: number): Day[] {
  const { start_ms, count } = light.sun;
  const since_h = Math.floor(((((start_ms + light.dayShift_ms) % DAY_MS) + DAY_MS) % DAY_MS) / HOUR_MS);
  const least = Math.max(HIGHEST_NIGHT_W_M2, TELLING_STEPS * slack);
  const days: Day[] = [];
  for (let from = (24 - since_h) % 24; from + 24 <= count; from += 24) {
    const hours: number[] = [];
    const sums = { own: 0, before: 0, clear: 0 };
    for (let i = from; i < from + 24; i++) {
      if (!(values[i]! >= least)) continue;
      hours.push(i);
      sums.own += values[i]!;
      sums.before += values[i - 24] ?? Number.NaN;
      sums.clear += light.cleanest_W_m2[i]!;
    }
    const clear = sums.own >= CLEAR_SHARE * sums.clear;
    days.push({ from, to: from + 24, hours, clear, scale: sums.own / sums.before });
  }
  return days;
}

function runsOf(
  { words, fits }: Way,
  days: readonly Day[],
  values: Float64Array,
  slack: number,
): DrawnDays[] {
  const fitting = days.map(({ hours, scale }) => hours.filter((i) => fits(i, scale)).length);
  const whole = days.map(({ hours }, d) => hours.length >= LEAST_HOURS && fitting[d] === hours.length);
  const others = days.filter((_, d) => !whole[d]);
  const hours = others.reduce((sum, day) => sum + day.hours.length, 0);
  const fit = fitting.reduce((sum, n, d) => sum + (whole[d] ? 0 : n), 0);
  const chance = (fit + 1) / (hours + 2);
  return stretchesOf(days.length, (d) => whole[d]!).flatMap((run) => {
    const drawn = days.slice(run.from, run.to);
    const telling = drawn.reduce((sum, day) => sum + day.hours.length, 0);
    const least = drawn.filter((day) => day.clear).length > drawn.length / 2 ? LEAST_CLEAR_DAYS : LEAST_DAYS;
    if (least === LEAST_CLEAR_DAYS && slack > COARSEST_CLEAR_W_M2) return [];
    if (drawn.length < least || telling < LEAST_RUN_HOURS) return [];
    // Hours of a day go together: half of them count.
    if (days.length * chance ** (telling / 2) * RECORDS_PER_CHANCE >= 1) return [];
    const [from, to] = [drawn[0]!.from, drawn.at(-1)!.to];
    // What only repeats is told elsewhere; nothing is drawn where nothing changes.
    if (drawn.every((day) => day.hours.every((i) => values[i] === values[i - 24]))) return [];
    return [
      {
        from,
        to,
        evidence: `${drawn.length} days in which ${words}, as where a gap is filled from its edges`,
      },
    ];
  });
}
