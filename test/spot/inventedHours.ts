import { randomStream } from '../../sim/common/random.ts';
import { ineichenClearSky } from '../../sim/sun/ineichenClearSky.ts';
import type { Site } from '../../sim/sun/Site.ts';
import { sunColumns } from '../../sim/sun/sunColumns.ts';
import type { WeatherRecord } from '../../sim/weather/WeatherRecord.ts';

export const GARDEN: Site = {
  latitude_deg: 54,
  longitude_deg: 10,
  elevation_m: 20,
  timeZone: 'Europe/Berlin',
  albedo: 0.2,
};

/** Hours of invented weather: a clear sky times a random share, from a seed. */
export function inventedHours(
  site: Site = GARDEN,
  start_ms = Date.UTC(2023, 0, 1),
  count = 8760,
  seed = 1,
): WeatherRecord {
  const sun = sunColumns(start_ms, count, site);
  const random = randomStream(seed, 'invented hours');
  const ghi_W_m2 = Float64Array.from({ length: count }, (_, i) => {
    const altitude_deg = (Math.asin(sun.upCosZenith[i]!) * 180) / Math.PI;
    const clear = ineichenClearSky(altitude_deg, sun.extraterrestrial_W_m2[i]!, site.elevation_m);
    return clear.ghi_W_m2 * sun.upShare[i]! * (0.1 + random.uniform());
  });
  return {
    start_ms,
    step_s: 3600,
    count,
    ghi_W_m2,
    air_degC: new Float64Array(count).fill(8),
    mark: new Uint8Array(count),
    origin: { file: 'invented', sha256: '', options: {}, filledHours: 0 },
  };
}
