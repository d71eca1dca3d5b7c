import { type CsvColumn, csvText } from '../common/csvText.ts';
import type { NightRow } from '../night/nightLedger.ts';
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
  const columns = columnsOf(timeZone);
  return csvText(columns, trials.flatMap(rowsOf));
}

/**
 * A writer of the rows of one trial after the other, to be put under the heading of `nightsCsv` of none.
 *
 * in: timeZone, IANA name of the site
 */
export function nightRows(timeZone: string): (trial: Trial) => string {
  const columns = columnsOf(timeZone);
  const heading = csvText(columns, []);
  return (trial) => csvText(columns, rowsOf(trial)).slice(heading.length);
}

interface Row {
  trial: Trial;
  night: NightRow;
}

function rowsOf(trial: Trial): Row[] {
  return trial.nights.map((night) => ({ trial, night }));
}

function columnsOf(timeZone: string): CsvColumn<Row>[] {
  const civil = civilStamp(timeZone);
  return [
    ...(['spot', 'lamp'] as const).map((heading) => ({
      heading,
      cell: ({ trial }: Row) => trial[heading],
    })),
    ...NIGHT_COLUMNS.map((column) => ({
      heading: column.heading,
      cell: ({ night }: Row) => cellText(column, night, civil),
    })),
  ];
}
