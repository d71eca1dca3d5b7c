import { type CsvColumn, csvText, fixed } from '../../sim/common/csvText.ts';

const START_MS = Date.UTC(2025, 11, 8);
const HOUR_MS = 3_600_000;

/** First and last light of the day, hours UTC: about sunrise and sunset of mid-December at 54 N, 10 E. */
const FIRST_LIGHT_H = 7.5;
const LAST_LIGHT_H = 15;

/** Most light of each day on the cell, W/m2: dull days, two bright ones, a dull end. Invented. */
const BRIGHTEST_W_M2 = [35, 22, 60, 140, 48, 18, 12, 30, 90, 170, 55, 26, 40, 15];

/**
 * Light on a cell as if it had been logged, 14 invented December days as CSV, mean over each hour in W/m2: half a sine
 * from first to last light.
 */
export function lightOnCellCsv(): string {
  const columns: CsvColumn<number>[] = [
    {
      heading: 'start_utc',
      cell: (hour) => `${new Date(START_MS + hour * HOUR_MS).toISOString().slice(0, 19)}Z`,
    },
    {
      heading: 'light_W_m2',
      cell: (hour) => fixed(BRIGHTEST_W_M2[Math.floor(hour / 24)]! * meanShare(hour % 24), 1),
    },
  ];
  return csvText(columns, Array(BRIGHTEST_W_M2.length * 24).keys());
}

/** Mean of the half sine over the hour that begins at hour_h. */
function meanShare(hour_h: number): number {
  const span_h = LAST_LIGHT_H - FIRST_LIGHT_H;
  const phase = (at_h: number) =>
    (Math.PI * (Math.min(Math.max(at_h, FIRST_LIGHT_H), LAST_LIGHT_H) - FIRST_LIGHT_H)) / span_h;
  return ((Math.cos(phase(hour_h)) - Math.cos(phase(hour_h + 1))) * span_h) / Math.PI;
}
