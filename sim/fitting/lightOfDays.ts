import { HOUR_MS } from '../common/time.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { nightCalendar } from '../sun/NightCalendar.ts';
import type { Site } from '../sun/Site.ts';

const COLUMNS = [
  'planeOfArray_W_m2',
  'beam_W_m2',
  'sky_W_m2',
  'reflected_W_m2',
  'ghi_W_m2',
  'dni_W_m2',
  'dhi_W_m2',
  'air_degC',
  'sunAltitude_deg',
] as const;

/**
 * The light of some hours out of a longer record, in W/m2.
 *
 * in: light; first, hour it begins with; count, hours; site
 * out: columns of those hours with their own nights
 */
export function lightOfDays(light: SpotLight, first: number, count: number, site: Site): SpotLight {
  const start_ms = light.start_ms + first * HOUR_MS;
  const nights = nightCalendar(start_ms, count, site);
  const cut = Object.fromEntries(
    COLUMNS.map((column) => [column, light[column].slice(first, first + count)]),
  ) as Pick<SpotLight, (typeof COLUMNS)[number]>;
  return {
    ...light,
    ...cut,
    start_ms,
    count,
    mark: light.mark.slice(first, first + count),
    nights,
    dusk_ms: nights.dusk_ms,
    dawn_ms: nights.dawn_ms,
  };
}
