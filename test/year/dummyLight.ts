import type { SpotLight } from '../../sim/spot/spotLight.ts';
import type { NightCalendar } from '../../sim/sun/NightCalendar.ts';

const HOUR_MS = 3_600_000;
const DAY_H = 24;

export interface DummyNights {
  /** Hours after the noon. */
  dusk_h?: number;
  dawn_h?: number;
  /** Nights, by number, that are white. */
  white?: readonly number[];
}

/**
 * Light on a cell hour by hour, with a calendar whose noons stand at 12:00 UTC and whose dusk and dawn are the same
 * every night.
 *
 * in: start, ISO instant of the first hour; light_W_m2, the hours; air_degC, one value or the hours; nights
 */
export function dummyLight(
  start: string,
  light_W_m2: ArrayLike<number>,
  air_degC: number | ArrayLike<number> = 25,
  nights: DummyNights = {},
): SpotLight {
  const count = light_W_m2.length;
  const start_ms = Date.parse(start);
  const column = () => new Float64Array(count);
  const calendar = dummyCalendar(start_ms, count, nights);
  return {
    start_ms,
    count,
    planeOfArray_W_m2: Float64Array.from(light_W_m2),
    beam_W_m2: column(),
    sky_W_m2: Float64Array.from(light_W_m2),
    reflected_W_m2: column(),
    ghi_W_m2: Float64Array.from(light_W_m2),
    dni_W_m2: column(),
    dhi_W_m2: Float64Array.from(light_W_m2),
    air_degC: typeof air_degC === 'number' ? column().fill(air_degC) : Float64Array.from(air_degC),
    mark: new Uint8Array(count),
    sunAltitude_deg: column(),
    dusk_ms: calendar.dusk_ms,
    dawn_ms: calendar.dawn_ms,
    nights: calendar,
    cappedHours: 0,
    nightLight_lux: 0,
  };
}

function dummyCalendar(start_ms: number, count: number, nights: DummyNights): NightCalendar {
  const { dusk_h = 6, dawn_h = 18, white = [] } = nights;
  const end_ms = start_ms + count * HOUR_MS;
  const day_ms = DAY_H * HOUR_MS;
  const firstNoon = Math.floor((start_ms - 12 * HOUR_MS) / day_ms) * day_ms + 12 * HOUR_MS;
  const noons = [firstNoon];
  while (noons.at(-1)! < end_ms) noons.push(noons.at(-1)! + day_ms);
  const starts = noons.slice(0, -1);
  return {
    count: starts.length,
    noon_ms: Float64Array.from(noons),
    dusk_ms: Float64Array.from(starts, (noon) => noon + dusk_h * HOUR_MS),
    dawn_ms: Float64Array.from(starts, (noon) => noon + dawn_h * HOUR_MS),
    hasNight: Uint8Array.from(starts, (_, k) => (white.includes(k) ? 0 : 1)),
    eveningDate: starts.map((noon) => new Date(noon).toISOString().slice(0, 10)),
    complete: Uint8Array.from(starts, (noon) => (noon >= start_ms && noon + day_ms <= end_ms ? 1 : 0)),
  };
}
