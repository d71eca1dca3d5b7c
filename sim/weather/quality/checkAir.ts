import { RANGES } from '../limits.ts';
import { equalRuns } from './equalRuns.ts';
import { resolutionOf } from './resolutionOf.ts';
import type { Stretch } from './stretchesOf.ts';

/** Hours of air temperature that nobody measured so. */
export interface AirFaults {
  /** Outside the records of the world, or a spike. */
  impossible: Uint8Array;
  /** One temperature for a day and more. */
  repeated: Stretch[];
}

/** Up and down again (or down and up) by more than this within two hours is a fault; common practice, no source. */
const SPIKE_K = 20;
const LONGEST_STILL_H = 30;
const LONGEST_STILL_COARSE_H = 60;

/**
 * Air temperatures that cannot be: beyond the records of the world, spikes of an hour, one value for 30 hours
 * and more (for 60 where temperatures are whole degrees).
 *
 * in: air_degC, NaN missing
 * out: hours and stretches
 * source: WMOExtremes for the range
 */
export function checkAir(air_degC: Float64Array): AirFaults {
  const { lowest, highest } = RANGES.air_temperature!;
  const impossible = new Uint8Array(air_degC.length);
  for (let i = 0; i < air_degC.length; i++) {
    const value = air_degC[i]!;
    const before = value - (air_degC[i - 1] ?? Number.NaN);
    const after = value - (air_degC[i + 1] ?? Number.NaN);
    const spike = before * after > 0 && Math.min(Math.abs(before), Math.abs(after)) > SPIKE_K;
    if (value < lowest || value > highest || spike) impossible[i] = 1;
  }
  const still = resolutionOf(air_degC) > 0.45 ? LONGEST_STILL_COARSE_H : LONGEST_STILL_H;
  const repeated = equalRuns(air_degC, still);
  return { impossible, repeated };
}
