import { WEATHER_MARKS, type WeatherRecord } from '../../weather/WeatherRecord.ts';
import { type SnowLying, snowLying } from '../cover/snowLying.ts';
import type { SkyCalendar } from './SkyCalendar.ts';

/** Sky and snow of a weather record: the same for every spot of a garden, so made once. */
export interface OpenSky {
  weather: WeatherRecord;
  calendar: SkyCalendar;
  sky: SkyColumns;
  /** Undefined where the weather does not tell of snow. */
  snow: SnowLying | undefined;
}

/**
 * Sky and snow over the hours of a weather record, W/m2, before any spot is looked at.
 *
 * in: weather; calendar, of the same hours
 * out: what `lightInSpot` lays on a place, for as many spots as there are
 * throws: Error where the calendar is that of other hours
 */
export function openSky(weather: WeatherRecord, calendar: SkyCalendar): OpenSky {
  return { weather, calendar, sky: skyColumns(weather, calendar), snow: snowLying(weather) };
}

/** Global, direct and diffuse irradiance hour by hour, means over the hour. */
export interface SkyColumns {
  ghi_W_m2: Float64Array;
  dni_W_m2: Float64Array;
  dhi_W_m2: Float64Array;
  /** Index into WEATHER_MARKS: measured, closed, split, filled, stand-in. */
  mark: Uint8Array;
  /** Hours whose beam was capped at the clear-sky beam, the excess going to diffuse. */
  cappedHours: number;
}

/**
 * All three components of the irradiance for every hour of a weather record, in W/m2: measured where the record has
 * them, closed from two, or split from the global value alone. Beam from a split or a closure is capped at that of
 * the clearest sky; a measured pair of direct and diffuse stands as it is.
 *
 * in: weather; calendar, of the same hours
 * out: typed columns, non-negative; hours without sun hold diffuse light only
 * throws: Error where the calendar is that of other hours
 * source: Erbs1982, IneichenPerez2002 for the cap
 */
export function skyColumns(weather: WeatherRecord, calendar: SkyCalendar): SkyColumns {
  const { count } = weather;
  const { sun } = calendar;
  if (sun.start_ms !== weather.start_ms || sun.count !== count) {
    throw new Error('the calendar handed in is that of other hours than the weather');
  }
  const sky: SkyColumns = {
    ghi_W_m2: new Float64Array(count),
    dni_W_m2: new Float64Array(count),
    dhi_W_m2: new Float64Array(count),
    mark: Uint8Array.from(weather.mark),
    cappedHours: 0,
  };
  for (let i = 0; i < count; i++) {
    const given: Components = {
      ghi_W_m2: notBelowZero(weather.ghi_W_m2[i]!),
      dni_W_m2: notBelowZero(weather.dni_W_m2?.[i] ?? Number.NaN),
      dhi_W_m2: notBelowZero(weather.dhi_W_m2?.[i] ?? Number.NaN),
    };
    if (sun.upShare[i]! > 0) hourWithSunInto(sky, i, given, calendar);
    else {
      const light_W_m2 = Number.isNaN(given.ghi_W_m2) ? given.dhi_W_m2 : given.ghi_W_m2;
      sky.ghi_W_m2[i] = light_W_m2;
      sky.dhi_W_m2[i] = light_W_m2;
    }
  }
  return sky;
}

const CLOSED = WEATHER_MARKS.indexOf('closed');
const SPLIT = WEATHER_MARKS.indexOf('split');

function hourWithSunInto(sky: SkyColumns, i: number, given: Components, calendar: SkyCalendar): void {
  const { sun, clearestBeam_W_m2 } = calendar;
  const cosZenith = sun.upCosZenith[i]!;
  const hasDirect = !Number.isNaN(given.dni_W_m2);
  const hasDiffuse = !Number.isNaN(given.dhi_W_m2);
  let all = given;
  if (hasDirect || hasDiffuse) {
    if (!hasDirect || !hasDiffuse || Number.isNaN(given.ghi_W_m2)) {
      all = closeComponents(given, cosZenith);
      sky.mark[i] = Math.max(sky.mark[i]!, CLOSED);
    }
  } else {
    const outside_W_m2 = sun.extraterrestrial_W_m2[i]! * cosZenith * sun.upShare[i]!;
    const dhi_W_m2 = given.ghi_W_m2 * splitGlobal(given.ghi_W_m2 / outside_W_m2);
    all = closeComponents({ ...given, dhi_W_m2 }, cosZenith);
    sky.mark[i] = Math.max(sky.mark[i]!, SPLIT);
  }
  if (!hasDirect) {
    const capped = capBeam(all, cosZenith, clearestBeam_W_m2[i]!);
    if (capped !== all) sky.cappedHours++;
    all = capped;
  }
  sky.ghi_W_m2[i] = all.ghi_W_m2;
  sky.dni_W_m2[i] = all.dni_W_m2;
  sky.dhi_W_m2[i] = all.dhi_W_m2;
}

