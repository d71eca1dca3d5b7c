import { sum } from 'd3-array';
import { RADIANS } from '../../common/constants.ts';
import { atan2 } from '../../common/elementary/atan2.ts';
import { cos, sin } from '../../common/elementary/sin.ts';
import { square } from '../../common/numeric.ts';
import type { CellPassage } from '../cover/cellPassage.ts';
import { passThrough, type SkyDome, type Span } from './SkyDome.ts';

/** What a tilted plane takes of an isotropic dome. */
export interface DomeShares {
  /** Share of an open sky's isotropic light (on the flat ground) that the sky still gives to the plane. */
  sky: number;
  /** The same for each screen, were it as bright as that sky, in the order of the dome. */
  screens: ScreenShare[];
  /** Share of a band at the horizon that the plane takes, of what an open upright plane of the same bearing sees, 0 to 1. */
  band: number;
}

export interface ScreenShare {
  /** What the plane takes of a screen as bright as that sky. */
  view: number;
  /**
   * By whole degrees of the sun's azimuth (361 values): the same, each part of the screen weighed with the cosine
   * between the bearing it looks at and a sun on the horizon.
   */
  sun: Float64Array;
}

const BEARINGS = 720;
/** Height at which something low counts as standing before the bright band at the horizon. */
const BAND_ELEVATION_DEG = 3;
const BAND_SINE = sin(BAND_ELEVATION_DEG * RADIANS);
const BAND_COSINE = cos(BAND_ELEVATION_DEG * RADIANS);

/**
 * What a plane takes of sky and obstacles, without unit: each direction's light by the cosine of its incidence and by
 * what cover and front pass of it. A bare flat plane in the open has sky 1.
 *
 * in: dome; tilt_deg of the plane, 0 flat to 90 upright and on to 180; bearing_deg it faces, clockwise from north;
 *   passage, of the plane; bearings, how many the dome is cut into
 * out: sky + all screens = (1 + cos tilt) / 2 where all light passes, the rest being ground
 * valid: along each bearing the light is integrated between the edges of the screens, to 1e-5. At 720 bearings within
 *   0.1 percent of the closed forms
 * source: LiuJordan1963, Steyn1980 for the integral; cut along bearings and edges here
 */
export function domeShares(
  { screens }: Pick<SkyDome, 'screens'>,
  tilt_deg: number,
  bearing_deg: number,
  passage?: CellPassage,
  bearings: number = BEARINGS,
): DomeShares {
  const column = () => screens.map(() => new Float64Array(bearings));
  const faces = column();
  // A width in radians over pi: the horizontal view of a sky of brightness 1.
  const view: View = { sky: 0, taken: column(), width: 2 / bearings };
  const { share } = passage ?? { share: () => 1 };
  const between = passage === undefined ? plainLight : lightThrough(share);
  let band = 0;
  let openBand = 0;
  // cos(incidence) = p sin(e) + q cos(e) at elevation e: a sine of e turned, above 0 where the plane sees
  const p = cos(tilt_deg * RADIANS);
  for (let k = 0; k < bearings; k++) {
    const direction_deg = ((k + 0.5) * 360) / bearings;
    const front = cos((direction_deg - bearing_deg) * RADIANS);
    const q = sin(tilt_deg * RADIANS) * front;
    const turn_deg = atan2(q, p) / RADIANS;
    const from_deg = Math.max(-turn_deg, 0);
    const to_deg = Math.min(180 - turn_deg, 90);
    if (to_deg <= from_deg) continue;
    const spans = screens.map((screen) => screen.span(direction_deg));
    spans.forEach((span, s) => {
      faces[s]![k] = span?.faces_deg ?? direction_deg + 180;
    });
    const edges = edgesOf(spans, from_deg, to_deg, passage?.jump_deg);
    addBearing(view, k, spans, edges, (from, to) => between(p, q, from, to));
    if (front > 0) {
      openBand += front;
      const seen = passThrough(screens, direction_deg, BAND_ELEVATION_DEG);
      band += front * seen * share(p * BAND_SINE + q * BAND_COSINE, BAND_ELEVATION_DEG);
    }
  }
  return {
    sky: view.sky,
    screens: view.taken.map((parts, s) => ({ view: sum(parts), sun: sunOn(parts, faces[s]!) })),
    band: band / openBand,
  };
}

