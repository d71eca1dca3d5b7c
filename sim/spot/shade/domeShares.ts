import { sum } from 'd3-array';
import { RADIANS } from '../../common/constants.ts';
import { straightLines } from '../../common/numeric.ts';
import { passThrough, type SkyDome, type Span } from './SkyDome.ts';

/** What a tilted plane sees of an isotropic dome. */
export interface DomeShares {
  /** Share of an open sky's isotropic light (on the flat ground) that the sky still gives to the plane. */
  sky: number;
  /** The same for each screen, were it as bright as that sky, in the order of the dome. */
  screens: ScreenShare[];
  /** Share of a band at the horizon that an upright plane of the same bearing sees, 0 to 1. */
  band: number;
}

export interface ScreenShare {
  /** Share of the plane's view that the screen takes. */
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

/**
 * Shares of a plane's view that sky and obstacles take, without unit. An open flat plane has sky 1.
 *
 * in: dome; tilt_deg of the plane, 0 flat to 90 upright; bearing_deg it faces, clockwise from north; light, what a
 *   cover takes by elevation; bearings, how many the dome is cut into
 * out: sky + all screens = (1 + cos tilt) / 2 without a cover, the rest being ground
 * valid: along each bearing the light is integrated exactly between the edges of the screens. At 720 bearings within
 *   0.1 percent of the closed forms
 * source: LiuJordan1963, Steyn1980 for the integral
 */
export function domeShares(
  { screens }: Pick<SkyDome, 'screens'>,
  tilt_deg: number,
  bearing_deg: number,
  light: ElevationLight = PLAIN_LIGHT,
  bearings: number = BEARINGS,
): DomeShares {
  const column = () => screens.map(() => new Float64Array(bearings));
  const faces = column();
  // A width in radians over pi: the horizontal view of a sky of brightness 1.
  const view: View = { sky: 0, taken: column(), width: 2 / bearings };
  let band = 0;
  let openBand = 0;
  // cos(incidence) = p sin(e) + q cos(e) at elevation e; the plane sees what lies above its own edge
  const p = Math.cos(tilt_deg * RADIANS);
  for (let k = 0; k < bearings; k++) {
    const direction_deg = ((k + 0.5) * 360) / bearings;
    const front = Math.cos((direction_deg - bearing_deg) * RADIANS);
    const q = Math.sin(tilt_deg * RADIANS) * front;
    const edge_deg = q < 0 ? Math.atan2(-q, p) / RADIANS : 0;
    const spans = screens.map((screen) => screen.span(direction_deg));
    spans.forEach((span, s) => {
      faces[s]![k] = span?.faces_deg ?? direction_deg + 180;
    });
    addBearing(view, k, spans, edge_deg, (e) => p * light.horizontal(e) + q * light.vertical(e));
    if (front > 0) {
      openBand += front;
      band += front * passThrough(screens, direction_deg, BAND_ELEVATION_DEG);
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

/** Adds what sky and screens give along one bearing, cut at the edges of the screens above the plane's own edge. */
function addBearing(
  view: View,
  k: number,
  spans: readonly (Span | undefined)[],
  edge_deg: number,
  upTo: (elevation_deg: number) => number,
): void {
  const edges = [edge_deg, 90];
  for (const span of spans) {
    if (span === undefined) continue;
    if (span.from_deg > edge_deg) edges.push(span.from_deg);
    if (span.to_deg > edge_deg && span.to_deg < 90) edges.push(span.to_deg);
  }
  edges.sort((a, b) => a - b);
  let before = upTo(edge_deg);
  for (let e = 1; e < edges.length; e++) {
    const after = upTo(edges[e]!);
    const middle_deg = (edges[e - 1]! + edges[e]!) / 2;
    let left = (after - before) * view.width;
    spans.forEach((span, s) => {
      if (span === undefined || middle_deg < span.from_deg || middle_deg >= span.to_deg) return;
      view.taken[s]![k]! += left * (1 - span.transmittance);
      left *= span.transmittance;
    });
    view.sky += left;
    before = after;
  }
}

const COSINES = Float64Array.from({ length: 360 }, (_, degree) => Math.cos(degree * RADIANS));

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

/** Integrals over the elevation, from 0 to the one given, of what a plane takes along one bearing. */
export interface ElevationLight {
  /** Of sin(e) cos(e): the horizontal plane. */
  horizontal(elevation_deg: number): number;
  /** Of cos(e) cos(e): the vertical plane. */
  vertical(elevation_deg: number): number;
}

/** Nothing but the sky between plane and dome. */
export const PLAIN_LIGHT: ElevationLight = {
  horizontal: (elevation_deg) => Math.sin(elevation_deg * RADIANS) ** 2 / 2,
  vertical: (elevation_deg) => {
    const e = elevation_deg * RADIANS;
    return e / 2 + Math.sin(2 * e) / 4;
  },
};

const STEPS = 900;

/**
 * The same integrals behind a cover that passes a share of the light by its elevation, such as the side of a jar.
 *
 * in: pass, share by elevation in degrees, 0 to 90
 * out: tabled every tenth of a degree
 */
export function elevationLight(pass: (elevation_deg: number) => number): ElevationLight {
  const tabled = (plain: (elevation_deg: number) => number) => {
    const table = new Float64Array(STEPS + 1);
    for (let i = 0; i < STEPS; i++) {
      const from_deg = (i * 90) / STEPS;
      const to_deg = ((i + 1) * 90) / STEPS;
      table[i + 1] = table[i]! + pass((from_deg + to_deg) / 2) * (plain(to_deg) - plain(from_deg));
    }
    const between = straightLines(table);
    return (elevation_deg: number) => between((elevation_deg * STEPS) / 90);
  };
  return { horizontal: tabled(PLAIN_LIGHT.horizontal), vertical: tabled(PLAIN_LIGHT.vertical) };
}
