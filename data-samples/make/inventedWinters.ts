import { normalShare } from '../../sim/climate/LearnedClimate.ts';
import { drawBrightness, USUAL_PERSISTENCE } from '../../sim/climate/persistence.ts';
import { fixed } from '../../sim/common/csvText.ts';
import { clearnessOfDays, hoursOfDays, type InventedYear, yearFrame } from './inventedYear.ts';
import { ABOVE } from './otherLayouts.ts';

const DAY_H = 24;
const HOUR_MS = 3_600_000;
const DAY_MS = DAY_H * HOUR_MS;

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

/** The invented winters as a CSV file: the place above the rows, whole W/m2 so that it packs small. */
export function inventedWintersCsv({ start_ms, ghi_W_m2, air_degC }: InventedYear): string {
  const head = [
    ...ABOVE,
    'Times are the start of the hour, in UTC',
    '',
    'time,GHI (W/m2),air temperature (degC)',
  ];
  const rows = Array.from(ghi_W_m2, (ghi, hour) => {
    const time = new Date(start_ms + hour * HOUR_MS).toISOString().slice(0, 16).replace('T', ' ');
    return `${time},${fixed(ghi, 0)},${fixed(air_degC[hour]!, 1)}`;
  });
  return `${[...head, ...rows].join('\n')}\n`;
}