/** A sensor's offset below zero counts as none; NaN stays NaN. */
function notBelowZero(value_W_m2: number): number {
  return Math.max(value_W_m2, 0);
}

/** Global, direct and diffuse irradiance of one hour, means over the hour; NaN where not known. */
export interface Components {
  ghi_W_m2: number;
  dni_W_m2: number;
  dhi_W_m2: number;
}

/**
 * The third of global, direct normal and diffuse irradiance from the other two, in W/m2. Nothing comes out negative:
 * a global value stands, and what the other two would overshoot it by is cut from the one that was not measured.
 *
 * in: known, means over the hour, exactly one of them NaN; cosZenith, mean over the sun-up part, above 0
 * out: all three, with ghi = dhi + dni * cosZenith unless a measured part alone exceeds the global value
 * source: ISO9488, definition of global irradiance
 * @example closeComponents({ ghi_W_m2: 500, dni_W_m2: NaN, dhi_W_m2: 100 }, 0.5).dni_W_m2; // => 800
 */
export function closeComponents(known: Components, cosZenith: number): Components {
  const { ghi_W_m2, dni_W_m2, dhi_W_m2 } = known;
  if (Number.isNaN(ghi_W_m2)) return { ghi_W_m2: dhi_W_m2 + dni_W_m2 * cosZenith, dni_W_m2, dhi_W_m2 };
  if (Number.isNaN(dni_W_m2)) {
    const diffuse_W_m2 = Math.min(dhi_W_m2, ghi_W_m2);
    return { ghi_W_m2, dni_W_m2: (ghi_W_m2 - diffuse_W_m2) / cosZenith, dhi_W_m2: diffuse_W_m2 };
  }
  const direct_W_m2 = Math.min(dni_W_m2, ghi_W_m2 / cosZenith);
  return { ghi_W_m2, dni_W_m2: direct_W_m2, dhi_W_m2: ghi_W_m2 - direct_W_m2 * cosZenith };
}

/**
 * Diffuse share of the global irradiance, without unit, from the hour's clearness index.
 *
 * in: clearnessIndex, global irradiance over that outside the air on the flat ground, 0 and more
 * out: 0.165 to 1
 * valid: hourly values; the single hour scatters by 0.1 to 0.2 around it
 * source: Erbs1982, equation 1
 * @example splitGlobal(0.5); // => 0.6591
 */
export function splitGlobal(clearnessIndex: number): number {
  // k: clearness index
  const k = clearnessIndex;
  if (k <= 0.22) return 1 - 0.09 * Math.max(k, 0);
  if (k > 0.8) return 0.165;
  return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}

/**
 * Components whose direct part does not exceed a clear sky's, in W/m2; the excess goes to the diffuse part, so that
 * the global value is kept. Without it the division by a small cosine makes suns of several kilowatts near sunrise.
 *
 * in: sky, all three known, means over the hour; cosZenith, over the sun-up part; most_W_m2, clear-sky direct normal
 * out: the same object where nothing is cut, else a new one
 * @example capBeam({ ghi_W_m2: 100, dni_W_m2: 1000, dhi_W_m2: 0 }, 0.1, 600).dhi_W_m2; // => 40
 */
export function capBeam(sky: Components, cosZenith: number, most_W_m2: number): Components {
  if (sky.dni_W_m2 <= most_W_m2) return sky;
  const dhi_W_m2 = sky.dhi_W_m2 + (sky.dni_W_m2 - most_W_m2) * cosZenith;
  return { ghi_W_m2: sky.ghi_W_m2, dni_W_m2: most_W_m2, dhi_W_m2 };
}
