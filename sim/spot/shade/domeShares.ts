import { RADIANS } from '../../common/constants.ts';
import { type ElevationLight, PLAIN_LIGHT } from './elevationLight.ts';
import { passThrough } from './passThrough.ts';
import type { SkyDome, Span } from './SkyDome.ts';

/** What a tilted plane sees of an evenly bright dome. */
export interface DomeShares {
  /** Share of an open sky's even light (on the flat ground) that the sky still gives to the plane. */
  sky: number;
  /** The same for all screens together, were they as bright as that sky. */
  obstacles: number;
  /** The same for each screen, in the order of the dome. */
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

/**
 * Shares of a plane's view that sky and obstacles take, without unit. An open flat plane has sky 1, obstacles 0.
 *
 * in: dome; tilt_deg of the plane, 0 flat to 90 upright; bearing_deg it faces, clockwise from north; light, what a
 *   cover takes by elevation; bearings, how many the dome is cut into
 * out: sky + obstacles = (1 + cos tilt) / 2 without a cover, the rest being ground
 * valid: along each bearing the light is integrated exactly between the edges of the screens. At 720 bearings within
 *   0.1 percent of the closed forms
 * source: LiuJordan1963, Steyn1980 for the integral
 */
export function domeShares(
  dome: Pick<SkyDome, 'screens'>,
  tilt_deg: number,
  bearing_deg: number,
  light: ElevationLight = PLAIN_LIGHT,
  bearings: number = BEARINGS,
): DomeShares {
  const { screens } = dome;
  const taken = screens.map(() => new Float64Array(bearings));
  const faces = screens.map(() => new Float64Array(bearings));
  // A width in radians over pi: the flat view of a sky of brightness 1.
  const width = 2 / bearings;
  let sky = 0;
  let band = 0;
  let openBand = 0;
  // cos(incidence) = p sin(e) + q cos(e) at elevation e; the plane sees what lies above its own edge
  const p = Math.cos(tilt_deg * RADIANS);
  const spans: (Span | undefined)[] = new Array(screens.length);
  const edges: number[] = [];
  for (let k = 0; k < bearings; k++) {
    const direction_deg = ((k + 0.5) * 360) / bearings;
    const front = Math.cos((direction_deg - bearing_deg) * RADIANS);
    const q = Math.sin(tilt_deg * RADIANS) * front;
    const edge_deg = q < 0 ? Math.atan2(-q, p) / RADIANS : 0;
    edges.length = 0;
    edges.push(edge_deg, 90);
    for (let s = 0; s < screens.length; s++) {
      const span = screens[s]!.span(direction_deg);
      spans[s] = span;
      if (span === undefined) continue;
      if (span.from_deg > edge_deg) edges.push(span.from_deg);
      if (span.to_deg > edge_deg && span.to_deg < 90) edges.push(span.to_deg);
      faces[s]![k] = span.faces_deg ?? direction_deg + 180;
    }
    if (edges.length > 2) edges.sort((a, b) => a - b);
    let before = p * light.upright(edge_deg) + q * light.leaning(edge_deg);
    for (let e = 1; e < edges.length; e++) {
      const after = p * light.upright(edges[e]!) + q * light.leaning(edges[e]!);
      const middle_deg = (edges[e - 1]! + edges[e]!) / 2;
      let left = (after - before) * width;
      for (let s = 0; s < screens.length; s++) {
        const span = spans[s];
        if (span === undefined || middle_deg < span.from_deg || middle_deg >= span.to_deg) continue;
        taken[s]![k]! += left * (1 - span.transmittance);
        left *= span.transmittance;
      }
      sky += left;
      before = after;
    }
    if (front > 0) {
      openBand += front;
      band += front * passThrough(screens, direction_deg, BAND_ELEVATION_DEG);
    }
  }
  const shares = taken.map((view, s) => ({
    view: view.reduce((sum, part) => sum + part, 0),
    sun: sunOn(view, faces[s]!),
  }));
  return {
    sky,
    obstacles: shares.reduce((sum, share) => sum + share.view, 0),
    screens: shares,
    band: band / openBand,
  };
}

const BEARINGS = 720;
/** Height at which something low counts as standing before the bright band at the horizon. */
const BAND_ELEVATION_DEG = 3;

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

const COSINES = Float64Array.from({ length: 360 }, (_, degree) => Math.cos(degree * RADIANS));
