import { DateTime } from 'luxon';
import { HOUR_MS } from '../common/time.ts';
import type { PromiseSection, ScheduleSection } from '../lamp/schedule/schema.ts';
import type { NightCalendar } from '../sun/NightCalendar.ts';
import { type NightPlan, PLAN } from './NightPlan.ts';
import type { DarkStretch } from './sensedDark.ts';

/** The stretch of time a plan is made for. */
export interface PlanStretch {
  /** Start of the record, UTC milliseconds. */
  start_ms: number;
  /** Hours of the record. */
  count: number;
  nights: NightCalendar;
  timeZone: string;
  /** True where one year is repeated: the plan then runs from the first solar noon through the seam back to it. */
  joined: boolean;
  /** The nights planned, counted from the first; all unless stated. */
  part?: { first: number; end: number };
  /** When the lamp itself takes it for dark, for a schedule that switches on by that. */
  dark?: readonly DarkStretch[];
}

/**
 * The plan of all nights of a stretch: noon, dusk and dawn, the schedule's switching and the promised hours.
 *
 * A clock time belongs to the night whose evening or morning it falls into; 12:00 and later is the evening. Nothing
 * is promised in a white night, nor does a lamp switch on by dusk then.
 *
 * in: stretch; schedule; promise
 * out: the plan; firstNight, the index in the calendar of the plan's night 0
 */
export function planNights(
  stretch: PlanStretch,
  schedule: ScheduleSection,
  promise: PromiseSection,
): { plan: NightPlan; firstNight: number } {
  const { nights, start_ms, count, joined } = stretch;
  const { part } = stretch;
  let firstNight = 0;
  if (joined || part !== undefined) while (nights.noon_ms[firstNight]! < start_ms) firstNight++;
  firstNight += part?.first ?? 0;
  const nightCount =
    part === undefined ? (joined ? Math.round(count / 24) : nights.count) : part.end - part.first;
  const from_ms = joined || part !== undefined ? nights.noon_ms[firstNight]! : start_ms;
  const to_ms =
    part === undefined ? from_ms + count * HOUR_MS : (nights.noon_ms[firstNight + nightCount] ?? Number.NaN);
  if (!(nightCount > 0 && from_ms < to_ms && (joined || to_ms <= start_ms + count * HOUR_MS)))
    throw new RangeError(`no nights ${part?.first} to ${part?.end} in a record of ${count} hours`);
  const clock = clockReader(nights, stretch.timeZone);
  const sensed = stretch.dark === undefined ? [] : sensedInstants(stretch, stretch.dark, schedule, from_ms);
  let nextSensed = 0;
  while (nextSensed < sensed.length && sensed[nextSensed]!.at < from_ms) nextSensed++;
  const instants = new Instants();
  for (let k = firstNight; k < firstNight + nightCount; k++) {
    const noon = nights.noon_ms[k]!;
    const noonAfter = nights.noon_ms[k + 1]!;
    const white = nights.hasNight[k] === 0;
    instants.beginNight(noon);
    instants.add(noon, PLAN.noon, k - firstNight);
    if (!white) {
      instants.add(nights.dusk_ms[k]!, PLAN.dusk, 0);
      instants.add(nights.dawn_ms[k]!, PLAN.dawn, 0);
    }
    if (stretch.dark === undefined) {
      for (const { at, value } of scheduled(nights, k, schedule, clock)) instants.add(at, PLAN.share, value);
    }
    for (; nextSensed < sensed.length && sensed[nextSensed]!.at < noonAfter; nextSensed++) {
      const { at, value } = sensed[nextSensed]!;
      instants.add(at, PLAN.share, value);
    }
    const promised = white ? undefined : span(nights, k, promise.from, promise, clock);
    if (promised !== undefined) {
      instants.add(promised.on, PLAN.promise, 1);
      instants.add(promised.off, PLAN.promise, 0);
    }
    instants.endNight(from_ms, Math.min(noonAfter, to_ms));
  }
  const plan: NightPlan = {
    from_s: (from_ms - start_ms) / 1000,
    to_s: (to_ms - start_ms) / 1000,
    nights: nightCount,
    count: instants.at_ms.length,
    at_s: instants.secondsFrom(start_ms),
    what: Uint8Array.from(instants.what),
    value: Float64Array.from(instants.value),
  };
  return { plan, firstNight };
}

/** Instants in the order of time, those of one night sorted as they come. */
class Instants {
  readonly at_ms: number[] = [];
  readonly what: number[] = [];
  readonly value: number[] = [];
  private begin = 0;
  private noon_ms = 0;

  /** in: noon_ms, before which nothing of the night happens */
  beginNight(noon_ms: number): void {
    this.begin = this.at_ms.length;
    this.noon_ms = noon_ms;
  }

  add(at_ms: number, what: number, value: number): void {
    const instant_ms = Math.max(at_ms, this.noon_ms);
    let place = this.at_ms.length;
    for (; place > this.begin; place--) {
      const before_ms = this.at_ms[place - 1]!;
      if (before_ms < instant_ms || (before_ms === instant_ms && this.what[place - 1]! <= what)) break;
      this.at_ms[place] = before_ms;
      this.what[place] = this.what[place - 1]!;
      this.value[place] = this.value[place - 1]!;
    }
    this.at_ms[place] = instant_ms;
    this.what[place] = what;
    this.value[place] = value;
  }

