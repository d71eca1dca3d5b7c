import { cos } from '../common/elementary/sin.ts';
import { square } from '../common/numeric.ts';
import type { RandomStream } from '../common/random.ts';
import type { SkyHours } from './SkyHours.ts';

/**
 * How the air of single days departs from the average year, at lowland places near 54 N. Assumptions, no source: single
 * days stray by 3 to 4 degrees, and the daily swing runs from 1.5 degrees on a dull winter day to 12 on a clear one in
 * June.
 */
const AIR = {
  /** Deviation of the daily mean from the average year. */
  straying_K: { winter: 3.6, summer: 2.6 },
  /** Correlation of that deviation from one day to the next. */
  persistence: 0.75,
  /** Correlation with the brightness of the day, negative in winter: clear days are frosty, dull ones mild. */
  leaning: 0.55,
  dailySwing_K: { least: 1.2, perRootOf_kWh_m2: 4 },
  /** Hours after solar noon at which the day is warmest. */
  warmestAfterNoon_h: 2.5,
};

/** The air of the average year, and how far it swings, day by day. */
export interface AirDays {
  mean_degC: ArrayLike<number>;
  /** Season: from -1 in the coldest to 1 in the warmest. */
  warmth: ArrayLike<number>;
  /** From the coldest to the warmest hour. */
  swing_K: ArrayLike<number>;
}

/** The air of a run of days. */
export interface Air {
  air_degC: Float64Array;
  /** How far each day strays from the average year, mean 0 and deviation 1: high for warm days. */
  straying: Float64Array;
}

/**
 * Usual swing of the air within a day by its light, K.
 * @example usualSwing_K(1000); // => 5.2
 */
export function usualSwing_K(irradiation_Wh_m2: number): number {
  const { least, perRootOf_kWh_m2 } = AIR.dailySwing_K;
  return least + perRootOf_kWh_m2 * Math.sqrt(irradiation_Wh_m2 / 1000);
}

/**
 * Hourly temperature of the air in degrees Celsius, at the middle of each hour: the average year, a wandering
 * deviation that leans on the weather, and a daily swing, coldest at sunrise.
 *
 * in: sky; days, as many; brightness, the normal number behind each day's clearness; random, a stream
 * out: one value an hour, the last day followed by the first; one deviation a day
 * valid: the parts and their sizes are assumptions that stand in the file
 */
export function airTemperature(
  sky: SkyHours,
  days: AirDays,
  brightness: ArrayLike<number>,
  random: RandomStream,
): Air {
  const straying = strayingOf(days, brightness, random);
  const turns = turningPoints(sky, days, straying);
  const air_degC = new Float64Array(sky.shape.length);
  let next = 1;
  for (let hour = 0; hour < air_degC.length; hour++) {
    const middle_h = hour + 0.5;
    while (turns[next]!.at_h < middle_h) next++;
    const from = turns[next - 1]!;
    const to = turns[next]!;
    const way = (middle_h - from.at_h) / (to.at_h - from.at_h);
    air_degC[hour] = from.value_degC + ((to.value_degC - from.value_degC) * (1 - cos(Math.PI * way))) / 2;
  }
  return { air_degC, straying };
}

function strayingOf({ warmth }: AirDays, brightness: ArrayLike<number>, random: RandomStream): Float64Array {
  const straying = new Float64Array(brightness.length);
  let deviation = random.normal();
  for (let day = 0; day < straying.length; day++) {
    const lean = AIR.leaning * warmth[day]!;
    const fresh = lean * brightness[day]! + Math.sqrt(1 - lean * lean) * random.normal();
    deviation = AIR.persistence * deviation + Math.sqrt(1 - square(AIR.persistence)) * fresh;
    straying[day] = deviation;
  }
  return straying;
}

interface TurningPoint {
  at_h: number;
  value_degC: number;
}

/** Coldest and warmest instant of each day, in order. Between them runs half a cosine. */
function turningPoints(sky: SkyHours, days: AirDays, straying: Float64Array): TurningPoint[] {
  const { winter, summer } = AIR.straying_K;
  const points: TurningPoint[] = [];
  for (let day = 0; day < straying.length; day++) {
    const straying_K = (winter + summer) / 2 + ((summer - winter) / 2) * days.warmth[day]!;
    const mean_degC = days.mean_degC[day]! + straying_K * straying[day]!;
    const swing_K = days.swing_K[day]!;
    points.push({ at_h: sky.sunrise_h[day]!, value_degC: mean_degC - swing_K / 2 });
    points.push({ at_h: sky.noon_h[day]! + AIR.warmestAfterNoon_h, value_degC: mean_degC + swing_K / 2 });
  }
  // The year closes on itself: before its first point stands its last, after its last its first.
  const hours = sky.shape.length;
  const first = points[0]!;
  const last = points.at(-1)!;
  return [{ ...last, at_h: last.at_h - hours }, ...points, { ...first, at_h: first.at_h + hours }];
}
