import { expect, test } from 'vitest';
import type { FilledColumns } from '../../../sim/weather/gaps/fillGaps.ts';
import { keepMarks } from '../../../sim/weather/gaps/recordOf.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../../../sim/weather/WeatherRecord.ts';

const HOUR = 3_600_000;
const marks = (...words: (typeof WEATHER_MARKS)[number][]) =>
  Uint8Array.from(words, (word) => WEATHER_MARKS.indexOf(word));

const filled: FilledColumns = {
  start_ms: 2 * HOUR,
  count: 4,
  ghi_W_m2: Float64Array.of(1, 2, 3, 4),
  mark: marks('measured', 'measured', 'measured', 'filled'),
  filled: Uint8Array.of(0, 0, 0, 1),
  interpolated_h: 1,
  fromDays_h: 0,
  dark_h: 0,
  absent_h: 0,
  months: [],
};
const earlier = (start_ms: number, mark: Uint8Array): WeatherRecord => ({
  start_ms,
  step_s: 3600,
  count: mark.length,
  ghi_W_m2: new Float64Array(mark.length),
  air_degC: new Float64Array(mark.length),
  mark,
  origin: { file: 'made-up.csv', sha256: '', options: {}, filledHours: 0 },
});

test('keepMarks counts hours filled earlier as filled, at their own time, and leaves its argument alone', () => {
  const before = earlier(HOUR, marks('filled', 'measured', 'filled', 'closed', 'measured'));
  const kept = keepMarks(filled, before);
  expect(kept.mark).toEqual(marks('measured', 'filled', 'closed', 'filled'));
  expect(kept.filled).toEqual(Uint8Array.of(0, 1, 0, 1));
  expect(filled.filled).toEqual(Uint8Array.of(0, 0, 0, 1));
  expect(filled.mark[1]).toBe(WEATHER_MARKS.indexOf('measured'));
});

test('keepMarks keeps hours that the earlier record does not reach', () => {
  expect(keepMarks(filled, earlier(4 * HOUR, marks('stand-in'))).filled).toEqual(Uint8Array.of(0, 0, 1, 1));
});
