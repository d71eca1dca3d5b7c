import { normalShare } from '../../sim/climate/LearnedClimate.ts';
import { drawBrightness, USUAL_PERSISTENCE } from '../../sim/climate/persistence.ts';
import { clearnessOfDays, hoursOfDays, type InventedYear, yearFrame } from './inventedYear.ts';

const DAY_H = 24;
const DAY_MS = DAY_H * 3_600_000;

/** The first of the seeds, not chosen. */
const SEED = 1;
const FIRST_YEAR = 2013;
const WINTERS = 12;

/**
 * Twelve invented winters, July to June: the weather of `inventedYear`, but for how its days follow each other. They hang
 * together by two parts and a share that all days of a winter have in common, so that winters differ as real ones do.
 *
 * out: hours from 0 h UTC of 1 July 2013 to 1 July 2025
 * valid: physically plausible, measured nowhere
 */
export function inventedWinters(): InventedYear {
  const start_ms = Date.UTC(FIRST_YEAR, 6, 1);
  const starts = Array.from({ length: WINTERS + 1 }, (_, winter) =>
    Math.round((Date.UTC(FIRST_YEAR + winter, 6, 1) - start_ms) / DAY_MS),
  );
  const count = starts.at(-1)!;
  const frame = yearFrame(start_ms, count);
  const brightness = new Float64Array(count);
  for (let winter = 0; winter < WINTERS; winter++) {
    const days = starts[winter + 1]! - starts[winter]!;
    brightness.set(drawBrightness(USUAL_PERSISTENCE, days, SEED, winter), starts[winter]!);
  }
  const distributions = clearnessOfDays(frame);
  const clearness = brightness.map((normal, day) => distributions[day]!.clearnessAt(normalShare(normal)));
  return hoursOfDays(SEED, frame, { clearness, brightness });
}
