import { bisectRight } from 'd3-array';
import { DateTime } from 'luxon';
import type { Problem } from '../common/InputProblem.ts';
import { MOST_OF_A_CODE, problemList } from '../common/problemList.ts';
import { HOUR_MS } from '../common/time.ts';
import type { LampParams } from '../lamp/params.ts';
import type { PromiseSection } from '../lamp/schedule/schema.ts';
import { lightOfHours } from '../spot/lightOfHours.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { drawnAt } from '../trial/benchMeters.ts';
import { clockTimes, type Span, spanOf } from '../year/clockTimes.ts';
import { SHORT_CAUSES } from '../year/NightTotals.ts';
import { simulateNights } from '../year/simulateYear.ts';
import type { Diary, DiaryRow } from './readDiary.ts';
import { changedLamp, type Service } from './serviceDays.ts';

/** A night of a diary and what was seen of it, in hours after the lamp came on. */
export interface DiaryNight extends DiaryRow {
  /** Civil date of the evening. */
  night: string;
  seen_h: number;
  /** It was lit at least so long: seen lit, or until about when the clock switches it off anyway. */
  atLeast: boolean;
}

/** How many times what the scenario states a lamp has of each. */
export interface DiaryDeparture {
  capacitance: number;
  leakage: number;
  light: number;
  draw: number;
}

/** A diary beside the simulation. */
export interface DiaryNights {
  nights: DiaryNight[];
  /** Hours that the lamp is lit each of these nights; of one that it lasts through, so long as it could have gone on. */
  lit_h(departure: DiaryDeparture): number[];
}

/** Lamps forget how they stood in some days. */
const LEAD_H = 21 * 24;
/** How far a time may lie outside the night or the schedule: clocks and eyes differ. */
const AROUND_MS = HOUR_MS / 2;
/** Errors of seconds in the time it goes out. */
const FIT_TOLERANCE_V = 1e-4;
const RAN_OUT = (['still-empty', 'ran-empty', 'locked-out'] as const).map((cause) =>
  SHORT_CAUSES.indexOf(cause),
);
const LATE = SHORT_CAUSES.indexOf('switched-on-late');

/**
 * The nights of a diary, to be simulated again and again.
 *
 * in: service, the lamp with the light of its spot over a record that holds them; diary
 * throws: FIT_UNDETERMINED for nights that the weather does not hold, WEATHER_VALUE_OUT_OF_RANGE for times by day or
 *   outside what the lamp is switched on for, WEATHER_DUPLICATE for a night twice; all of a file together
 */
export function diaryNights(service: Service, { file, rows }: Diary): DiaryNights {
  const { lamp, light, site } = service;
  const promise = wholeSchedule(lamp);
  const problems = problemList(MOST_OF_A_CODE);
  const seenBefore = new Map<number, number>();
  const clock = clockTimes(light.nights, site.timeZone);
  const found = rows.flatMap((row) => {
    const k = bisectRight(light.nights.noon_ms, row.time_ms) - 1;
    const span =
      light.nights.hasNight[k] === 1 ? spanOf(light.nights, k, promise.from, promise, clock) : undefined;
    const problem =
      wrongDays(row, service) ?? wrongTime(row, k, span, service) ?? wrongNight(row, seenBefore.get(k));
    if (problem !== undefined) {
      problems.add(problem.code, () => ({ ...problem, file, line: row.line }));
      return [];
    }
    const { on, off } = span!;
    seenBefore.set(k, row.line);
    const seen_h = Math.max(0, (row.time_ms - on) / HOUR_MS);
    const atLeast = row.seen === 'lit' || row.time_ms > off - AROUND_MS;
    return [{ ...row, k, night: light.nights.eveningDate[k]!, seen_h, atLeast }];
  });
  problems.throwIfAny();
  return { nights: found, lit_h: litHours(service, promise, found) };
}

function wrongDays({ time_ms, written }: DiaryRow, { light, site }: Service): Problem | undefined {
  const end_ms = light.start_ms + light.count * HOUR_MS;
  if (time_ms >= light.start_ms && time_ms <= end_ms) return undefined;
  const local = localTime(site.timeZone);
  return {
    code: 'FIT_UNDETERMINED',
    got: written,
    expected: `nights that the weather holds, ${local(light.start_ms)} to ${local(end_ms)}`,
    fix: 'name the weather of the nights of the diary in the scenario.',
  };
}

