import { usualAir } from '../gaps/usualAir.ts';

/** Mean of a temperature column, and of what the latitude usually has at the same times, degC. */
export function meanAir(
  values: Float64Array,
  ms: Float64Array,
  latitude_deg: number,
  longitude_deg: number,
): { mean: number; usual: number } {
  const stride = Math.max(1, Math.floor(values.length / 2000));
  let [count, sum, usual] = [0, 0, 0];
  for (let i = 0; i < values.length; i += stride) {
    if (Number.isNaN(values[i]! + ms[i]!)) continue;
    count++;
    sum += values[i]!;
    usual += usualAir(ms[i]!, latitude_deg, longitude_deg);
  }
  return { mean: sum / count, usual: usual / count };
}
