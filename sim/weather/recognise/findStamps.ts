import { extent, median, mode, pairs, sum } from 'd3-array';
import { InputProblem } from '../../common/InputProblem.ts';
import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import { type StampPart, stampReader } from '../../tables/stampReader.ts';
import { type Doubt, headingPlace, type StampReading } from './DetectedFormat.ts';
import type { SplitSample } from './detectDialect.ts';
import { namedColumn } from './namedColumn.ts';
import { type StampCandidate, stampCandidates } from './stampCandidates.ts';
import { farApart, monthly, monthsOnly, unreadable } from './stampProblems.ts';
import { normaliseHeading } from './words.ts';

/** How a file's stamps are put together, without zone and label, and the times they gave in the sample. */
export interface StampsFound {
  reading: Omit<StampReading, 'zone' | 'label'>;
  /** Wall clock of each row of the sample (offsets of its own not applied), milliseconds, NaN where unreadable. */
  wall_ms: Float64Array;
  /** Every text states its own offset. */
  each: boolean;
  doubts: Doubt[];
}

interface Trial extends StampCandidate {
  wall_ms: Float64Array;
  each: boolean;
  score: number;
  regular: number;
  step_ms: number;
  typical: boolean;
}

/** Between rows, but for days. */
const LONGEST_STEP_MS = 3 * HOUR_MS;
const SAYING_YEAR = new Set(['epoch s', 'epoch ms', 'serial day', 'text', 'year']);

/**
 * The way of putting the stamp together under which the rows of a sample follow each other best.
 *
 * in: file, name for messages; split, the sample of one file; named, the column that the user names
 * out: parts, step, order; the times
 * throws: WEATHER_STAMP_UNREADABLE where no column makes a time; WEATHER_AMBIGUOUS where two ways fit alike (day and month)
 */
export function findStamps(file: string, split: SplitSample, named?: string): StampsFound {
  const { rows, layout } = split;
  const stated = named === undefined ? undefined : namedColumn({ file, layout }, named, 'time');
  const trials = stampCandidates(rows, layout)
    .filter(({ parts }) => stated === undefined || parts.every(({ column }) => column === stated))
    .map((candidate) => judge(candidate, split))
    .filter(({ score }) => score > (stated === undefined ? 0.5 : 0.3))
    .sort((a, b) => b.score - a.score);
  const best = trials[0];
  if (best === undefined) throw monthsOnly(file, split) ?? unreadable(file, split);
  const apart = median(pairs(best.wall_ms, (a, b) => Math.abs(b - a))) ?? 0;
  if (apart >= 28 * DAY_MS && apart <= 31 * DAY_MS) throw monthly(file, split);
  const irregular = best.regular < 0.6;
  if (irregular && apart > LONGEST_STEP_MS) throw farApart(file, split, apart);
  const secondMode = trials.find(
    (trial) => best.score - trial.score < 1e-6 && differ(trial, best) && sameColumns(trial, best),
  );
  if (secondMode !== undefined) {
    throw new InputProblem({
      code: 'WEATHER_AMBIGUOUS',
      file,
      ...headingPlace(layout, best.parts[0]!.column),
      line: layout.firstDataLine,
      got: `"${rows[0]![best.parts[0]!.column]}", which could be ${styleText(best)} or ${styleText(secondMode)}`,
      expected: 'stamps that can be read in one way only',
      fix: 'write them as 2021-12-31 23:00, or take a longer stretch of the file.',
    });
  }
  const second = trials.find(
    (trial) => differ(trial, best) && best.score - trial.score < 0.05 && !sameColumns(trial, best),
  );
  const taken = columnsText(best, split);
  const why = 'both make the rows follow each other';
  return {
    reading: {
      parts: best.parts,
      step_s: irregular ? 0 : Math.abs(best.step_ms) / 1000,
      irregular,
      // More rows go back in time than on.
      descending: sum(pairs(best.wall_ms, (a, b) => Math.sign(b - a))) < 0,
      typicalYear: best.typical,
      style: taken,
    },
    wall_ms: best.wall_ms,
    each: best.each,
    doubts: second === undefined ? [] : [{ about: 'time', taken, runnerUp: columnsText(second, split), why }],
  };
}