function wrongTime(
  { time_ms, written }: DiaryRow,
  k: number,
  span: Span | undefined,
  { light, site }: Service,
): Problem | undefined {
  const [dusk_ms, dawn_ms] = [light.dusk_ms[k]!, light.dawn_ms[k]!];
  const { on, off } = span ?? { on: dusk_ms, off: dawn_ms };
  if (span !== undefined && time_ms >= on - AROUND_MS && time_ms <= off + AROUND_MS) return undefined;
  const local = localTime(site.timeZone);
  const byDay = time_ms < dusk_ms || time_ms > dawn_ms;
  return {
    code: 'WEATHER_VALUE_OUT_OF_RANGE',
    got: `${written}, ${byDay ? 'by day' : 'while the scenario has the lamp switched off'}`,
    expected: `a time at which the lamp is to be on, ${local(on)} to ${local(off)}`,
    fix: 'correct the time (local time, the evening has hours from 12 on), or schedule in the scenario.',
  };
}

function wrongNight({ written }: DiaryRow, before: number | undefined): Problem | undefined {
  if (before === undefined) return undefined;
  return {
    code: 'WEATHER_DUPLICATE',
    got: `${written}, the night of line ${before} again`,
    expected: 'one line for each night',
    fix: 'keep the time it went out, or else the latest at which it was lit.',
  };
}

function localTime(zone: string): (ms: number) => string {
  return (ms) => DateTime.fromMillis(ms, { zone }).toFormat('yyyy-MM-dd HH:mm');
}

/** Light of any strength, as long as the lamp is switched on. */
function wholeSchedule({ schedule: { on, hours, until } }: LampParams): PromiseSection {
  const from = on === 'dark' ? 'dusk' : on;
  return { from, hours, until, least_lumen: 1e-6, tolerance_h: 0 };
}

function litHours(
  { lamp, light, site }: Service,
  promise: PromiseSection,
  found: readonly { k: number }[],
): DiaryNights['lit_h'] {
  const hourAt = (k: number) => Math.ceil((light.nights.noon_ms[k]! - light.start_ms) / HOUR_MS);
  const from = Math.max(0, hourAt(found[0]!.k) - LEAD_H);
  const to = Math.min(light.count, hourAt(found.at(-1)!.k + 1) + 1);
  const cut = lightOfHours(light, from, to, site);
  const start = { capacitor_V: (lamp.driver.cutoff_V + lamp.capacitor.rated_V) / 2 };
  const places = found.map(
    ({ k }) => bisectRight(cut.nights.noon_ms, light.nights.noon_ms[k]! + HOUR_MS) - 1,
  );
  return (departure) => {
    const changed = changedLamp(lamp, departure.leakage, departure.draw, departure.capacitance);
    const dimmer = under(cut, departure.light);
    const options = {
      timeZone: site.timeZone,
      promise,
      start,
      tolerance_V: FIT_TOLERANCE_V,
    };
    const { nights } = simulateNights(changed, dimmer, options);
    const { promised_s, lit_s, shortBy_s, lowest_V } = nights;
    const couldGoOn_h = hoursAboveCutoff(changed);
    return places.map((n) => {
      const dark_s = RAN_OUT.reduce((sum, cause) => sum + shortBy_s[cause]![n]!, 0);
      const shone_h = (shortBy_s[LATE]![n]! + lit_s[n]!) / 3600;
      return promised_s[n]! === 0 || dark_s >= 1 ? shone_h : shone_h + couldGoOn_h(lowest_V[n]!);
    });
  };
}

function under(light: SpotLight, share: number): SpotLight {
  return { ...light, planeOfArray_W_m2: light.planeOfArray_W_m2.map((each) => each * share) };
}

const CUT = 24;
/** A driver's table may say that it draws nothing. */
const LEAST_DRAW_A = 1e-5;

/**
 * Hours for which the lit driver could draw from a voltage down to the cut-off: how far a night is from going out, so that
 * a fit knows its way on nights that the lamp lasts through.
 */
function hoursAboveCutoff(lamp: LampParams): (capacitor_V: number) => number {
  const { capacitor, driver } = lamp;
  const delayed_F = capacitor.delayed[0].capacitance_F + capacitor.delayed[1].capacitance_F;
  const step_V = Math.max(0.1, capacitor.rated_V - driver.cutoff_V) / CUT;
  const hours = [0];
  for (let i = 1; i <= CUT; i++) {
    const middle_V = driver.cutoff_V + (i - 0.5) * step_V;
    const charge_C = (capacitor.capacitance_F + capacitor.rise_F_V * middle_V + delayed_F) * step_V;
    const draw_A = Math.max(LEAST_DRAW_A, drawnAt(lamp, middle_V).supply_mA / 1000);
    hours.push(hours[i - 1]! + charge_C / draw_A / 3600);
  }
  return (capacitor_V) => {
    const at = Math.min(CUT - 1e-9, Math.max(0, (capacitor_V - driver.cutoff_V) / step_V));
    const below = Math.floor(at);
    return hours[below]! + (at - below) * (hours[below + 1]! - hours[below]!);
  };
}
