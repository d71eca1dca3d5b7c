import { randomStream } from '../../sim/common/random.ts';
import type { CapacitorLog } from '../../sim/fitting/readCapacitorLog.ts';
import { changedLamp, type Service } from '../../sim/fitting/serviceDays.ts';
import type { SpotLight } from '../../sim/spot/spotLight.ts';
import { nightCalendar } from '../../sim/sun/NightCalendar.ts';
import { PLAN } from '../../sim/year/NightPlan.ts';
import { makeLamp } from '../lamp/makeLamp.ts';
import { libraryLamp, sineDay } from '../year/days.ts';
import { outsideRun } from '../year/outsideRun.ts';

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
  const { count, planeOfArray_W_m2, air_degC } = light;
  const on_s = Number(schedule.on.slice(0, 2)) * 3600;
  const at_s: number[] = [];
  for (let day_s = 0; day_s < count * 3600; day_s += 86_400)
    at_s.push(day_s + on_s, day_s + on_s + schedule.hours * 3600);
  const plan = {
    from_s: 0,
    to_s: count * 3600,
    nights: 1,
    count: at_s.length,
    at_s: Float64Array.from(at_s),
    what: new Uint8Array(at_s.length).fill(PLAN.share),
    value: Float64Array.from(at_s, (_, i) => (i + 1) % 2),
    glow: Float64Array.from(at_s, (_, i) => (i + 1) % 2),
  };
  const light_W_m2 = planeOfArray_W_m2.map((each) => each * TRUE.share);
  const input = { count, light_W_m2, jar_degC: air_degC, plan, leastLight_lm: 0 };
  const { read_V } = outsideRun(changed, input, [1.9, 1.85, 1.8], 1e-8, 600);
  // The first reading is that at 10 minutes.
  const lead = LEAD_DAYS * 144 - 1;
  return {
    time_ms: read_V.slice(lead).map((_, i) => START_MS + (lead + i + 1) * 600_000),
    capacitor_V: read_V.slice(lead),
  };
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
