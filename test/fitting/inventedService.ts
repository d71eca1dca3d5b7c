import { randomStream } from '../../sim/common/random.ts';
import type { CapacitorLog } from '../../sim/fitting/readCapacitorLog.ts';
import { changedLamp, type Service } from '../../sim/fitting/serviceDays.ts';
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

export type Schedule = { on: string; hours: number };

export function service(schedule: Schedule): Service {
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

export const TRUE = { leakage: 1.6, share: 0.85, draw: 1.1 };

/** Voltages each 10 minutes of a lamp other than the scenario's, from the circuit written a second time. */
export function trueVoltages(
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

export const EVENING: Schedule = { on: '17:00', hours: 6 };
export const EVENING_TRUE = trueVoltages(service(EVENING), EVENING);

export function noisyLog(
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
