import { asin } from '../../common/elementary/atan2.ts';
import { CLEANEST_LINKE_TURBIDITY, ineichenClearSky } from '../../sun/ineichenClearSky.ts';
import { type NightCalendar, nightCalendar } from '../../sun/NightCalendar.ts';
import type { Site } from '../../sun/Site.ts';
import { type SunTrack, sunTrack } from '../../sun/SunTrack.ts';
import { type SunColumns, sunColumns } from '../../sun/sunColumns.ts';
import type { WeatherRecord } from '../../weather/WeatherRecord.ts';

/** What a stretch of hours at a site has of its own, whatever the weather: the same for every spot of a garden. */
export interface SkyCalendar {
  site: Site;
  sun: SunColumns;
  track: SunTrack;
  nights: NightCalendar;
  /** Direct normal irradiance under the clearest sky, mean over the hour; 0 without sun. */
  clearestBeam_W_m2: Float64Array;
}

/**
 * Sun, nights and the clearest sky's beam over a stretch of hours at a site, before weather or spot are looked at. Other
 * hours need another calendar: the same dates of another year too, for the sun then stands elsewhere by some
 * tenths of a degree, and a leap year has a day more.
 *
 * in: hours, such as a weather record, its sun taken over where it is that of these hours and this site; site
 * out: what `spotPlace` and `openSky` take
 * source: IneichenPerez2002 for the beam
 */
export function skyCalendar(
  { start_ms, count, sun: known }: Pick<WeatherRecord, 'start_ms' | 'count' | 'sun'>,
  site: Site,
): SkyCalendar {
  const sun =
    known !== undefined && isOver(known, start_ms, count, site) ? known : sunColumns(start_ms, count, site);
  const track = sunTrack(sun);
  const clearestBeam_W_m2 = new Float64Array(count);
  for (const i of track.hours) {
    const altitude_deg = (asin(sun.upCosZenith[i]!) * 180) / Math.PI;
    const outside_W_m2 = sun.extraterrestrial_W_m2[i]!;
    const clear = ineichenClearSky(altitude_deg, outside_W_m2, site.elevation_m, CLEANEST_LINKE_TURBIDITY);
    clearestBeam_W_m2[i] = clear.dni_W_m2 * sun.upShare[i]!;
  }
  return { site, sun, track, nights: nightCalendar(start_ms, count, site), clearestBeam_W_m2 };
}

function isOver(sun: SunColumns, start_ms: number, count: number, site: Site): boolean {
  const here = sun.latitude_deg === site.latitude_deg && sun.longitude_deg === site.longitude_deg;
  return here && sun.start_ms === start_ms && sun.count === count;
}
