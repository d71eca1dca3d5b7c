import { bisect } from '../../sim/common/numeric.ts';
import { geometricAltitude, solarPosition } from '../../sim/sun/solarPosition.ts';

/** Altitude of the sun's centre when almanacs say the sun rises or sets: 34 minutes of refraction, 16 of radius. */
const ALMANAC_ALTITUDE_DEG = -0.8333;

/** Sunrise and sunset of the 24 hours from a midnight, UTC milliseconds, from the tool's own sun. */
export function sunriseAndSunset(
  midnight_ms: number,
  place: { latitude_deg: number; longitude_deg: number },
): { rise: number; set: number } {
  const height = (ms: number) =>
    geometricAltitude(solarPosition(ms, place.latitude_deg, place.longitude_deg).altitude_deg) -
    ALMANAC_ALTITUDE_DEG;
  let noon = midnight_ms;
  for (let ms = midnight_ms; ms < midnight_ms + 86_400_000; ms += 60_000) {
    if (height(ms) > height(noon)) noon = ms;
  }
  return {
    rise: bisect(height, midnight_ms, noon) ?? Number.NaN,
    set: bisect(height, noon, midnight_ms + 86_400_000) ?? Number.NaN,
  };
}
