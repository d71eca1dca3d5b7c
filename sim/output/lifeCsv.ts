import type { ScenarioLives } from '../ageing/ScenarioLives.ts';
import { type CsvColumn, csvText } from '../common/csvText.ts';
import { cellText, LIFE_COLUMNS, type LifeRow } from './columns.ts';

interface Row extends LifeRow {
  spot: string;
  lamp: string;
}

const COLUMNS: CsvColumn<Row>[] = [
  { heading: 'spot', cell: ({ spot }) => spot },
  { heading: 'lamp', cell: ({ lamp }) => lamp },
  // No column is an instant.
  ...LIFE_COLUMNS.map((column) => ({
    heading: column.heading,
    cell: (row: Row) => cellText<LifeRow>(column, row, String),
  })),
];

/**
 * The text of life.csv: a row per trial, factor and winter, in the order of the trials.
 *
 * in: lives
 * out: CSV text, one heading row
 */
export function lifeCsv({ trials }: Pick<ScenarioLives, 'trials'>): string {
  const rows = trials.flatMap(({ spot, lamp, bands }) =>
    bands.flatMap(({ law, winters }) =>
      winters.map(({ age: { capacitor, ...left }, between = false, ...winter }): Row => {
        return { spot, lamp, factor: law, ...capacitor, ...left, interpolated: between, ...winter };
      }),
    ),
  );
  return csvText(COLUMNS, rows);
}
