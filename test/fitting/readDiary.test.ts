import { expect, it } from 'vitest';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import { readDiary } from '../../sim/fitting/readDiary.ts';

const ZONE = 'Europe/Berlin';
const diary = (text: string) => ({ name: 'nights.txt', bytes: new TextEncoder().encode(text) });
const read = (text: string) => readDiary(diary(text), ZONE).rows;

function problemsOf(text: string) {
  try {
    read(text);
  } catch (error) {
    if (error instanceof InputProblem) return error.problems;
    throw error;
  }
  throw new Error('no problem');
}

it('a line is a time at which the lamp went out, or a time with lit behind it, in local time', () => {
  expect(read('2027-12-14 21:40\n2027-12-13 23:00 lit\n2028-06-01 23:30 out\n')).toEqual([
    { line: 2, seen: 'lit', written: '2027-12-13 23:00', time_ms: Date.UTC(2027, 11, 13, 22) },
    { line: 1, seen: 'out', written: '2027-12-14 21:40', time_ms: Date.UTC(2027, 11, 14, 20, 40) },
    { line: 3, seen: 'out', written: '2028-06-01 23:30', time_ms: Date.UTC(2028, 5, 1, 21, 30) },
  ]);
});

it('the same as CSV, with a heading, remarks, blank lines, other stamps and offsets', () => {
  const rows = read('# lawn\n\nwhen;seen\n14.12.2027 21:40;went out\r\n13.12.2027 23:00; Still lit # cold\n');
  expect(rows.map(({ line, seen }) => [line, seen])).toEqual([
    [5, 'lit'],
    [4, 'out'],
  ]);
  expect(rows[1]!.time_ms).toBe(Date.UTC(2027, 11, 14, 20, 40));
  expect(read('"2027-12-14T21:40","lit"')[0]).toMatchObject({
    seen: 'lit',
    time_ms: Date.UTC(2027, 11, 14, 20, 40),
  });
  expect(read('2027-12-14T21:40Z')[0]!.time_ms).toBe(Date.UTC(2027, 11, 14, 21, 40));
});

it('rows that cannot be read are told by their lines, all together', () => {
  const problems = problemsOf(
    '2027-12-14 21:40\n2027-12-15\n2027-12-16 21:40 dim\n2027-12-17 25:10\nyesterday\n',
  );
  expect(problems.map(({ code, line }) => [code, line])).toEqual([
    ['WEATHER_STAMP_UNREADABLE', 2],
    ['WEATHER_STAMP_UNREADABLE', 3],
    ['WEATHER_STAMP_UNREADABLE', 4],
    ['WEATHER_STAMP_UNREADABLE', 5],
  ]);
  expect(problems[0]!.got).toBe('"2027-12-15"');
  expect(problems[1]!.expected).toContain("with 'lit' behind it");
});

it('days and months that could stand either way, and a file without a time, are refused', () => {
  expect(problemsOf('03/04/2027 21:40\n05/06/2027 22:00\n')[0]!.code).toBe('WEATHER_AMBIGUOUS');
  expect(problemsOf('# nothing yet\n')[0]!.code).toBe('FILE_EMPTY');
  expect(problemsOf('time,seen\n')[0]!.code).toBe('FILE_EMPTY');
});
