import type { RandomStream } from '../../sim/common/random.ts';

/**
 * How the air warms and cools at an invented lowland place near 54 N, not far from the sea. Assumptions, no source:
 * chosen so that January averages about 1 and July about 17 degrees, single days stray by 3 to 4 degrees, and the
 * daily swing runs from 1.5 degrees on a dull winter day to 12 on a clear one in June.
 */
const CLIMATE = {
  mean_degC: 9.1,
  halfSwing_degC: 8.2,
  /** Day of the year (0 = 1 January) on which the average day is coldest. */
  coldestDay: 24,
  /** Deviation of the daily mean from the average year. */
  straying_degC: { winter: 3.6, summer: 2.6 },
  /** Correlation of that deviation from one day to the next. */
  persistence: 0.75,
  /** Correlation with the brightness of the day, negative in winter: clear days are frosty, dull ones mild. */
  leaning: 0.55,
  dailySwing_degC: { least: 1.2, perRootOf_kWh_m2: 4 },
  /** Hours after solar noon at which the day is warmest. */
  warmestAfterNoon_h: 2.5,
};

/** What the temperature of the air leans on, day by day (except `hours`). */
export interface DaysOfSun {
  /** Number of hours, 24 times the days. */
  hours: number;
  /** Hours from the start of the record to sunrise of each day. */
  sunrise_h: ArrayLike<number>;
  /** Hours from the start of the record to solar noon of each day. */
  noon_h: ArrayLike<number>;
  irradiation_Wh_m2: ArrayLike<number>;
  /** Normal number behind the day's clearness. */
  brightness: ArrayLike<number>;
}

/**
 * Hourly temperature of the air in degrees Celsius, at the middle of each hour: the average year, a wandering
 * deviation that leans on the weather, and a daily swing that grows with the day's sun, coldest at sunrise.
 *
 * in: days, as described; random, a stream
 * out: one value an hour
 * valid: invented; the parts and their sizes are assumptions that stand in the file
 */
export function temperature(days: DaysOfSun, random: RandomStream): Float64Array {
  const turns = turningPoints(days, random);
  const air_degC = new Float64Array(days.hours);
  let next = 1;
  for (let hour = 0; hour < days.hours; hour++) {
    const middle_h = hour + 0.5;
    while (turns[next]!.at_h < middle_h) next++;
    const from = turns[next - 1]!;
    const to = turns[next]!;
    const way = (middle_h - from.at_h) / (to.at_h - from.at_h);
    air_degC[hour] =
      from.value_degC + ((to.value_degC - from.value_degC) * (1 - Math.cos(Math.PI * way))) / 2;
  }
  return air_degC;
}

interface TurningPoint {
  at_h: number;
  value_degC: number;
}

/** Coldest and warmest instant of each day, in order. Between them runs half a cosine. */
function turningPoints(days: DaysOfSun, random: RandomStream): TurningPoint[] {
  const points: TurningPoint[] = [];
  let deviation = random.normal();
  for (let day = 0; day < days.irradiation_Wh_m2.length; day++) {
    const warmth = -Math.cos((2 * Math.PI * (day - CLIMATE.coldestDay)) / 365);
    const lean = CLIMATE.leaning * warmth;
    const fresh = lean * days.brightness[day]! + Math.sqrt(1 - lean * lean) * random.normal();
    deviation = CLIMATE.persistence * deviation + Math.sqrt(1 - CLIMATE.persistence ** 2) * fresh;
    const { winter, summer } = CLIMATE.straying_degC;
    const straying_degC = (winter + summer) / 2 + ((summer - winter) / 2) * warmth;
    const mean_degC = CLIMATE.mean_degC + CLIMATE.halfSwing_degC * warmth + straying_degC * deviation;
    const { least, perRootOf_kWh_m2 } = CLIMATE.dailySwing_degC;
    const swing_degC = least + perRootOf_kWh_m2 * Math.sqrt(days.irradiation_Wh_m2[day]! / 1000);
    points.push({ at_h: days.sunrise_h[day]!, value_degC: mean_degC - swing_degC / 2 });
    points.push({
      at_h: days.noon_h[day]! + CLIMATE.warmestAfterNoon_h,
      value_degC: mean_degC + swing_degC / 2,
    });
  }
  // The year closes on itself: before its first point stands its last, after its last its first.
  const first = points[0]!;
  const last = points.at(-1)!;
  return [{ ...last, at_h: last.at_h - days.hours }, ...points, { ...first, at_h: first.at_h + days.hours }];
}
