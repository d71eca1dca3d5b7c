import { piecewiseLinear } from '../../common/numeric.ts';
import type { Screen } from './SkyDome.ts';

/** Elevation of whatever stands on the horizon, seen from the spot, by bearing. */
export interface HorizonProfile {
  /** Rising, 0 to below 360, clockwise from true north. */
  bearing_deg: Float64Array;
  /** Above the horizontal, 0 to 90. */
  elevation_deg: Float64Array;
  /** Share of light that passes below the skyline, 0 to 1; nothing where not given. */
  transmittance?: Float64Array;
}

/**
 * What a horizon profile hides: everything below the straight lines through its points, far away. Where the profile
 * states a transmittance, it runs in straight lines as well.
 *
 * in: profile, bearings rising from 0 or more to below 360; reflectance, undefined for the site's albedo
 * out: the screen, closed around north
 */
export function horizonScreen(profile: HorizonProfile, reflectance?: number): Screen {
  // One point more at either end, so that every bearing lies between two.
  const last = profile.bearing_deg.length - 1;
  const bearings = Float64Array.from([
    profile.bearing_deg[last]! - 360,
    ...profile.bearing_deg,
    profile.bearing_deg[0]! + 360,
  ]);
  const closed = (values: Float64Array) => Float64Array.from([values[last]!, ...values, values[0]!]);
  const elevations = closed(profile.elevation_deg);
  const passes = profile.transmittance === undefined ? undefined : closed(profile.transmittance);
  return {
    name: 'horizon',
    kind: 'horizon',
    distance_m: Number.POSITIVE_INFINITY,
    reflectance,
    span: (bearing_deg) => {
      const to_deg = piecewiseLinear(bearings, elevations, bearing_deg);
      if (!(to_deg > 0)) return undefined;
      const transmittance = passes === undefined ? 0 : piecewiseLinear(bearings, passes, bearing_deg);
      return { from_deg: 0, to_deg, transmittance };
    },
  };
}
