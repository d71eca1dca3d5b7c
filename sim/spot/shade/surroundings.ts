import type { SpotParams } from '../spotParams.ts';
import { horizonProfile } from './horizonProfile.ts';
import { horizonScreen } from './horizonScreen.ts';
import type { Surroundings } from './seasonDomes.ts';

/** Nothing around. */
export const OPEN_SURROUNDINGS: Surroundings = { obstacles: [], far: [], cellHeight_m: 0 };

/**
 * What stands around a spot: its obstacles, and its horizon profile read from the file.
 *
 * in: spot; readFile, for the profile
 * out: surroundings as `seasonDomes` takes them
 * throws: SPOT_PROFILE; the codes of files
 */
export function surroundings(
  spot: Pick<SpotParams, 'obstacles' | 'horizon' | 'cellHeight_m'>,
  readFile: (file: string) => Uint8Array,
): Surroundings {
  const { obstacles, horizon, cellHeight_m } = spot;
  if (horizon === undefined) return { obstacles, far: [], cellHeight_m };
  const profile = horizonProfile({ name: horizon.file, bytes: readFile(horizon.file) });
  return { obstacles, far: [horizonScreen(profile, horizon.reflectance)], cellHeight_m };
}
