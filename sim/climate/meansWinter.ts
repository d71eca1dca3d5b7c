import { probit } from 'simple-statistics';
import { square } from '../common/numeric.ts';
import { randomStream } from '../common/random.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { airTemperature, usualSwing_K } from './airTemperature.ts';
import { hourlyIrradiance } from './hourlyIrradiance.ts';
import { YEAR_DAYS } from './LearnedClimate.ts';
import { SYNTHETIC, type WinterFrame } from './madeWinters.ts';
import { clearnessAt, type MeansClimate, SPREADS } from './meansClimate.ts';
import { drawBrightness } from './persistence.ts';
import { DAY_H } from './RecordedDays.ts';

/** The days of a made winter: the normal number behind each, and its clearness. */
export interface MeansDays {
  brightness: Float64Array;
  clearness: Float64Array;
}

/**
 * The days of a winter that has not happened: clearness by the distribution of its month and the persistence of the
 * climate.
 *
 * in: climate; seed; index of the winter, the same winter for the same seed and index
 * out: a number for each day of the frame
 * source: Graham1988 for the normal numbers
 */
export function meansDays(climate: MeansClimate, seed: number, index: number): MeansDays {
  const brightness = drawBrightness(climate.persistence, YEAR_DAYS, seed, index);
  const { monthOfDay } = climate.months;
  return {
    brightness,
    clearness: brightness.map((normal, d) => clearnessAt(climate.clearness[monthOfDay[d]!]!, normal)),
  };
}

/**
 * A winter that has not happened, from what is known of months alone: days by `meansDays`, hours by the average shape of
 * the day and roughness that hangs together, never above the clearest sky; air by season, cloud and persistence; snow
 * where the climate states it.
 *
 * in: climate; frame that it was made for; seed; index of the winter
 * out: a weather record of 8760 hours, marked as made
 * source: CollaresPereiraRabl1979, AguiarCollaresPereira1992, Graham1990 for the hours
 */
export function meansWinter(
  climate: MeansClimate,
  frame: WinterFrame,
  seed: number,
  index: number,
): WeatherRecord {
  const { months, air_degC: mean_degC, warmth, rangeOfUsual, spread } = climate;
  const { sky, monthOfDay } = months;
  const { brightness, clearness } = meansDays(climate, seed, index);
  const air = airTemperature(
    sky,
    {
      mean_degC,
      warmth,
      swing_K: clearness.map(
        (daily, d) =>
          rangeOfUsual[monthOfDay[d]!]! * usualSwing_K(daily * sky.dailyExtraterrestrial_Wh_m2[d]!),
      ),
    },
    brightness,
    randomStream(seed, 'air of made days', index),
  );
  return {
    start_ms: frame.sun.start_ms,
    step_s: 3600,
    count: YEAR_DAYS * DAY_H,
    ghi_W_m2: hourlyIrradiance(sky, clearness, randomStream(seed, 'hours of made days', index)),
    air_degC: air.air_degC,
    ...(climate.snowShare === undefined
      ? {}
      : { snowDepth_m: snowDepth(climate.snowShare, monthOfDay, air.straying, seed, index) }),
    sun: frame.sun,
    mark: new Uint8Array(YEAR_DAYS * DAY_H).fill(SYNTHETIC),
    origin: {
      file: climate.from,
      sha256: '',
      options: { light: `made: ${SPREADS[spread].words}; ${SPREADS[spread].bias}` },
      filledHours: 0,
    },
  };
}

/**
 * Assumptions, no source: snow lies on for days, lies when it is colder than usual, and is the deeper the colder; 2 cm
 * are the least that whitens the ground.
 */
const SNOW = { persistence: 0.93, leaning: 0.6, least_m: 0.02, perNormal_m: 0.08 };

/** Depth of the snow lying, so that on the average of many winters its days are those stated. */
function snowDepth(
  share: readonly number[],
  monthOfDay: Uint8Array,
  straying: Float64Array,
  seed: number,
  index: number,
): Float64Array {
  const random = randomStream(seed, 'snow of made days', index);
  const fresh = Math.sqrt(1 - square(SNOW.persistence));
  const own = Math.sqrt(1 - square(SNOW.leaning));
  const limits = share.map((part) => (part <= 0 ? Number.NEGATIVE_INFINITY : part >= 1 ? 9 : probit(part)));
  const depth_m = new Float64Array(straying.length * DAY_H);
  let last = random.normal();
  for (let d = 0; d < straying.length; d++) {
    last = SNOW.persistence * last + fresh * random.normal();
    const over = limits[monthOfDay[d]!]! - (SNOW.leaning * straying[d]! + own * last);
    if (over > 0) depth_m.fill(SNOW.least_m + SNOW.perNormal_m * over, d * DAY_H, (d + 1) * DAY_H);
  }
  return depth_m;
}
