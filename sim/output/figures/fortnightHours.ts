import { civilOffset } from '../../common/civilTime.ts';
import { HOUR_MS } from '../../common/time.ts';
import type { Fortnight } from '../../statistics/TrialStatistics.ts';
import type { Site } from '../../sun/Site.ts';
import type { HourlyTrial } from '../../trial/Trial.ts';

/** An hour of the darkest fortnight. */
export interface FortnightHour {
  /** Civil date and time of its beginning, 'YYYY-MM-DDTHH:MM'. */
  local: string;
  light_W_m2: number;
  air_degC: number;
  jar_degC: number;
  capacitorLowest_V: number;
  capacitorEnd_V: number;
  /** Mean of the hour. */
  light_lm: number;
  promised_min: number;
  dim_min: number;
  out_min: number;
}

/** A fortnight hour by hour, from the noon before its first evening, with its events in hours from there. */
export interface FortnightHours {
  hours: FortnightHour[];
  nights: { dusk: number; dawn: number; firstShort: number; firstShort_local: string; failed: boolean }[];
}

/**
 * The hours of a fortnight.
 *
 * in: trial; fortnight, one of its winters'; winter, that winter's name; site
 * out: hours and events; undefined where the trial does not hold its nights
 */
export function fortnightHours(
  trial: HourlyTrial,
  fortnight: Fortnight,
  winter: string,
  site: Site,
): FortnightHours | undefined {
  const { light, year } = trial;
  const { columns } = year;
  const first = trial.nights.findIndex((row) => row.winter === winter && row.night === fortnight.from);
  const noon_ms = light.nights.noon_ms[year.firstNight + first];
  if (first < 0 || noon_ms === undefined) return undefined;
  const offset_min = civilOffset(site.timeZone);
  const local = (ms: number) => new Date(ms + offset_min(ms) * 60_000).toISOString().slice(0, 16);
  const from = Math.round((noon_ms - light.start_ms) / HOUR_MS);
  const from_ms = light.start_ms + from * HOUR_MS;
  const hours: FortnightHour[] = [];
  for (let k = 0; k < 14 * 24; k++) {
    const i = year.joined ? (from + k) % columns.count : from + k;
    if (i < 0 || i >= columns.count) continue;
    hours.push({
      local: local(light.start_ms + i * HOUR_MS),
      light_W_m2: light.planeOfArray_W_m2[i]!,
      air_degC: light.air_degC[i]!,
      jar_degC: columns.jar_degC[i]!,
      capacitorLowest_V: columns.capacitorLowest_V[i]!,
      capacitorEnd_V: columns.capacitorEnd_V[i]!,
      light_lm: columns.light_lm_h[i]!,
      promised_min: columns.promised_s[i]! / 60,
      dim_min: columns.dim_s[i]! / 60,
      out_min: columns.out_s[i]! / 60,
    });
  }
  const nights = Array.from({ length: 14 }, (_, k) => {
    const row = trial.nights[(first + k) % trial.nights.length]!;
    // Over the seam of a joined year the clock goes on from the year's beginning.
    const round_ms = first + k >= trial.nights.length ? columns.count * HOUR_MS : 0;
    const hour = (ms: number) => (ms + round_ms - from_ms) / HOUR_MS;
    return {
      dusk: hour(row.dusk_ms),
      dawn: hour(row.dawn_ms),
      firstShort: hour(row.firstShort_ms),
      firstShort_local: Number.isNaN(row.firstShort_ms) ? '' : local(row.firstShort_ms).slice(11),
      failed: row.outcome === 'failed',
    };
  });
  return { hours, nights };
}
