import { expect, it } from 'vitest';
import { randomStream } from '../../sim/common/random.ts';
import { type CapacitorLog, readCapacitorLog } from '../../sim/fitting/readCapacitorLog.ts';
import { changedLamp, type Service } from '../../sim/fitting/serviceDays.ts';
import { serviceLog } from '../../sim/fitting/serviceLog.ts';
import type { SpotLight } from '../../sim/spot/spotLight.ts';
import { nightCalendar } from '../../sim/sun/NightCalendar.ts';
import { makeLamp } from '../lamp/makeLamp.ts';
import { libraryLamp, sineDay } from '../year/days.ts';
import { referenceRun } from '../year/referenceCircuit.ts';

const SITE = { latitude_deg: 54, longitude_deg: 0, elevation_m: 0, timeZone: 'UTC', albedo: 0.2 };
const START_MS = Date.UTC(2025, 0, 5);
const LEAD_DAYS = 3;
const LOG_DAYS = 14;
const DAYS = LEAD_DAYS + LOG_DAYS;

/** Peaks of an invented January, W/m2. */
const PEAKS = [90, 160, 60, 210, 40, 120, 180, 30, 75, 240, 110, 50, 95, 190, 65, 130, 85];

function januaryLight(): SpotLight {
  const count = DAYS * 24;
  const planeOfArray_W_m2 = Float64Array.from(PEAKS.flatMap((peak) => sineDay(8, 16, 1.6 * peak)));
  const column = () => new Float64Array(count);
  const nights = nightCalendar(START_MS, count, SITE);
  return {
    start_ms: START_MS,
    count,
    planeOfArray_W_m2,
    beam_W_m2: column(),
    sky_W_m2: planeOfArray_W_m2.slice(),
    reflected_W_m2: column(),
    ghi_W_m2: column(),
    dni_W_m2: column(),
    dhi_W_m2: column(),
    air_degC: column().fill(10),
    mark: new Uint8Array(count),
    sunAltitude_deg: column(),
    dusk_ms: nights.dusk_ms,
    dawn_ms: nights.dawn_ms,
    nights,
    cappedHours: 0,
    nightLight_lux: 0,
  };
}

type Schedule = { on: string; hours: number };

function service(schedule: Schedule): Service {
  const library = libraryLamp({ schedule, jar: { fixed_degC: 10 } });
  const lamp = makeLamp({
    ...library,
    capacitor: { ...library.capacitor, capacitance_F: 500, leakage_uA: 1000 },
  });
  return {
    lamp,
    light: januaryLight(),
    site: SITE,
    promise: { from: 'dusk', hours: 6, least_lumen: 1, tolerance_h: 0.25 },
  };
}

const TRUE = { leakage: 1.6, share: 0.85, draw: 1.1 };

/** Voltages each 10 minutes of a lamp other than the scenario's, from the circuit written a second time. */
function trueVoltages(
  { lamp, light }: Service,
  schedule: Schedule,
): { time_ms: number[]; capacitor_V: number[] } {
  const changed = changedLamp(lamp, TRUE.leakage, TRUE.draw);
  const on_s = Number(schedule.on.slice(0, 2)) * 3600;
  const time_ms: number[] = [];
  const capacitor_V: number[] = [];
  referenceRun(
    changed,
    light.planeOfArray_W_m2.map((each) => each * TRUE.share),
    light.air_degC,
    [1.9, 1.85, 1.8],
    (time_s) => ((time_s - on_s + 86_400) % 86_400 < schedule.hours * 3600 && time_s >= on_s ? 1 : 0),
    120,
    (time_s, main_V) => {
      if (time_s % 600 !== 0 || time_s < LEAD_DAYS * 86_400) return;
      time_ms.push(START_MS + time_s * 1000);
      capacitor_V.push(main_V);
    },
  );
  return { time_ms, capacitor_V };
}

const EVENING: Schedule = { on: '17:00', hours: 6 };
const EVENING_TRUE = trueVoltages(service(EVENING), EVENING);

function noisyLog(
  truth: { time_ms: number[]; capacitor_V: number[] },
  seed: number,
  ahead_ms = 0,
  noise_V = 0.005,
): CapacitorLog {
  const random = randomStream(seed, 'noise of a logger');
  return {
    file: 'log.csv',
    time_ms: truth.time_ms.map((each) => each + ahead_ms),
    capacitor_V: truth.capacitor_V.map((each) => each + noise_V * random.normal()),
    step_ms: 600_000,
  };
}

it('the circuit written a second time is followed to a millivolt, and leakage, light share and draw are found', () => {
  const fit = serviceLog(service(EVENING), { file: 'log.csv', ...EVENING_TRUE, step_ms: 600_000 });
  const [leakage, share, draw] = fit.estimates;
  expect(fit.misfit_V).toBeLessThan(1e-3);
  // The circuit's steps of 120 s, and what the log's beginning leaves open of the delayed branches.
  expect(leakage!.value / (1000 * TRUE.leakage)).toBeCloseTo(1, 2);
  expect(share!.value).toBeCloseTo(TRUE.share, 3);
  expect(draw!.value).toBeCloseTo(TRUE.draw, 3);
  expect(fit.clockAhead_min).toBe(0);
  expect(fit.notes).toEqual([]);
});

