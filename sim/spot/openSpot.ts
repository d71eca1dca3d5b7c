import type { SpotParams } from './spotParams.ts';

/**
 * The same cell under the same cover with nothing around it, no dirt and no shade: what a spot is held against.
 *
 * in: spot
 * out: a spot in the open
 */
export function openSpot(spot: SpotParams): SpotParams {
  return {
    ...spot,
    obstacles: [],
    horizon: undefined,
    shading: undefined,
    measured: undefined,
    loggedLight: undefined,
    dirtLoss: 0,
  };
}
