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
  let firstNight = 0;
  if (joined) while (nights.noon_ms[firstNight]! < start_ms) firstNight++;
  const from_ms = joined ? nights.noon_ms[firstNight]! : start_ms;
  const to_ms = from_ms + count * HOUR_MS;
  const nightCount = joined ? Math.round(count / 24) : nights.count;
  const instants: Instant[] = [];
  const clock = clockReader(nights, stretch.timeZone);
  const sensed = stretch.dark === undefined ? [] : sensedInstants(stretch, stretch.dark, schedule, from_ms);
  let nextSensed = 0;
  for (let k = firstNight; k < firstNight + nightCount; k++) {
    const tonight: Instant[] = [{ at: nights.noon_ms[k]!, what: PLAN.noon, value: k - firstNight }];
    const noonAfter = nights.noon_ms[k + 1]!;
    const white = nights.hasNight[k] === 0;
    if (!white) {
      tonight.push({ at: nights.dusk_ms[k]!, what: PLAN.dusk, value: 0 });
      tonight.push({ at: nights.dawn_ms[k]!, what: PLAN.dawn, value: 0 });
    }
    if (stretch.dark === undefined) tonight.push(...scheduled(nights, k, schedule, clock));
    while (nextSensed < sensed.length && sensed[nextSensed]!.at < noonAfter)
      tonight.push(sensed[nextSensed++]!);
    const promised = white ? undefined : span(nights, k, promise.from, promise, clock);
    if (promised !== undefined) {
      tonight.push({ at: promised.on, what: PLAN.promise, value: 1 });
      tonight.push({ at: promised.off, what: PLAN.promise, value: 0 });
    }
    for (const instant of tonight) instant.at = Math.max(instant.at, nights.noon_ms[k]!);
    tonight.sort((a, b) => a.at - b.at || a.what - b.what);
    for (const { at, ...rest } of tonight) {
      instants.push({ ...rest, at: Math.min(Math.max(at, from_ms), Math.min(noonAfter, to_ms)) });
    }
  }
  const plan: NightPlan = {
    from_s: (from_ms - start_ms) / 1000,
    to_s: (to_ms - start_ms) / 1000,
    nights: nightCount,
    count: instants.length,
    at_s: Float64Array.from(instants, ({ at }) => (at - start_ms) / 1000),
    what: Uint8Array.from(instants, ({ what }) => what),
    value: Float64Array.from(instants, ({ value }) => value),
  };
  return { plan, firstNight };
}

interface Instant {
  at: number;
  what: number;
  value: number;
}

type Clock = (night: number, time: string) => number;

/** Switching instants of a lamp that senses the dark, in the order of time, from the start of the plan on. */
function sensedInstants(
  stretch: PlanStretch,
  dark: readonly DarkStretch[],
  schedule: ScheduleSection,
  from_ms: number,
): Instant[] {
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

function share(at: number, value: number): Instant {
  return { at, what: PLAN.share, value };
}

/** A span of time in UTC milliseconds. */
interface Span {
  on: number;
  off: number;
}

/** How a lamp that is on over a span switches on, steps down and switches off. */
function switching({ on_share, dim }: ScheduleSection, { on, off }: Span): Instant[] {
  const steps = dim.map((step) => share(on + step.after_h * HOUR_MS, step.on_share));
  return [share(on, on_share), ...steps.filter(({ at }) => at < off), share(off, 0)];
}

/** Switching instants of a lamp that goes by dusk, dawn and the clock, in one night. */
function scheduled(nights: NightCalendar, k: number, schedule: ScheduleSection, clock: Clock): Instant[] {
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
  return on < off ? [...instants, share(on, schedule.on_share), share(off, 0)] : instants;
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

/** Reads clock times of a night in the civil time of a zone. */
function clockReader(nights: NightCalendar, timeZone: string): Clock {
  return (k, time) => {
    const [year, month, day] = nights.eveningDate[k]!.split('-').map(Number) as [number, number, number];
    const [hour, minute] = time.split(':').map(Number) as [number, number];
    const evening = DateTime.fromObject({ year, month, day }, { zone: timeZone });
    return (hour < 12 ? evening.plus({ days: 1 }) : evening).set({ hour, minute }).toMillis();
  };
}
