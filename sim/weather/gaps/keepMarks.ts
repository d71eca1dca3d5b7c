import { HOUR_MS } from '../../common/time.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../WeatherRecord.ts';
import type { FilledColumns } from './fillGaps.ts';

const MEASURED = WEATHER_MARKS.indexOf('measured');
const FILLED: readonly number[] = [WEATHER_MARKS.indexOf('filled'), WEATHER_MARKS.indexOf('stand-in')];

/**
 * Filled columns with the marks that an earlier reading of the same hours left: an hour filled then counts as filled
 * now. What was accepted then is not asked again, so months keep their state.
 *
 * in: filled, of a file of the normal form; earlier, that file's record
 * out: a copy of filled
 */
export function keepMarks(filled: FilledColumns, earlier: WeatherRecord): FilledColumns {
  const mark = filled.mark.slice();
  const flags = filled.filled.slice();
  const shift = (filled.columns.start_ms - earlier.start_ms) / HOUR_MS;
  for (let i = 0; i < mark.length; i++) {
    const before = earlier.mark[i + shift];
    if (before === undefined || before === MEASURED || flags[i] === 1) continue;
    mark[i] = before;
    if (FILLED.includes(before)) flags[i] = 1;
  }
  return { ...filled, mark, filled: flags };
}

/**
 * The marks of a record whose global irradiance is the sum of its parts, or of its days, throughout: that in place of
 * 'measured'.
 *
 * in: filled, after fillGaps; name, of the mark
 * out: a copy
 */
export function markThroughout(filled: FilledColumns, name: 'closed' | 'day-sum'): FilledColumns {
  const index = WEATHER_MARKS.indexOf(name);
  return { ...filled, mark: filled.mark.map((mark) => (mark === MEASURED ? index : mark)) };
}
