const DEGREE = Math.PI / 180;

/** A house of rectangular plan, its ridge along the longer side, seen from a spot north of it. Metres. */
export interface House {
  /** From the spot to the north wall. */
  wallDistance_m: number;
  /** North wall to south wall. */
  depth_m: number;
  /** West end of the house, east of the spot: negative is west. */
  west_m: number;
  /** East end of the house, east of the spot. */
  east_m: number;
  eaves_m: number;
  ridge_m: number;
  /** Of the cell above the ground. */
  cellHeight_m: number;
}

/** An ordinary two-storey house, 11 m by 8 m, seen from a flower bed four metres north of its wall. Invented. */
export const INVENTED_HOUSE: House = {
  wallDistance_m: 4,
  depth_m: 8,
  west_m: -6.5,
  east_m: 4.5,
  eaves_m: 5.4,
  ridge_m: 8.6,
  cellHeight_m: 0.4,
};

/**
 * Elevation of the house above the horizontal in a bearing, in degrees.
 *
 * Along a level line of sight the roof rises and falls in straight pieces, height = a + b r at distance r, and
 * (a + b r) / r has no maximum inside a piece. So the skyline is the steepest of a few points: where the line enters
 * the plan, crosses under the ridge, and leaves the plan.
 *
 * in: house; bearing_deg, clockwise from true north
 * out: 0 to 90; 0 where the line of sight misses the house
 * valid: a spot north of the house; chimneys, dormers and the overhang of the eaves are left out
 */
export function houseElevation(house: House, bearing_deg: number): number {
  const south = -Math.cos(bearing_deg * DEGREE);
  const east = Math.sin(bearing_deg * DEGREE);
  if (south <= 1e-9) return 0;
  let enter_m = house.wallDistance_m / south;
  let leave_m = (house.wallDistance_m + house.depth_m) / south;
  if (Math.abs(east) > 1e-9) {
    const ends = [house.west_m / east, house.east_m / east];
    enter_m = Math.max(enter_m, Math.min(...ends));
    leave_m = Math.min(leave_m, Math.max(...ends));
  } else if (house.west_m > 0 || house.east_m < 0) {
    return 0;
  }
  if (enter_m >= leave_m) return 0;
  const ridge_m = (house.wallDistance_m + house.depth_m / 2) / south;
  const points = [enter_m, Math.min(Math.max(ridge_m, enter_m), leave_m), leave_m];
  const slopes = points.map((r) => (roofHeight(house, r * south) - house.cellHeight_m) / r);
  return Math.atan(Math.max(...slopes, 0)) / DEGREE;
}

/** Height of the roof over a point inside the plan, `south_m` south of the spot. */
function roofHeight(house: House, south_m: number): number {
  const half_m = house.depth_m / 2;
  const fromRidge_m = Math.abs(south_m - house.wallDistance_m - half_m);
  return house.ridge_m - ((house.ridge_m - house.eaves_m) * fromRidge_m) / half_m;
}
