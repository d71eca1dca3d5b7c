import { boxScreen } from './boxScreen.ts';
import type { Eye, Obstacle } from './Obstacle.ts';
import type { Screen } from './SkyDome.ts';
import { treeScreens } from './treeScreens.ts';

/**
 * What an obstacle hides as seen from a point.
 *
 * in: obstacle; eye; inLeaf, whether leaves are on
 * out: its screens; none where it stays below the eye
 */
export function obstacleScreens(obstacle: Obstacle, eye: Eye, inLeaf: boolean): Screen[] {
  const { transmittance, bareTransmittance } = obstacle.leaves;
  const pass = inLeaf ? transmittance : bareTransmittance;
  if (obstacle.kind === 'tree') return treeScreens(obstacle, eye, pass);
  const screen = boxScreen(obstacle, eye, pass);
  return screen === undefined ? [] : [screen];
}
