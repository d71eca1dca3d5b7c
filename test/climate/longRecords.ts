import { bendt } from '../../sim/climate/ClearnessDistribution.ts';
import { normalShare } from '../../sim/climate/LearnedClimate.ts';
import { drawBrightness, USUAL_PERSISTENCE } from '../../sim/climate/persistence.ts';
import { outside_W_m2 } from '../../sim/climate/RecordedDays.ts';
import { DAY_MS, HOUR_MS } from '../../sim/common/time.ts';
import { type SunColumns, sunColumns } from '../../sim/sun/sunColumns.ts';
import type { WeatherRecord } from '../../sim/weather/WeatherRecord.ts';

/** A place in the north, where shade of winter matters. */
export const NORTH = { latitude_deg: 57, longitude_deg: 12 };

const START_MS = Date.UTC(2001, 6, 1);
const MOST_WINTERS = 12;
const startOf = (winter: number) => Math.round((Date.UTC(2001 + winter, 6, 1) - START_MS) / DAY_MS);
const sun = sunColumns(START_MS, startOf(MOST_WINTERS) * 24, NORTH);

/** Hours of the first winters. */
function sunOf(count: number): SunColumns {
  const cut = Object.entries(sun).map(([key, column]) => [
    key,
    column instanceof Float64Array
      ? column.slice(0, count + Number(/declination|hourAngle/.test(key)))
      : column,
  ]);
  return { ...(Object.fromEntries(cut) as SunColumns), count };
}

/** What stands before the station, as the clearness that is left of a day's. */
export type Shade = (clearness: number, winter: number, month: number) => number;

/**
 * A made record of some winters, July to June, whose days hang together as real ones do.
 *
 * in: winters, at most 12; seed; mean, clearness of the months; shade; share of the variance that winters have of their own
 */
export function longRecord(
  winters: number,
  seed: number,
  { mean = 0.35, shade = ((clearness) => clearness) as Shade, own = USUAL_PERSISTENCE.winter } = {},
): WeatherRecord {
  const count = startOf(winters) * 24;
  const days = bendt(mean);
  const ghi_W_m2 = new Float64Array(count);
  for (let winter = 0; winter < winters; winter++) {
    const [from, to] = [startOf(winter), startOf(winter + 1)];
    const brightness = drawBrightness({ ...USUAL_PERSISTENCE, winter: own }, to - from, seed, winter);
    for (let day = from; day < to; day++) {
      const month = new Date(START_MS + day * DAY_MS).getUTCMonth() + 1;
      const left = shade(days.clearnessAt(normalShare(brightness[day - from]!)), winter, month);
      for (let hour = day * 24; hour < (day + 1) * 24; hour++)
        ghi_W_m2[hour] = left * outside_W_m2(sun, hour);
    }
  }
  return {
    start_ms: START_MS,
    step_s: 3600,
    count,
    ghi_W_m2,
    air_degC: new Float64Array(count).fill(5),
    sun: sunOf(count),
    mark: new Uint8Array(count),
    origin: { file: 'made.csv', sha256: '', options: {}, filledHours: 0 },
  };
}

/** Instant at which a winter begins. */
export function winterStart_ms(winter: number): number {
  return START_MS + startOf(winter) * 24 * HOUR_MS;
}
