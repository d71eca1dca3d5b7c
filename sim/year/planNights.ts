import { Kept } from '../common/Kept.ts';
import { HOUR_MS } from '../common/time.ts';
import type { PromiseSection, ScheduleSection } from '../lamp/schedule/schema.ts';
import type { NightCalendar } from '../sun/NightCalendar.ts';
import { clockTimes, spanOf } from './clockTimes.ts';
import { type NightPlan, PLAN } from './NightPlan.ts';
import { scheduledSwitching, sensedSwitching } from './scheduledSwitching.ts';
import type { DarkStretch } from './sensedDark.ts';

export interface PlannedNights {
  plan: NightPlan;
  /** Index in the calendar of the plan's night 0. */
  firstNight: number;
}

/** Plans kept of a calendar: of what lamps and promises differ in, and of stretches of nights. */
const MOST_PLANS = 32;

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
  /** Of the motion that a lamp waits for; 1 unless stated. */
  seed?: number | undefined;
}

const made = new WeakMap<NightCalendar, Kept<PlannedNights>>();

/** The same as `planNights`, kept with the calendar for equal schedules and promises, but for a lamp that senses the dark. */
export function keptPlan(
  stretch: PlanStretch,
  schedule: ScheduleSection,
  promise: PromiseSection,
): PlannedNights {
  const { nights, dark, ...terms } = stretch;
  if (dark !== undefined) return planNights(stretch, schedule, promise);
  const known = made.get(nights) ?? new Kept(MOST_PLANS);
  made.set(nights, known);
  return known.of([terms, schedule, promise], () => planNights(stretch, schedule, promise));
}

/**
 * The plan of all nights of a stretch: noon, dusk and dawn, the schedule's switching and the promised hours.
 *
 * A clock time belongs to the night whose evening or morning it falls into; 12:00 and later is the evening. Nothing
 * is promised in a white night, nor does a lamp switch on by dusk then.
 *
 * in: stretch; schedule; promise
 * out: the plan, and where in the calendar it begins
 */
export function planNights(
  stretch: PlanStretch,
  schedule: ScheduleSection,
  promise: PromiseSection,
): PlannedNights {
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
  const clock = clockTimes(nights, stretch.timeZone);
  const switcher = { schedule, start_ms, seed: stretch.seed ?? 1 };
  const sensed = stretch.dark === undefined ? [] : sensedSwitching(stretch, stretch.dark, switcher, from_ms);
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
      for (const each of scheduledSwitching(nights, k, switcher, clock))
        instants.add(each.at, PLAN.share, each.duty, each.glow);
    }
    for (; nextSensed < sensed.length && sensed[nextSensed]!.at < noonAfter; nextSensed++) {
      const each = sensed[nextSensed]!;
      instants.add(each.at, PLAN.share, each.duty, each.glow);
    }
    const promised = white ? undefined : spanOf(nights, k, promise.from, promise, clock);
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
    glow: Float64Array.from(instants.glow),
  };
  return { plan, firstNight };
}

/** Instants in the order of time, those of one night sorted as they come. */
class Instants {
  readonly at_ms: number[] = [];
  readonly what: number[] = [];
  readonly value: number[] = [];
  readonly glow: number[] = [];
  private begin = 0;
  private noon_ms = 0;

  /** in: noon_ms, before which nothing of the night happens */
  beginNight(noon_ms: number): void {
    this.begin = this.at_ms.length;
    this.noon_ms = noon_ms;
  }

  add(at_ms: number, what: number, value: number, glow = 0): void {
    const instant_ms = Math.max(at_ms, this.noon_ms);
    let place = this.at_ms.length;
    for (; place > this.begin; place--) {
      const before_ms = this.at_ms[place - 1]!;
      if (before_ms < instant_ms || (before_ms === instant_ms && this.what[place - 1]! <= what)) break;
      this.at_ms[place] = before_ms;
      this.what[place] = this.what[place - 1]!;
      this.value[place] = this.value[place - 1]!;
      this.glow[place] = this.glow[place - 1]!;
    }
    this.at_ms[place] = instant_ms;
    this.what[place] = what;
    this.value[place] = value;
    this.glow[place] = glow;
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