  /** Seconds from an instant, UTC milliseconds. */
  secondsFrom(start_ms: number): Float64Array {
    const at_s = new Float64Array(this.at_ms.length);
    for (let i = 0; i < at_s.length; i++) at_s[i] = (this.at_ms[i]! - start_ms) / 1000;
    return at_s;
  }

  /** Moves what lies outside to the first and the last instant allowed. */
  endNight(first_ms: number, last_ms: number): void {
    for (let i = this.begin; i < this.at_ms.length; i++)
      this.at_ms[i] = Math.min(Math.max(this.at_ms[i]!, first_ms), last_ms);
  }
}

/** A change of the share of the time that the LED is on. */
interface Switching {
  at: number;
  value: number;
}

type Clock = (night: number, time: string) => number;

/** Switching instants of a lamp that senses the dark, in the order of time, from the start of the plan on. */
function sensedInstants(
  stretch: PlanStretch,
  dark: readonly DarkStretch[],
  schedule: ScheduleSection,
  from_ms: number,
): Switching[] {
  const whole_ms = stretch.count * HOUR_MS;
  const end_ms = stretch.start_ms + whole_ms;
  const spans = dark.map(({ from_s, to_s }) => ({
    from: stretch.start_ms + from_s * 1000,
    to: stretch.start_ms + to_s * 1000,
  }));
  const first = spans[0];
  const last = spans[spans.length - 1];
  if (stretch.joined && first !== undefined && last !== undefined && first !== last) {
    // One night lies across the seam of a joined year.
    if (first.from === stretch.start_ms && last.to === end_ms) {
      last.to += first.to - first.from;
      spans.shift();
    }
  }
  const { hours = Number.POSITIVE_INFINITY } = schedule;
  return spans
    .flatMap((span) => {
      const shift = stretch.joined && span.from < from_ms ? whole_ms : 0;
      const on = span.from + shift;
      return switching(schedule, { on, off: Math.min(span.to + shift, on + hours * HOUR_MS) });
    })
    .sort((a, b) => a.at - b.at);
}

/** A span of time in UTC milliseconds. */
interface Span {
  on: number;
  off: number;
}

/** How a lamp that is on over a span switches on, steps down and switches off. */
function switching({ on_share, dim }: ScheduleSection, { on, off }: Span): Switching[] {
  const steps = dim.map((step) => ({ at: on + step.after_h * HOUR_MS, value: step.on_share }));
  return [{ at: on, value: on_share }, ...steps.filter(({ at }) => at < off), { at: off, value: 0 }];
}

/** Switching instants of a lamp that goes by dusk, dawn and the clock, in one night. */
function scheduled(nights: NightCalendar, k: number, schedule: ScheduleSection, clock: Clock): Switching[] {
  const white = nights.hasNight[k] === 0;
  const untilDawn = schedule.hours === undefined && (schedule.until ?? 'dawn') === 'dawn';
  const evening =
    white && (schedule.on === 'dusk' || untilDawn)
      ? undefined
      : span(nights, k, schedule.on, schedule, clock);
  const instants = evening === undefined ? [] : switching(schedule, evening);
  if (schedule.before_dawn_h === undefined || white) return instants;
  const off = nights.dawn_ms[k]!;
  const on = Math.max(off - schedule.before_dawn_h * HOUR_MS, evening?.off ?? Number.NEGATIVE_INFINITY);
  return on < off ? [...instants, { at: on, value: schedule.on_share }, { at: off, value: 0 }] : instants;
}

/** A span of the night; undefined where it is empty. */
function span(
  nights: NightCalendar,
  k: number,
  from: string,
  { hours, until }: Pick<PromiseSection, 'hours' | 'until'>,
  clock: Clock,
): Span | undefined {
  const on = from === 'dusk' ? nights.dusk_ms[k]! : clock(k, from);
  let off: number;
  if (hours !== undefined) {
    off = on + hours * HOUR_MS;
    // What begins with the dusk ends with the night: nobody wants the lamp by day.
    if (from === 'dusk') off = Math.min(off, nights.dawn_ms[k]!);
  } else if (until === undefined || until === 'dawn') off = nights.dawn_ms[k]!;
  else off = clock(k, until);
  off = Math.min(off, nights.noon_ms[k + 1]!);
  return on < off ? { on, off } : undefined;
}

const clocks = new WeakMap<NightCalendar, Map<string, Float64Array>>();

/** Reads clock times of a night in the civil time of a zone; those of a whole calendar are kept with it. */
function clockReader(nights: NightCalendar, timeZone: string): Clock {
  const known = clocks.get(nights) ?? new Map<string, Float64Array>();
  clocks.set(nights, known);
  return (k, time) => {
    const key = `${timeZone} ${time}`;
    let instants_ms = known.get(key);
    if (instants_ms === undefined) {
      instants_ms = Float64Array.from(nights.eveningDate, (date) => clockInstant_ms(date, time, timeZone));
      known.set(key, instants_ms);
    }
    return instants_ms[k]!;
  };
}

function clockInstant_ms(eveningDate: string, time: string, timeZone: string): number {
  const [year, month, day] = eveningDate.split('-').map(Number) as [number, number, number];
  const [hour, minute] = time.split(':').map(Number) as [number, number];
  const evening = DateTime.fromObject({ year, month, day }, { zone: timeZone });
  return (hour < 12 ? evening.plus({ days: 1 }) : evening).set({ hour, minute }).toMillis();
}
