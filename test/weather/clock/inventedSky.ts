import { Body, Equator, MakeTime, Observer, SiderealTime } from 'astronomy-engine';
import { type RandomStream, randomStream } from '../../../sim/common/random.ts';
import type { SunSeries } from '../../../sim/weather/clock/foldSeries.ts';

/** Invented climates; nothing here is shared with the estimator. */
export const CLIMATES = ['clear', 'mixed', 'overcast', 'morning-fog', 'afternoon-cloud'] as const;
export type Climate = (typeof CLIMATES)[number];

export interface InventedSky {
  seed: number;
  climate: Climate;
  latitude_deg: number;
  longitude_deg: number;
  start_ms: number;
  days: number;
  step_s: number;
  /** Stamp minus middle of the interval, minutes; may change through the series. */
  offset_min: number | ((middle_ms: number) => number);
  /** Value at the stamp instead of a mean. */
  instantaneous?: boolean;
  /** Values rounded to this, W/m2. */
  quantum_W_m2?: number;
  /** Sensor reading in the dark. */
  nightReading_W_m2?: number;
  /** Share of the rows lost, in runs of some hours. */
  lost?: number;
  /** Height of what stands around the sensor, degrees: below it only half the sky's light is left. */
  horizon_deg?: number;
  /** The same of what stands on one side alone. */
  east_deg?: number;
  west_deg?: number;
  /** Hour of the site's mean time after which, until 3 at night, nothing is read. */
  stops_h?: number;
}

const DAY_MS = 86_400_000;

/** A seeded series: beam and sky of a turbid clear day, times cloud that wanders from day to day and hour to hour. */
export function inventedSky(sky: InventedSky): SunSeries {
  const random = randomStream(sky.seed, 'invented sky');
  const sun = sunTrack(sky);
  const perDay = Math.round(86_400 / sky.step_s);
  const parts = sky.instantaneous ? 1 : sky.step_s > 1200 ? 6 : 2;
  const cloud = cloudTrack(sky, random);
  const stamp: number[] = [];
  const ghi: number[] = [];
  let lostUntil = -1;
  for (let i = 0; i < sky.days * perDay; i++) {
    const middle = sky.start_ms + (i + 0.5) * sky.step_s * 1000;
    let sum = 0;
    for (let p = 0; p < parts; p++) {
      const at = middle + ((p + 0.5) / parts - 0.5) * sky.step_s * 1000;
      const { altitude_deg, solarHour } = sun(at);
      const through = cloud(at, solarHour);
      const side_deg = solarHour < 12 ? sky.east_deg : sky.west_deg;
      sum += irradiance(altitude_deg, through, side_deg ?? sky.horizon_deg ?? 0);
    }
    let value =
      sum / parts + (sky.nightReading_W_m2 ?? 0) + 0.3 * random.normal() * (sky.nightReading_W_m2 ? 1 : 0);
    const quantum = sky.quantum_W_m2 ?? 0.1;
    value = Math.round(value / quantum) * quantum;
    if (sky.lost && random.uniform() < sky.lost / 12) lostUntil = i + 1 + Math.floor(random.uniform() * 24);
    const clock_h = (((middle / 3_600_000 + sky.longitude_deg / 15) % 24) + 24) % 24;
    if (sky.stops_h !== undefined && (clock_h > sky.stops_h || clock_h < 3)) value = 0;
    stamp.push(
      middle + (typeof sky.offset_min === 'number' ? sky.offset_min : sky.offset_min(middle)) * 60_000,
    );
    ghi.push(i < lostUntil ? Number.NaN : value);
  }
  return {
    stamp_ms: Float64Array.from(stamp),
    ghi_W_m2: Float64Array.from(ghi),
    step_s: sky.step_s,
    latitude_deg: sky.latitude_deg,
    longitude_deg: sky.longitude_deg,
  };
}

