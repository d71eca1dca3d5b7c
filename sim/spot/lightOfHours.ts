import { HOUR_MS } from '../common/time.ts';
import { nightCalendar } from '../sun/NightCalendar.ts';
import type { Site } from '../sun/Site.ts';
import type { SpotLight } from './spotLight.ts';

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
 * Some hours out of a longer record of light, with their own nights.
 *
 * in: light; from, to, hours of the record, from <= i < to; site
 * out: columns of to - from hours; what is counted over the whole record (hours of snow, capped hours) stays
 */
export function lightOfHours(light: SpotLight, from: number, to: number, site: Site): SpotLight {
  const start_ms = light.start_ms + from * HOUR_MS;
  const count = to - from;
  const nights = nightCalendar(start_ms, count, site);
  const cut = Object.fromEntries(COLUMNS.map((column) => [column, light[column].slice(from, to)])) as Pick<
    SpotLight,
    (typeof COLUMNS)[number]
  >;
  const { dusk_ms, dawn_ms } = nights;
  const { snow, mark } = light;
  const lid = snow?.lid && {
    lying_mm: snow.lid.lying_mm.slice(from, to),
    brushed_W_m2: snow.lid.brushed_W_m2.slice(from, to),
  };
  return {
    ...light,
    ...cut,
    start_ms,
    count,
    mark: mark.slice(from, to),
    nights,
    dusk_ms,
    dawn_ms,
    snow: snow && { ...snow, lid },
  };
}
