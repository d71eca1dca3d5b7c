import { climateSchema } from '../../sim/climate/schema.ts';

/** Mean global irradiance at 51.6 N, W/m2, January to December: SAP 2012, table U3, region Thames. */
export const THAMES_W_M2 = [30, 56, 98, 157, 195, 217, 203, 173, 127, 73, 39, 24];
export const THAMES = { latitude_deg: 51.6, longitude_deg: 0, elevation_m: 20 };

/** A climate of it; the air is invented. */
export const THAMES_CLIMATE = climateSchema.parse({
  irradiation_kWh_m2_day: THAMES_W_M2.map((mean) => Number((mean * 0.024).toFixed(3))),
  air_degC: [4, 5, 7, 9, 13, 16, 18, 18, 15, 11, 7, 5],
  air_range_K: [4, 5, 7, 8, 9, 9, 9, 9, 8, 6, 5, 4],
  snow_days: [6, 5, 2, 0, 0, 0, 0, 0, 0, 0, 1, 4],
});
