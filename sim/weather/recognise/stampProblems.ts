import { InputProblem } from '../../common/InputProblem.ts';
import { HOUR_MS } from '../../common/time.ts';
import { classifyCell } from './classifyCell.ts';
import type { SplitSample } from './detectDialect.ts';

const DAY_WITHOUT_YEAR =
  /^(?:\d{1,2}[-./] ?\d{1,2}\.?|\d{1,2}\.? [A-Za-z\u00c0-\u017f]{3,10}\.?|[A-Za-z\u00c0-\u017f]{3,10}\.? \d{1,2})(?:[ T,]+\d{1,2}[:.h]\d\d\S*)?$/;

/**
 * The refusal of rows that are counted or named by months alone.
 *
 * in: file, name for messages; split, its sample
 * out: WEATHER_PARTIAL_YEAR; undefined where rows are something else
 */
export function monthsOnly(file: string, split: SplitSample): InputProblem | undefined {
  const { rows, layout } = split;
  const isMonth = (text: string, r: number): boolean =>
    /^0?[1-9]$|^1[0-2]$/.test(text)
      ? r === 0 || Number(text) === (Number((rows[r - 1]![0] ?? '').trim()) % 12) + 1
      : /^[a-z]{3,}$/i.test(text) && !Number.isNaN(Date.parse(`1 ${text.slice(0, 3)} 2001`));
  const follow = rows.every((cells, r) => isMonth((cells[0] ?? '').trim(), r));
  return rows.length >= 10 && rows.length <= 24 && layout.width > 1 && follow
    ? monthly(file, split)
    : undefined;
}

/** Rows that say nothing of the days. out: WEATHER_PARTIAL_YEAR */
export function monthly(file: string, { rows, layout }: SplitSample): InputProblem {
  return new InputProblem({
    code: 'WEATHER_PARTIAL_YEAR',
    file,
    line: layout.firstDataLine,
    got: `one row a month (${rows.length} rows), which does not say which days were dark, and how many of them ran together`,
    expected: 'rows a day or less apart',
    fix: 'export the same record by the hour, or at least by the day.',
  });
}

/** Rows too far apart to say when the light came. in: apart_ms, from row to row. out: WEATHER_PARTIAL_YEAR */
export function farApart(file: string, { layout }: SplitSample, apart_ms: number): InputProblem {
  const hours = Math.round((apart_ms / HOUR_MS) * 10) / 10;
  return new InputProblem({
    code: 'WEATHER_PARTIAL_YEAR',
    file,
    line: layout.firstDataLine,
    got: `rows ${hours > 48 ? `${Math.round(hours / 2.4) / 10} days` : `${hours} hours`} apart, which do not say when the light came`,
    expected: 'steps of 10 seconds to 3 hours, or of a day',
    fix: 'export the same record by the hour.',
  });
}

/** Rows of which no column makes a time, or none with a year. out: WEATHER_STAMP_UNREADABLE */
export function unreadable(file: string, { rows, layout }: SplitSample): InputProblem {
  const first = rows[0] ?? [];
  const yearless = first.find(
    (cell) => DAY_WITHOUT_YEAR.test(cell.trim()) && classifyCell(cell.trim()) !== 'number',
  );
  return new InputProblem({
    code: 'WEATHER_STAMP_UNREADABLE',
    file,
    line: layout.firstDataLine,
    got: `rows such as "${first.join(layout.delimiter).slice(0, 80)}", in which no column gives times that follow each other`,
    expected: 'a time in every row, such as 2021-12-31 23:00, in steps of 10 seconds to 3 hours, or of a day',
    fix:
      yearless === undefined
        ? 'export it with date and time, or name the stamp column.'
        : `is "${yearless}" a day without its year? Export it with the year.`,
  });
}
