import { type HorizonProfile, horizonScreen } from '../../sim/spot/shade/horizonScreen.ts';
import { type Screen, type SkyDome, screenDome } from '../../sim/spot/shade/SkyDome.ts';

/** The sky over a horizon profile alone. */
export const horizonDome = (profile: HorizonProfile): SkyDome => screenDome([horizonScreen(profile)]);

/** The sky behind one block: bearings between two, up to an elevation, from the horizontal or another. */
export function blockDome(
  inside: (bearing_deg: number) => boolean,
  to_deg: number,
  transmittance = 0,
  from_deg = 0,
): SkyDome {
  const block: Screen = {
    name: 'block',
    kind: 'wall',
    distance_m: 10,
    reflectance: undefined,
    span: (bearing_deg) => (inside(bearing_deg) ? { from_deg, to_deg, transmittance } : undefined),
  };
  return screenDome([block]);
}
