import { sunColumns } from '../../../sim/sun/sunColumns.ts';

/** Hours of made-up weather at full precision, for writing files of any layout. */
export interface KnownSeries {
  start_ms: number;
  count: number;
  latitude_deg: number;
  longitude_deg: number;
  ghi_W_m2: Float64Array;
  dni_W_m2: Float64Array;
  dhi_W_m2: Float64Array;
  air_degC: Float64Array;
}

/**
 * Invented weather: a clear sky dimmed day by day and hour by hour in a way that repeats for nobody, temperatures
 * that follow season and hour. No random numbers: the same everywhere.
 */
export function knownSeries(
  start_ms: number,
  days: number,
  latitude_deg = 54,
  longitude_deg = 10,
): KnownSeries {
  const count = days * 24;
  const sun = sunColumns(start_ms, count, { latitude_deg, longitude_deg });
  const known: KnownSeries = {
    start_ms,
    count,
    latitude_deg,
    longitude_deg,
    ghi_W_m2: new Float64Array(count),
    dni_W_m2: new Float64Array(count),
    dhi_W_m2: new Float64Array(count),
    air_degC: new Float64Array(count),
  };
  for (let i = 0; i < count; i++) {
    const day = Math.floor(i / 24);
    // From overcast (0.15) to clear (1), some days whole, some broken.
    const spell = 0.5 + 0.5 * Math.sin(day * 1.7 + Math.sin(day * 0.61) * 2);
    const broken = 1 - 0.35 * (1 - spell) * (0.5 + 0.5 * Math.sin(i * 2.3));
    const clearness = 0.76 * (0.15 + 0.85 * spell) * broken;
    const outside = sun.extraterrestrial_W_m2[i]!;
    const height = sun.upCosZenith[i]! * sun.upShare[i]!;
    const ghi = outside * height * clearness;
    const share = Math.max(0.12, 1 - clearness * 1.1);
    known.ghi_W_m2[i] = ghi;
    known.dhi_W_m2[i] = ghi * share;
    known.dni_W_m2[i] = height > 0 ? (ghi * (1 - share)) / height : 0;
    const ms = start_ms + i * 3_600_000;
    const season = -Math.cos((ms / 86_400_000 / 365.2425 - 0.08) * 2 * Math.PI);
    const hour = Math.cos((((ms / 3_600_000 + longitude_deg / 15) % 24) - 15) * (Math.PI / 12));
    known.air_degC[i] = 8.3 + 9.1 * season + 3.2 * hour + 2.1 * Math.sin(day * 0.9);
  }
  return known;
}
