import { OPEN_DOME, type Screen, type SkyDome } from './SkyDome.ts';

/**
 * The sky behind any number of screens. What several of them hide passes all of them: transmittances multiply.
 *
 * in: screens, in any order
 * out: the dome, its screens nearest first
 */
export function screenDome(screens: readonly Screen[]): SkyDome {
  if (screens.length === 0) return OPEN_DOME;
  return {
    screens: screens.toSorted((a, b) => a.distance_m - b.distance_m),
    transmittance: (bearing_deg, elevation_deg) => {
      let pass = 1;
      for (let k = 0; k < screens.length && pass > 0; k++) {
        const span = screens[k]!.span(bearing_deg);
        if (span !== undefined && elevation_deg >= span.from_deg && elevation_deg < span.to_deg) {
          pass *= span.transmittance;
        }
      }
      return pass;
    },
  };
}
