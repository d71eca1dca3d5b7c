import { csvText } from '../common/csvText.ts';
import type { Trial } from '../trial/Trial.ts';
import { civilStamp } from './civilStamp.ts';
import { cellText, NIGHT_COLUMNS } from './columns.ts';

/**
 * The text of nights.csv: a row per trial and night, in the order of the trials.
 *
 * in: trials; timeZone, IANA name of the site
 * out: CSV text, one heading row
 */
export function nightsCsv(trials: readonly Trial[], timeZone: string): string {
  const civil = civilStamp(timeZone);
  const rows = trials.flatMap((trial) => trial.nights.map((night) => ({ trial, night })));
  const names = (['spot', 'lamp'] as const).map((heading) => ({
    heading,
    cell: ({ trial }: (typeof rows)[number]) => trial[heading],
  }));
  const ofNight = NIGHT_COLUMNS.map((column) => ({
    heading: column.heading,
    cell: ({ night }: (typeof rows)[number]) => cellText(column, night, civil),
  }));
  return csvText([...names, ...ofNight], rows);
}
