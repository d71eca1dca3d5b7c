/** What a screen hides along one bearing: elevations from `from_deg` to below `to_deg`. */
export interface Span {
  from_deg: number;
  to_deg: number;
  /** Share of the light that passes, 0 (shut) to 1. */
  transmittance: number;
  /** Bearing the lit side looks at; straight back to the spot where not given. */
  faces_deg?: number;
}

/** Something that stands between the spot and the sky. */
export interface Screen {
  name: string;
  /** House, hedge, crown, ... in a word. */
  kind: string;
  /** To its nearest point; what stands nearer hides what stands behind. */
  distance_m: number;
  /** Share of light it reflects; undefined: the site's albedo. */
  reflectance: number | undefined;
  /** What it hides at a bearing of 0 to 360. */
  span(bearing_deg: number): Span | undefined;
}

/** The sky as seen from the spot: how much light passes from each direction above the horizontal. */
export interface SkyDome {
  /** Nearest first. */
  screens: readonly Screen[];
  /** Share of the light from a direction that reaches the spot, 0 (blocked) to 1 (open). Bearing 0 to 360. */
  transmittance(bearing_deg: number, elevation_deg: number): number;
}

/** A spot with nothing around it. */
export const OPEN_DOME: SkyDome = { screens: [], transmittance: () => 1 };

/**
 * Share of the light from one direction that passes any number of screens, without unit: their transmittances
 * multiplied.
 *
 * in: screens; bearing_deg, 0 to 360; elevation_deg, 0 to 90
 * out: 0 to 1
 */
export function passThrough(screens: readonly Screen[], bearing_deg: number, elevation_deg: number): number {
  let pass = 1;
  for (let k = 0; k < screens.length && pass > 0; k++) {
    const span = screens[k]!.span(bearing_deg);
    if (span !== undefined && elevation_deg >= span.from_deg && elevation_deg < span.to_deg) {
      pass *= span.transmittance;
    }
  }
  return pass;
}

/** Cuts of a tenth of a degree. */
const CUTS = 3600;

/**
 * The sky behind any number of screens. What several of them hide passes all of them: transmittances multiply.
 *
 * in: screens, in any order
 * out: the dome, its screens nearest first
 * valid: directions are told apart by a tenth of a degree of bearing, 24 seconds of sun; elevations exactly
 */
export function screenDome(screens: readonly Screen[]): SkyDome {
  if (screens.length === 0) return OPEN_DOME;
  // Along each bearing the sky is cut at the edges of the screens: up to to_deg[k] passes pass[k], above all 1. A cut
  // is made when its bearing is first asked for; most never are.
  const most = 2 * screens.length;
  const edges = new Int8Array(CUTS).fill(-1);
  const to_deg = new Float64Array(CUTS * most);
  const pass = new Float64Array(CUTS * most);
  const cut = (place: number): void => {
    const bearing_deg = ((place + 0.5) * 360) / CUTS;
    const spans = screens.map((screen) => screen.span(bearing_deg)).filter((span) => span !== undefined);
    const cuts: number[] = [];
    for (const { from_deg, to_deg } of spans) {
      if (from_deg > 0) cuts.push(from_deg);
      cuts.push(to_deg);
    }
    if (cuts.length > 1) cuts.sort((a, b) => a - b);
    let below_deg = 0;
    for (let k = 0; k < cuts.length; k++) {
      const middle_deg = (below_deg + cuts[k]!) / 2;
      let share = 1;
      for (const span of spans) {
        if (middle_deg >= span.from_deg && middle_deg < span.to_deg) share *= span.transmittance;
      }
      below_deg = cuts[k]!;
      to_deg[place * most + k] = below_deg;
      pass[place * most + k] = share;
    }
    edges[place] = cuts.length;
  };
  return {
    screens: screens.toSorted((a, b) => a.distance_m - b.distance_m),
    transmittance: (bearing_deg, elevation_deg) => {
      const place = Math.floor((bearing_deg * CUTS) / 360) % CUTS;
      if (edges[place]! < 0) cut(place);
      const first = place * most;
      const last = first + edges[place]!;
      for (let k = first; k < last; k++) if (elevation_deg < to_deg[k]!) return pass[k]!;
      return 1;
    },
  };
}