/** What sky and screens give so far; of the screens by bearing. */
interface View {
  sky: number;
  taken: Float64Array[];
  width: number;
}

/** Elevations at which anything changes along one bearing, from the lowest to the highest that the plane sees. */
function edgesOf(
  spans: readonly (Span | undefined)[],
  from_deg: number,
  to_deg: number,
  jump_deg = 0,
): number[] {
  const edges = [from_deg, to_deg];
  const cut = (elevation_deg: number) => {
    if (elevation_deg > from_deg && elevation_deg < to_deg) edges.push(elevation_deg);
  };
  cut(jump_deg);
  for (const span of spans) {
    if (span === undefined) continue;
    cut(span.from_deg);
    cut(span.to_deg);
  }
  return edges.sort((a, b) => a - b);
}

/** Adds what sky and screens give along one bearing between its edges. */
function addBearing(
  view: View,
  k: number,
  spans: readonly (Span | undefined)[],
  edges: readonly number[],
  between: (from_deg: number, to_deg: number) => number,
): void {
  for (let e = 1; e < edges.length; e++) {
    const from_deg = edges[e - 1]!;
    const to_deg = edges[e]!;
    const middle_deg = (from_deg + to_deg) / 2;
    let left = between(from_deg, to_deg) * view.width;
    spans.forEach((span, s) => {
      if (span === undefined || middle_deg < span.from_deg || middle_deg >= span.to_deg) return;
      view.taken[s]![k]! += left * (1 - span.transmittance);
      left *= span.transmittance;
    });
    view.sky += left;
  }
}

const COSINES = Float64Array.from({ length: 360 }, (_, degree) => cos(degree * RADIANS));

/** By whole degrees of the sun's azimuth: the parts of a view, weighed with the cosine to where each looks. */
function sunOn(view: Float64Array, faces_deg: Float64Array): Float64Array {
  // The cosine of a difference: sums over the parts by the whole degree they look at, then one table of 361.
  const byFace = new Float64Array(360);
  view.forEach((part, k) => {
    if (part > 0) byFace[((Math.round(faces_deg[k]!) % 360) + 360) % 360]! += part;
  });
  const table = new Float64Array(361);
  byFace.forEach((part, face) => {
    if (part === 0) return;
    for (let azimuth = 0; azimuth <= 360; azimuth++) {
      const cosine = COSINES[Math.abs(azimuth - face) % 360]!;
      if (cosine > 0) table[azimuth]! += part * cosine;
    }
  });
  return table;
}

/** What a plane takes between two elevations along one bearing, its cosine of incidence p sin(e) + q cos(e) at e. */
type LightBetween = (p: number, q: number, from_deg: number, to_deg: number) => number;

/** The integral of cosine times cos(e). */
const plainLight: LightBetween = (p, q, from_deg, to_deg) => {
  const [a, b] = [from_deg * RADIANS, to_deg * RADIANS];
  const across = (square(sin(b)) - square(sin(a))) / 2;
  return p * across + q * ((b - a) / 2 + (sin(2 * b) - sin(2 * a)) / 4);
};

/** Places from -1 to 1 and weights of the quadrature of eight points; of each pair the positive. */
// source: AbramowitzStegun1964, table 25.4
const POINTS = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
].flatMap(([place, weight]) => [
  { place: place!, weight: weight! },
  { place: -place!, weight: weight! },
]);

/** The same integral with the share that passes. */
function lightThrough(share: CellPassage['share']): LightBetween {
  return (p, q, from_deg, to_deg) => {
    const half_deg = (to_deg - from_deg) / 2;
    let light = 0;
    for (const { place, weight } of POINTS) {
      const elevation_deg = from_deg + half_deg * (1 + place);
      const e = elevation_deg * RADIANS;
      const cosElevation = cos(e);
      const cosIncidence = p * sin(e) + q * cosElevation;
      light += weight * share(cosIncidence, elevation_deg) * cosIncidence * cosElevation;
    }
    return light * half_deg * RADIANS;
  };
}
