import { DateTime } from 'luxon';
import { InputProblem } from '../common/InputProblem.ts';
import { MOST_OF_A_CODE, type ProblemList, problemList } from '../common/problemList.ts';
import { HOUR_MS } from '../common/time.ts';
import { decodeText } from '../tables/decodeText.ts';
import { quotedCell } from '../tables/parseNumber.ts';
import { parseStamp, stampTimes } from '../tables/stampReader.ts';
import type { NamedBytes } from '../tables/TableSource.ts';

/** What was seen: the lamp going out at a time, or still lit then. */
export type Seen = 'out' | 'lit';

/** One line of a diary. */
export interface DiaryRow {
  /** 1-based. */
  line: number;
  /** UTC milliseconds. */
  time_ms: number;
  seen: Seen;
  /** The time as it was written. */
  written: string;
}

/** What was seen of a lamp, night by night. */
export interface Diary {
  file: string;
  rows: DiaryRow[];
}

const WORDS: Readonly<Record<string, Seen>> = {
  out: 'out',
  'went out': 'out',
  lit: 'lit',
  'still lit': 'lit',
};
const ROW = /^["']?(.*?\d(?: ?Z| UTC)?)["']?(?:[\s,;]+["']?([a-z][a-z ]*)["']?)?[\s,;]*$/i;
const HOW = "a time of the evening or night, with 'lit' behind it where the lamp was still lit then";
const EXAMPLE = '2027-12-14 21:40, or 2027-12-13 23:00 lit';

/**
 * A diary of a lamp: a line for each night, with the time at which it was seen to go out, or a time and 'lit'; as plain
 * text or as CSV of two columns. Blank lines, what follows a #, and a heading are passed over.
 *
 * in: file, name and bytes; timeZone, of its times where they state no offset of their own
 * out: rows in the order of time
 * throws: FILE_NOT_TEXT, FILE_EMPTY, WEATHER_STAMP_UNREADABLE, WEATHER_AMBIGUOUS; all of a file together
 */
export function readDiary(file: NamedBytes, timeZone: string): Diary {
  const text = decodeText(file);
  const problems = problemList(MOST_OF_A_CODE);
  const found = text
    .split(/\r\n|\r|\n/)
    .map((line, i) => ({ line: i + 1, content: line.replace(/#.*/, '').trim() }))
    .filter(({ content }, i) => content !== '' && !(i === firstOf(text) && !/\d/.test(content)))
    .flatMap(({ line, content }) => rowOf(file.name, line, content, problems));
  const [stamps, lines] = [found.map(({ stamp }) => stamp), found.map(({ line }) => line)];
  const { times, style } = stampTimes({ file: file.name }, stamps, lines, 0, problems);
  problems.throwIfAny();
  if (found.length === 0) {
    throw new InputProblem({
      code: 'FILE_EMPTY',
      file: file.name,
      got: 'no line with a time',
      expected: HOW,
      fix: `write a line a night, such as ${EXAMPLE}.`,
    });
  }
  const rows = found.map(({ line, seen, stamp }, i) => {
    // One that states its own offset does not move with the zone.
    const own = parseStamp(stamp, style!, HOUR_MS) === times[i];
    const time_ms = own ? times[i]! : inZone(times[i]!, timeZone);
    return { line, seen, written: stamp, time_ms };
  });
  return { file: file.name, rows: rows.toSorted((one, other) => one.time_ms - other.time_ms) };
}

/** The first line that says anything, from 0: a heading where it holds no number. */
function firstOf(text: string): number {
  return text.split(/\r\n|\r|\n/).findIndex((line) => line.replace(/#.*/, '').trim() !== '');
}

function rowOf(file: string, line: number, content: string, problems: ProblemList) {
  const [, stamp = '', word = 'out'] = ROW.exec(content) ?? [];
  const seen = WORDS[word.trim().toLowerCase()];
  // A date alone would be taken for its midnight.
  if (seen !== undefined && stamp.includes(':')) return [{ line, seen, stamp }];
  problems.add('row', () => ({
    code: 'WEATHER_STAMP_UNREADABLE',
    file,
    line,
    got: quotedCell(content),
    expected: HOW,
    fix: `as in ${EXAMPLE}.`,
  }));
  return [];
}

/** A wall clock in a zone, UTC milliseconds; of an hour that comes twice the first. */
function inZone(wall_ms: number, timeZone: string): number {
  return DateTime.fromMillis(wall_ms, { zone: 'utc' }).setZone(timeZone, { keepLocalTime: true }).toMillis();
}
