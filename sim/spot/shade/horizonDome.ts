import { piecewiseLinear } from '../../common/piecewiseLinear.ts';
import type { HorizonProfile } from './horizonProfile.ts';
import type { SkyDome } from './SkyDome.ts';

/**
 * The sky over a horizon profile: open at and above the straight lines through its points, blocked below.
 *
 * in: profile, bearings rising from 0 or more to below 360
 * out: the dome, closed around north
 */
export function horizonDome(profile: HorizonProfile): SkyDome {
  // One point more at either end, so that every bearing lies between two.
  const last = profile.bearing_deg.length - 1;
  const bearings = Float64Array.from([
    profile.bearing_deg[last]! - 360,
    ...profile.bearing_deg,
    profile.bearing_deg[0]! + 360,
  ]);
  const elevations = Float64Array.from([
    profile.elevation_deg[last]!,
    ...profile.elevation_deg,
    profile.elevation_deg[0]!,
  ]);
  return {
    transmittance: (bearing_deg, elevation_deg) =>
      elevation_deg >= piecewiseLinear(bearings, elevations, bearing_deg) ? 1 : 0,
  };
}
