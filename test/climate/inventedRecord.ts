import { inventedYear, yearFrame } from '../../data-samples/make/inventedYear.ts';
import { DAY_MS, HOUR_MS } from '../../sim/common/time.ts';
import type { WeatherRecord } from '../../sim/weather/WeatherRecord.ts';

/**
 * Some winters of invented weather, one after the other: each half of a calendar year comes from a year with a seed of
 * its own, so that winters differ.
 */
export function inventedRecord(winters: number, firstSeed = 1): WeatherRecord {
  const start_ms = Date.UTC(2010, 6, 1);
  const count = (Date.UTC(2010 + winters, 6, 1) - start_ms) / HOUR_MS;
  const frame = yearFrame();
  const years = Array.from({ length: winters + 1 }, (_, k) => inventedYear(firstSeed + k, frame));
  const ghi_W_m2 = new Float64Array(count);
  const air_degC = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const date = new Date(start_ms + i * HOUR_MS);
    const year = date.getUTCFullYear();
    const hour = Math.min(
      8759,
      Math.floor((date.getTime() - Date.UTC(year, 0, 1)) / DAY_MS) * 24 + date.getUTCHours(),
    );
    ghi_W_m2[i] = years[year - 2010]!.ghi_W_m2[hour]!;
    air_degC[i] = years[year - 2010]!.air_degC[hour]!;
  }
  return {
    start_ms,
    step_s: 3600,
    count,
    ghi_W_m2,
    air_degC,
    mark: new Uint8Array(count),
    origin: { file: 'invented', sha256: '', options: {}, filledHours: 0 },
  };
}