function judge(candidate: StampCandidate, { rows, lines, layout }: SplitSample): Trial {
  const reader = stampReader(candidate.parts);
  const cells = reader.columns.map(() => '');
  const wall_ms = new Float64Array(rows.length);
  let valid = 0;
  let own = 0;
  // Days and hours that are never reached waste a trial: a short look first.
  for (let r = 0; r < rows.length; r++) {
    for (let c = 0; c < cells.length; c++) cells[c] = (rows[r]![reader.columns[c]!] ?? '').trim();
    const offset_before = reader.read(cells, 0);
    const offset_ms = reader.offset_ms();
    if (!Number.isNaN(offset_ms)) own++;
    wall_ms[r] = offset_before - (Number.isNaN(offset_ms) ? 0 : offset_ms);
    if (!Number.isNaN(wall_ms[r]!)) valid++;
    if (r === 60 && valid < 30)
      return { ...candidate, wall_ms, each: false, score: 0, regular: 0, step_ms: 0, typical: false };
  }
  const repeats = (r: number): boolean => rows[r]!.every((cell, c) => cell === rows[r - 1]![c]);
  const follows = (r: number): boolean =>
    (lines[r]! > 0 ? lines[r]! - lines[r - 1]! < 40 : true) && !(wall_ms[r] === wall_ms[r - 1] && repeats(r));
  const noYear = isYearless(candidate.parts);
  const plain = regularity(wall_ms, follows);
  const mayBeTypical = noYear || pairs(wall_ms, (a, b) => Math.abs(b - a) > 300 * DAY_MS).some(Boolean);
  const laid = mayBeTypical ? regularity(wall_ms.map(nominalYear), follows) : plain;
  const typical =
    noYear || (mayBeTypical && laid.disorder <= 1 && laid.regular > plain.regular && laid.span < 370);
  const { regular, forward, step_ms } = typical ? laid : plain;
  const share = valid / Math.max(1, rows.length);
  const heading = candidate.parts.map(({ column }) => layout.headings[column] ?? '').join(' ');
  const utc = /\b(utc|gmt|ut|universal)\b/.test(normaliseHeading(heading)) || own > valid / 2 ? 0.02 : 0;
  // Named parts all count, a named minute too; of unnamed ones the fewest that will do.
  const parts = candidate.parts.length;
  const words = (candidate.named ? 0.03 + 0.004 * parts : -0.001 * parts) + utc - (noYear ? 0.1 : 0);
  const simple = -0.0005 * candidate.parts[0]!.column;
  return {
    ...candidate,
    wall_ms,
    each: own > 0 && own >= valid * 0.99,
    score: rows.length < 2 ? share * 0.8 : share * (0.3 + 0.3 * forward + 0.4 * regular) + words + simple,
    regular,
    step_ms,
    typical,
  };
}

/**
 * Whether no part of a stamp says the year.
 *
 * in: parts
 */
export function isYearless(parts: readonly StampPart[]): boolean {
  return parts.every(({ part, style }) => !SAYING_YEAR.has(part) || style === 'month-day without a year');
}

/** Share of rows that are one commonest step on from the row before, and share that go the usual way. */
function regularity(
  wall_ms: Float64Array,
  follows: (r: number) => boolean,
): { regular: number; forward: number; step_ms: number; disorder: number; span: number } {
  const steps = Array.from(wall_ms, (ms, r) => (r === 0 ? Number.NaN : ms - wall_ms[r - 1]!));
  const up = steps.filter((step) => step > 0).length;
  const down = steps.filter((step) => step < 0).length;
  const near = steps.filter((step, r) => !Number.isNaN(step) && follows(r));
  const step_ms = mode(near.filter((step) => step !== 0)) ?? 0;
  const size = Math.abs(step_ms);
  const usable = (size >= 1000 && size <= LONGEST_STEP_MS) || size === DAY_MS;
  const [first = 0, last = 0] = extent(wall_ms);
  return {
    regular: usable ? near.filter((step) => step === step_ms).length / near.length : 0,
    forward: near.length === 0 ? 0 : Math.max(up, down) / (wall_ms.length - 1),
    step_ms,
    disorder: Math.min(up, down),
    span: (last - first) / DAY_MS,
  };
}

function differ(a: Trial, b: Trial): boolean {
  return a.wall_ms.some((ms, i) => ms !== b.wall_ms[i] && !(Number.isNaN(ms) && Number.isNaN(b.wall_ms[i]!)));
}

function sameColumns(a: Trial, b: Trial): boolean {
  const key = (trial: Trial): string => trial.parts.map(({ column }) => column).join();
  return key(a) === key(b);
}

function styleText(trial: StampCandidate): string {
  return trial.parts.map(({ part, style }) => (part === 'text' ? style! : part)).join(' + ');
}

function columnsText(trial: StampCandidate, { layout }: SplitSample): string {
  return trial.parts
    .map((part: StampPart) => {
      const heading = layout.headings[part.column] ?? '';
      const place = heading !== '' ? `"${heading}"` : `column ${part.column + 1}`;
      const what = part.part === 'text' ? part.style : part.part;
      return heading.toLowerCase() === what ? place : `${place} (${what})`;
    })
    .join(', ');
}

/**
 * A wall-clock time laid on the year 2001, which is no leap year, milliseconds. Month, day and clock stay.
 *
 * in: ms, wall clock as if UTC
 * out: milliseconds
 * NaN when: it is a 29 February
 * @example nominalYear(0); // => 978307200000
 */
export function nominalYear(ms: number): number {
  const date = new Date(ms);
  const isLeapDay = date.getUTCMonth() === 1 && date.getUTCDate() === 29;
  return isLeapDay ? Number.NaN : date.setUTCFullYear(2001);
}
