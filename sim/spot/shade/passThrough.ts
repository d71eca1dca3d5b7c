import type { Screen } from './SkyDome.ts';

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
