import { InputProblem, type Problem } from '../../sim/common/InputProblem.ts';
import type { HourlyMapping } from '../../sim/tables/hourlyTable.ts';

export const MAPPING: HourlyMapping = {
  stamp: { column: 'time', zone: 'UTC', marks: 'start' },
  columns: { ghi: { column: 'ghi', unit: 'W/m2' }, air: { column: 'air', unit: 'degC' } },
  missing: ['', '-999'],
};

/** A file of the given text. */
export function fileOf(text: string): { name: string; bytes: Uint8Array } {
  return { name: 'made-up.csv', bytes: new TextEncoder().encode(text) };
}

/** Rows 'YYYY-MM-DD hh:mm,ghi,air' hour by hour from an instant. */
export function rowsFrom(
  start_ms: number,
  hours: number,
  ghi: (i: number) => number | string = () => 0,
): string[] {
  return Array.from({ length: hours }, (_, i) => {
    const stamp = new Date(start_ms + i * 3_600_000).toISOString().slice(0, 16).replace('T', ' ');
    return `${stamp},${ghi(i)},4.5`;
  });
}

/** A file with heading and rows. */
export function csvOf(rows: readonly string[]): { name: string; bytes: Uint8Array } {
  return fileOf(`time,ghi,air\n${rows.join('\n')}\n`);
}

/** The problems a call throws; fails when it throws none. */
export function problemsOf(call: () => unknown): readonly Problem[] {
  try {
    call();
  } catch (error) {
    if (error instanceof InputProblem) return error.problems;
    throw error;
  }
  throw new Error('no problem was found');
}
