import type { CoverParams } from './coverParams.ts';
import { coverTransmittance } from './coverTransmittance.ts';

/**
 * Transmittance of an upright round jar for light from an elevation, without unit: through its side as far as the lid
 * is not in the way, above that through the lid if it is clear.
 *
 * in: elevation_deg, 0 to 90; jar
 * out: 0 to 1
 * valid: a small cell on the jar's axis, so that light meets the glass across; nothing thrown back inside the jar
 * source: DuffieBeckman2020, equations 5.2.1 to 5.3.3 for the sheet
 */
export function jarSide(elevation_deg: number, jar: CoverParams): number {
  if (jar.lid === undefined || elevation_deg <= jar.lid.from_deg) {
    return coverTransmittance(elevation_deg, jar).transmittance;
  }
  return jar.lid.clear ? coverTransmittance(90 - elevation_deg, jar).transmittance : 0;
}