it('14 days at 10 minutes with 5 mV of noise give leakage, light share and draw within their intervals', {
  timeout: 60_000,
}, () => {
  const here = service(EVENING);
  const truths = [here.lamp.capacitor.leakage_A * 1e6 * TRUE.leakage, TRUE.share, TRUE.draw];
  const held = [0, 0, 0];
  for (let seed = 1; seed <= 20; seed++) {
    const fit = serviceLog(here, noisyLog(EVENING_TRUE, seed));
    expect(fit.clockAhead_min).toBe(0);
    fit.estimates.forEach(({ low, high }, k) => {
      if (truths[k]! >= low && truths[k]! <= high) held[k]!++;
    });
    // Known well enough to be of use.
    expect(fit.estimates[1]!.high - fit.estimates[1]!.low).toBeLessThan(0.02);
    expect(fit.estimates[2]!.high - fit.estimates[2]!.low).toBeLessThan(0.02);
  }
  // 18 of 20 expected, spread 1.3.
  for (const count of held) expect(count).toBeGreaterThanOrEqual(14);
});

it.each([
  ['ahead', 3_600_000, 60],
  ['behind', -3_600_000, -60],
] as const)(
  'a log whose clock is an hour %s is noticed, and read with the clock put right',
  { timeout: 60_000 },
  (word, ahead_ms, minutes) => {
    const fit = serviceLog(service(EVENING), noisyLog(EVENING_TRUE, 3, ahead_ms));
    expect(fit.clockAhead_min).toBe(minutes);
    expect(fit.notes.join(' ')).toMatch(new RegExp(`about 60 minutes ${word}`));
    const share = fit.estimates[1]!;
    expect(share.low).toBeLessThan(TRUE.share + 0.005);
    expect(share.high).toBeGreaterThan(TRUE.share - 0.005);
  },
);

it('a clock is called wrong where the misfit falls to 0.6 of itself, and believed where it falls to 0.8', {
  timeout: 60_000,
}, () => {
  // Half an hour makes a misfit of some 36 mV; noise of the log stays whatever the clock.
  const found = (noise_V: number) =>
    serviceLog(service(EVENING), noisyLog(EVENING_TRUE, 3, 1_800_000, noise_V));
  const clear = found(0.025);
  expect(clear.clockAhead_min).toBe(30);
  const [, from_mV, to_mV] = /falls from (\d+) to (\d+) mV/.exec(clear.notes.join(' '))!;
  expect(Number(to_mV) / Number(from_mV)).toBeCloseTo(0.6, 1);
  expect(found(0.042).clockAhead_min).toBe(0);
});

it('where the LED burns all the short hours it says that leakage and draw cannot be told apart, and asks for a night off', {
  timeout: 60_000,
}, () => {
  const allNight: Schedule = { on: '16:00', hours: 16 };
  const here = service(allNight);
  const fit = serviceLog(here, noisyLog(trueVoltages(here, allNight), 4));
  expect(fit.darkOff_h).toBeLessThan(20);
  expect(fit.estimates.map(({ key }) => key)).toEqual(['leakage_uA', 'light_share']);
  expect(fit.notes.join(' ')).toMatch(/cannot be told apart.*one night/);
});

it('a log shorter than three days, or of other days than the weather, is refused', () => {
  const here = service(EVENING);
  const log = noisyLog(EVENING_TRUE, 1);
  const short = { ...log, time_ms: log.time_ms.slice(0, 300), capacitor_V: log.capacitor_V.slice(0, 300) };
  expect(() => serviceLog(here, short)).toThrow(/FIT_UNDETERMINED[\s\S]*at least 3 days/);
  const late = noisyLog(EVENING_TRUE, 1, 10 * 86_400_000);
  expect(() => serviceLog(here, late)).toThrow(/FIT_UNDETERMINED[\s\S]*days that the weather holds/);
});

const csv = (rows: readonly string[]) => ({
  name: 'log.csv',
  bytes: new TextEncoder().encode(`time_utc,capacitor_V\n${rows.join('\n')}\n`),
});

it('a log that jumps backwards, or is in millivolts, is refused with its line', () => {
  const rows = ['2025-01-05T00:00Z,1.9', '2025-01-05T00:10Z,1.9', '2025-01-05T00:05Z,1.9'];
  expect(() => readCapacitorLog(csv(rows), 2.7)).toThrow(/WEATHER_DISORDER {2}log\.csv, line 4/);
  const millivolts = ['2025-01-05T00:00Z,1900', '2025-01-05T00:10Z,1898', '2025-01-05T00:20Z,1897'];
  expect(() => readCapacitorLog(csv(millivolts), 2.7)).toThrow(
    /SCENARIO_WRONG_UNIT[\s\S]*divide millivolts by 1000/,
  );
  const odd = ['2025-01-05T00:00Z,1.9', '2025-01-05T00:10Z,9.5', '2025-01-05T00:20Z,1.9'];
  expect(() => readCapacitorLog(csv(odd), 2.7)).toThrow(/WEATHER_VALUE_OUT_OF_RANGE {2}log\.csv, line 3/);
  expect(readCapacitorLog(csv(rows.slice(0, 2)), 2.7)).toMatchObject({
    capacitor_V: [1.9, 1.9],
    step_ms: 600_000,
  });
});
