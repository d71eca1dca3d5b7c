import type { Components } from './closeComponents.ts';

/**
 * Components whose direct part does not exceed a clear sky's, in W/m2; the excess goes to the diffuse part, so that
 * the global value is kept. Without it the division by a small cosine makes suns of several kilowatts near sunrise.
 *
 * in: sky, all three known, means over the hour; cosZenith, over the sun-up part; most_W_m2, clear-sky direct normal
 * out: the same object where nothing is cut, else a new one
 * @example capBeam({ ghi_W_m2: 100, dni_W_m2: 1000, dhi_W_m2: 0 }, 0.1, 600).dhi_W_m2; // => 40
 */
export function capBeam(sky: Components, cosZenith: number, most_W_m2: number): Components {
  if (sky.dni_W_m2 <= most_W_m2) return sky;
  return {
    ghi_W_m2: sky.ghi_W_m2,
    dni_W_m2: most_W_m2,
    dhi_W_m2: sky.dhi_W_m2 + (sky.dni_W_m2 - most_W_m2) * cosZenith,
  };
}
