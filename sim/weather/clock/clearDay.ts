import { haurwitzGlobal } from '../../sun/ineichenClearSky.ts';

/** Distance of the instants of a clear day's table, minutes of true solar time. */
export const CLEAR_STEP_MIN = 5;
const COUNT = 1440 / CLEAR_STEP_MIN;
const CELL_MIN = 2;
const CELLS = 1440 / CELL_MIN;

/** Light of the twilight sky at sunset and the depression over which it falls by a factor e. */
const SUNSET_W_M2 = 4;
const TWILIGHT_DEG = 1.23;

/**
 * Clear-sky global irradiance (W/m2) averaged over an interval, for every middle of that interval through a day of
 * true solar time. Twilight is kept, for first and last light is what settles a clock under cloud.
 *
 * in: latitude_deg, declination_deg; step_min, length of the interval
 * out: 289 means, for middles 0, 5, ... 1440 minutes after solar midnight (the last repeats the first)
 * valid: 20 percent above 10 degrees of altitude, a factor of two at the horizon; the same before and after noon
 * source: Haurwitz1945; TwilightIlluminance for the light of the sky with the sun down
 */
export function clearDay(latitude_deg: number, declination_deg: number, step_min: number): Float64Array {
  const rad = Math.PI / 180;
  const a = Math.sin(latitude_deg * rad) * Math.sin(declination_deg * rad);
  const b = Math.cos(latitude_deg * rad) * Math.cos(declination_deg * rad);
  // Integral from midnight in cells of two minutes, midpoint rule; the afternoon mirrors the morning.
  const integral = new Float64Array(CELLS + 1);
  const cell = new Float64Array(CELLS);
  for (let i = 0; i < CELLS / 2; i++) {
    const sine = a - b * Math.cos(((i + 0.5) / CELLS) * 2 * Math.PI);
    cell[i] = clear_W_m2(sine, rad) * CELL_MIN;
    cell[CELLS - 1 - i] = cell[i]!;
  }
  for (let i = 0; i < CELLS; i++) integral[i + 1] = integral[i]! + cell[i]!;
  const total = integral[CELLS]!;
  const at = (minute: number): number => {
    const turns = Math.floor(minute / 1440);
    const position = (minute - turns * 1440) / CELL_MIN;
    const low = Math.floor(position);
    const here = integral[low]!;
    return turns * total + here + (position - low) * ((integral[low + 1] ?? here) - here);
  };
  const means = new Float64Array(COUNT + 1);
  for (let i = 0; i <= COUNT; i++) {
    const middle = i * CLEAR_STEP_MIN;
    means[i] = (at(middle + step_min / 2) - at(middle - step_min / 2)) / step_min;
  }
  return means;
}

function clear_W_m2(sineOfAltitude: number, rad: number): number {
  if (sineOfAltitude > 0) return haurwitzGlobal(sineOfAltitude) + SUNSET_W_M2;
  return SUNSET_W_M2 * Math.exp(Math.asin(Math.max(-1, sineOfAltitude)) / rad / TWILIGHT_DEG);
}
