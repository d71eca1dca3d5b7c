import { OPEN_DOME, type Screen, type SkyDome, type Span } from './SkyDome.ts';

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
  const spans: Span[] = [];
  const cut = (place: number): void => {
    spans.length = 0;
    for (const screen of screens) {
      const span = screen.span(((place + 0.5) * 360) / CUTS);
      if (span !== undefined) spans.push(span);
    }
    const first = place * most;
    let count = 0;
    for (const span of spans) {
      if (span.from_deg > 0) count = insert(to_deg, first, count, span.from_deg);
      count = insert(to_deg, first, count, span.to_deg);
    }
    for (let k = first; k < first + count; k++) {
      const middle_deg = ((k === first ? 0 : to_deg[k - 1]!) + to_deg[k]!) / 2;
      pass[k] = 1;
      for (const span of spans) {
        if (middle_deg >= span.from_deg && middle_deg < span.to_deg) pass[k]! *= span.transmittance;
      }
    }
    edges[place] = count;
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

const CUTS = 3600;

/** Puts a value into its place among the first `count` from `first` on; the new count. */
function insert(sorted: Float64Array, first: number, count: number, value: number): number {
  let k = first + count;
  while (k > first && sorted[k - 1]! > value) {
    sorted[k] = sorted[k - 1]!;
    k--;
  }
  sorted[k] = value;
  return count + 1;
}
