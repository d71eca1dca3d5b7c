import type { WinterFrame } from '../../sim/climate/madeWinters.ts';
import type { MeansClimate } from '../../sim/climate/meansClimate.ts';
import { meansWinter } from '../../sim/climate/meansWinter.ts';
import { climateSchema } from '../../sim/climate/schema.ts';
import type { WeatherRecord } from '../../sim/weather/WeatherRecord.ts';

/** Mean global irradiance at 51.6 N, W/m2, January to December: SAP 2012, table U3, region Thames. */
const THAMES_W_M2 = [30, 56, 98, 157, 195, 217, 203, 173, 127, 73, 39, 24];
export const THAMES = { latitude_deg: 51.6, longitude_deg: 0, elevation_m: 20 };

/** A climate of it; the air is invented. */
export const THAMES_CLIMATE = climateSchema.parse({
  irradiation_kWh_m2_day: THAMES_W_M2.map((mean) => Number((mean * 0.024).toFixed(3))),
  air_degC: [4, 5, 7, 9, 13, 16, 18, 18, 15, 11, 7, 5],
  air_range_K: [4, 5, 7, 8, 9, 9, 9, 9, 8, 6, 5, 4],
  snow_days: [6, 5, 2, 0, 0, 0, 0, 0, 0, 0, 1, 4],
});

/** A record of winters made of a climate, one after the other from 1 July 2001 on, without a leap day. */
export function recordOfWinters(climate: MeansClimate, frame: WinterFrame, winters: number): WeatherRecord {
  const count = winters * 8760;
  const column = () => new Float64Array(count);
  const record: WeatherRecord = {
    start_ms: frame.sun.start_ms,
    step_s: 3600,
    count,
    ghi_W_m2: column(),
    air_degC: column(),
    snowDepth_m: column(),
    mark: new Uint8Array(count),
    origin: { file: 'made.csv', sha256: 'ab'.repeat(32), options: {}, filledHours: 0 },
  };
  for (let i = 0; i < winters; i++) {
    const made = meansWinter(climate, frame, 7, i);
    record.ghi_W_m2.set(made.ghi_W_m2, i * 8760);
    record.air_degC.set(made.air_degC, i * 8760);
    if (made.snowDepth_m !== undefined) record.snowDepth_m!.set(made.snowDepth_m, i * 8760);
  }
  return record;
}