/** Apparent altitude and true solar hour, from an almanac's equatorial coordinates every six hours. */
function sunTrack(sky: InventedSky): (at_ms: number) => { altitude_deg: number; solarHour: number } {
  const observer = new Observer(0, 0, 0);
  const knots = sky.days * 4 + 9;
  const from = sky.start_ms - DAY_MS;
  const declination = new Float64Array(knots);
  const rightAscension = new Float64Array(knots);
  const sidereal = new Float64Array(knots);
  for (let i = 0; i < knots; i++) {
    const time = MakeTime(new Date(from + i * (DAY_MS / 4)));
    const place = Equator(Body.Sun, time, observer, true, true);
    declination[i] = place.dec;
    rightAscension[i] = place.ra;
    sidereal[i] = SiderealTime(time);
  }
  const phi = (sky.latitude_deg * Math.PI) / 180;
  return (at_ms) => {
    const position = (at_ms - from) / (DAY_MS / 4);
    const low = Math.floor(position);
    const part = position - low;
    let turn = rightAscension[low + 1]! - rightAscension[low]!;
    if (turn < -12) turn += 24;
    const ra = rightAscension[low]! + part * turn;
    const dec = ((declination[low]! + part * (declination[low + 1]! - declination[low]!)) * Math.PI) / 180;
    const hour = sidereal[low]! + part * 6 * 1.00273791 + sky.longitude_deg / 15 - ra;
    const angle = (hour * Math.PI) / 12;
    const sine = Math.sin(phi) * Math.sin(dec) + Math.cos(phi) * Math.cos(dec) * Math.cos(angle);
    const geometric = (Math.asin(sine) * 180) / Math.PI;
    const lift =
      geometric > -1.5 ? 1.02 / Math.tan(((geometric + 10.3 / (geometric + 5.11)) * Math.PI) / 180) / 60 : 0;
    return { altitude_deg: geometric + Math.max(0, lift), solarHour: (((hour + 12) % 24) + 24) % 24 };
  };
}

/** Beam by Meinel's transmittance, sky light, twilight that halves every degree; cloud through which beam dies first. */
function irradiance(altitude_deg: number, through: number, horizon_deg: number): number {
  if (altitude_deg < -7) return 0;
  if (altitude_deg < 0) return 3.5 * 0.46 ** -altitude_deg * Math.sqrt(through);
  const sine = Math.sin((altitude_deg * Math.PI) / 180);
  const mass = 1 / (sine + 0.025 * Math.exp(-11 * sine));
  const beam = altitude_deg > horizon_deg ? 1361 * 0.7 ** (mass ** 0.678) * sine : 0;
  const sky = 3.5 + 110 * sine ** 0.75;
  const beamThrough = Math.max(0, (through - 0.35) / 0.65);
  return (
    beam * beamThrough +
    sky * (beamThrough > 0 ? 1 + 0.8 * (1 - beamThrough) : 1) * Math.min(1, through / 0.35) ** 0.9
  );
}

/** Transmittance of the cloud, 0.04 to 1.08, as a function of time. */
function cloudTrack(sky: InventedSky, random: RandomStream): (at_ms: number, solarHour: number) => number {
  const hours = (sky.days + 2) * 24;
  const track = new Float64Array(hours);
  const fogEnd = new Float64Array(sky.days + 2);
  const fogDepth = new Float64Array(sky.days + 2);
  const storm = new Float64Array(sky.days + 2);
  const kind = {
    clear: { middle: 1.6, days: 0.9, gust: 0.5 },
    mixed: { middle: 0.2, days: 1.2, gust: 0.9 },
    overcast: { middle: -1.3, days: 0.7, gust: 0.6 },
    'morning-fog': { middle: 0.8, days: 1, gust: 0.6 },
    'afternoon-cloud': { middle: 1, days: 0.8, gust: 0.6 },
  }[sky.climate];
  let day = random.normal();
  let hour = random.normal();
  for (let h = 0; h < hours; h++) {
    if (h % 24 === 0) {
      day = 0.6 * day + 0.8 * random.normal();
      const d = h / 24;
      fogEnd[d] = 7.5 + 4 * random.uniform();
      fogDepth[d] = random.uniform() < 0.65 ? 0.15 + 0.25 * random.uniform() : 1;
      storm[d] = random.uniform() < 0.7 ? 12 + 3 * random.uniform() : 25;
    }
    hour = 0.75 * hour + 0.66 * random.normal();
    track[h] = kind.middle + kind.days * day + kind.gust * hour;
  }
  return (at_ms, solarHour) => {
    const position = (at_ms - sky.start_ms) / 3_600_000 + 24;
    const low = Math.min(hours - 2, Math.floor(position));
    const part = position - low;
    const state = track[low]! * (1 - part) + track[low + 1]! * part;
    let through = 0.06 + 1 / (1 + Math.exp(-state));
    const d = Math.min(sky.days + 1, Math.floor(position / 24));
    if (sky.climate === 'morning-fog' && solarHour < fogEnd[d]!) through *= fogDepth[d]!;
    if (sky.climate === 'afternoon-cloud' && solarHour > storm[d]!) through *= 0.35;
    return Math.max(0.04, through);
  };
}
