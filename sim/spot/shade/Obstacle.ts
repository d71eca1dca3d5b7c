/** Something upright that stands in the garden. Lengths in metres, heights above the ground, bearings from north. */
export type Obstacle = BoxObstacle | TreeObstacle;

interface Common {
  name: string;
  bearing_deg: number;
  distance_m: number;
  /** Share of light it returns; undefined: the site's albedo. */
  reflectance: number | undefined;
  leaves: Leaves;
}

/** How much light passes with and without leaves, and the days they come and go (month and day, 'MM-DD'). */
export interface Leaves {
  transmittance: number;
  bareTransmittance: number;
  /** Undefined: the usual dates of the hemisphere; without effect where both transmittances are the same. */
  on: string | undefined;
  off: string | undefined;
}

/** Wall, house, hedge or fence: a box whose long face stands `distance_m` away at its middle. */
export interface BoxObstacle extends Common {
  kind: 'wall' | 'house' | 'hedge' | 'fence';
  /** Bearing that face looks at. */
  faces_deg: number;
  width_m: number;
  height_m: number;
  /** From that face to the one behind it. */
  depth_m: number;
  /** Top of a roof whose ridge runs along the face, above the middle of the depth; undefined: a flat top. */
  ridgeHeight_m: number | undefined;
  /** How far the roof reaches out over the walls, at `height_m`. */
  eaves_m: number;
}

/** A tree: a trunk, and a crown with the shape of an upright ellipsoid. */
export interface TreeObstacle extends Common {
  kind: 'tree';
  trunkWidth_m: number;
  crownBase_m: number;
  crownTop_m: number;
  crownWidth_m: number;
}

/** A point in the garden: metres east and north of the spot, and above the ground. */
export interface Eye {
  east_m: number;
  north_m: number;
  height_m: number;
}
