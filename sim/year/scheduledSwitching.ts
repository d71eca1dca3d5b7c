import { HOUR_MS } from '../common/time.ts';
import { motionShare } from '../lamp/schedule/motion.ts';
import type { ScheduleSection } from '../lamp/schedule/schema.ts';
import type { NightCalendar } from '../sun/NightCalendar.ts';
import { type Clock, type Span, spanOf } from './clockTimes.ts';
import type { DarkStretch } from './sensedDark.ts';

/** A change of the share of the time that the LED is on, and of the share of its light that it shows then. */
export interface Switching {
  at: number;
  duty: number;
  glow: number;
}

/** What makes the switching of a span: the schedule, and the hours and seed by which motion comes. */
export interface Switcher {
  schedule: ScheduleSection;
  start_ms: number;
  seed: number;
}

/** Switching instants of a lamp that goes by dusk, dawn and the clock, in one night. */
export function scheduledSwitching(
  nights: NightCalendar,
  k: number,
  switcher: Switcher,
  clock: Clock,
): Switching[] {
  const { schedule } = switcher;
  const white = nights.hasNight[k] === 0;
  const untilDawn = schedule.hours === undefined && (schedule.until ?? 'dawn') === 'dawn';
  const evening =
    white && (schedule.on === 'dusk' || untilDawn)
      ? undefined
      : spanOf(nights, k, schedule.on, schedule, clock);
  const instants = evening === undefined ? [] : switching(switcher, evening);
  if (schedule.before_dawn_h === undefined || white) return instants;
  const off = nights.dawn_ms[k]!;
  const on = Math.max(off - schedule.before_dawn_h * HOUR_MS, evening?.off ?? Number.NEGATIVE_INFINITY);
  return on < off ? [...instants, ...switching(switcher, { on, off }, [])] : instants;
}

/** Switching instants of a lamp that senses the dark, in the order of time, from the start of the plan on. */
export function sensedSwitching(
  stretch: { start_ms: number; count: number; joined: boolean },
  dark: readonly DarkStretch[],
  switcher: Switcher,
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
  const { hours = Number.POSITIVE_INFINITY } = switcher.schedule;
  return spans
    .flatMap((span) => {
      const shift = stretch.joined && span.from < from_ms ? whole_ms : 0;
      const on = span.from + shift;
      return switching(switcher, { on, off: Math.min(span.to + shift, on + hours * HOUR_MS) });
    })
    .sort((a, b) => a.at - b.at);
}

/**
 * How a lamp that is on over a span switches on, steps down and switches off; with motion, what comes of it in each hour
 * of the record.
 */
function switching(
  { schedule, start_ms, seed }: Switcher,
  { on, off }: Span,
  dim = schedule.dim,
): Switching[] {
  const { on_share, motion } = schedule;
  const end = { at: off, duty: 0, glow: 0 };
  if (motion === undefined && dim.length === 0) return [{ at: on, duty: on_share, glow: 1 }, end];
  const firstHour = Math.floor(start_ms / HOUR_MS);
  const hourOf = (ms: number) => Math.floor((ms - start_ms) / HOUR_MS);
  const dutyAt = (ms: number) =>
    motion === undefined ? on_share : on_share * motionShare(motion, seed, firstHour + hourOf(ms));
  const steps = dim
    .map(({ after_h, light_share }) => ({ at: on + after_h * HOUR_MS, glow: light_share }))
    .sort((a, b) => a.at - b.at);
  const glowAt = (ms: number) => steps.findLast(({ at }) => at <= ms)?.glow ?? 1;
  const instants = new Set([on, ...steps.map(({ at }) => at)]);
  if (motion !== undefined) {
    let hour_ms = start_ms + (hourOf(on) + 1) * HOUR_MS;
    for (; hour_ms < off; hour_ms += HOUR_MS) instants.add(hour_ms);
  }
  const inOrder = [...instants].filter((at) => at < off).sort((a, b) => a - b);
  return [...inOrder.map((at) => ({ at, duty: dutyAt(at), glow: glowAt(at) })), end];
}
