import { CLEANEST_LINKE_TURBIDITY, ineichenClearSky } from '../../sun/ineichenClearSky.ts';
import type { Site } from '../../sun/Site.ts';
import type { SunColumns } from '../../sun/sunColumns.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../../weather/WeatherRecord.ts';
import { capBeam } from './capBeam.ts';
import { type Components, closeComponents } from './closeComponents.ts';
import { splitGlobal } from './splitGlobal.ts';

/** Global, direct and diffuse irradiance hour by hour, means over the hour. */
export interface SkyColumns {
  ghi_W_m2: Float64Array;
  dni_W_m2: Float64Array;
  dhi_W_m2: Float64Array;
  /** Index into WEATHER_MARKS. */
  mark: Uint8Array;
  cappedHours: number;
}

/**
 * All three components of the irradiance for every hour of a weather record, in W/m2: measured where the record has
 * them, closed from two, or split from the global value alone. Beam from a split or a closure is capped at that of
 * the clearest sky; a measured pair of direct and diffuse stands as it is.
 *
 * in: weather; sun, over the same hours; site
 * out: typed columns, non-negative; hours without sun hold diffuse light only
 * source: Erbs1982, IneichenPerez2002 for the cap
 */
export function skyColumns(weather: WeatherRecord, sun: SunColumns, site: Site): SkyColumns {
  const { count } = weather;
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
    const hour = sun.upShare[i]! > 0 ? hourWithSun(given, sun, i, site) : hourWithoutSun(given);
    sky.ghi_W_m2[i] = hour.sky.ghi_W_m2;
    sky.dni_W_m2[i] = hour.sky.dni_W_m2;
    sky.dhi_W_m2[i] = hour.sky.dhi_W_m2;
    sky.mark[i] = Math.max(sky.mark[i]!, hour.mark);
    if (hour.capped) sky.cappedHours++;
  }
  return sky;
}

interface Hour {
  sky: Components;
  mark: number;
  capped: boolean;
}

const MEASURED = WEATHER_MARKS.indexOf('measured');
const CLOSED = WEATHER_MARKS.indexOf('closed');
const SPLIT = WEATHER_MARKS.indexOf('split');

function hourWithoutSun(given: Components): Hour {
  const light_W_m2 = Number.isNaN(given.ghi_W_m2) ? given.dhi_W_m2 : given.ghi_W_m2;
  return {
    sky: { ghi_W_m2: light_W_m2, dni_W_m2: 0, dhi_W_m2: light_W_m2 },
    mark: MEASURED,
    capped: false,
  };
}

function hourWithSun(given: Components, sun: SunColumns, i: number, site: Site): Hour {
  const hasDirect = !Number.isNaN(given.dni_W_m2);
  const hasDiffuse = !Number.isNaN(given.dhi_W_m2);
  const cosZenith = sun.upCosZenith[i]!;
  if (hasDirect && hasDiffuse) {
    const withoutGlobal = Number.isNaN(given.ghi_W_m2);
    return {
      sky: withoutGlobal ? closeComponents(given, cosZenith) : given,
      mark: withoutGlobal ? CLOSED : MEASURED,
      capped: false,
    };
  }
  const outside_W_m2 = sun.extraterrestrial_W_m2[i]!;
  const two =
    hasDirect || hasDiffuse
      ? given
      : {
          ...given,
          dhi_W_m2:
            given.ghi_W_m2 * splitGlobal(given.ghi_W_m2 / (outside_W_m2 * cosZenith * sun.upShare[i]!)),
        };
  const closed = closeComponents(two, cosZenith);
  const clear = ineichenClearSky(
    (Math.asin(cosZenith) * 180) / Math.PI,
    outside_W_m2,
    site.elevation_m,
    CLEANEST_LINKE_TURBIDITY,
  );
  const sky = hasDirect ? closed : capBeam(closed, cosZenith, clear.dni_W_m2 * sun.upShare[i]!);
  return { sky, mark: hasDirect || hasDiffuse ? CLOSED : SPLIT, capped: sky !== closed };
}

/** A sensor's offset below zero counts as none; NaN stays NaN. */
function notBelowZero(value_W_m2: number): number {
  return Math.max(value_W_m2, 0);
}
