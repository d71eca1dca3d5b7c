import { type NightCalendar, nightCalendar } from '../../sun/NightCalendar.ts';
import type { Site } from '../../sun/Site.ts';
import { type SunColumns, sunColumns } from '../../sun/sunColumns.ts';
import type { WeatherRecord } from '../../weather/WeatherRecord.ts';
import { type SkyColumns, skyColumns } from './skyColumns.ts';

/** Sun, nights and sky of a weather record: the same for every spot of a garden, so made once. */
export interface OpenSky {
  sun: SunColumns;
  nights: NightCalendar;
  sky: SkyColumns;
}

/**
 * Sun, nights and sky over the hours of a weather record, W/m2 and degrees, before any spot is looked at.
 *
 * in: weather; site
 * out: what `spotLight` takes as its last argument, for as many spots as there are
 */
export function openSky(weather: WeatherRecord, site: Site): OpenSky {
  const sun = sunColumns(weather.start_ms, weather.count, site);
  return {
    sun,
    nights: nightCalendar(weather.start_ms, weather.count, site),
    sky: skyColumns(weather, sun, site),
  };
}
