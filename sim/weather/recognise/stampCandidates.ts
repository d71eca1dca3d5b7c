import { cross, extent, greatest, range, rollup } from 'd3-array';
import type { StampPart } from '../../tables/stampReader.ts';
import { MORE_STAMP_STYLES } from '../../tables/stampStyles.ts';
import type { Layout } from './DetectedFormat.ts';
import { STAMP_WORDS } from './quantityWords.ts';
import { classifyCell, normaliseHeading } from './words.ts';

/** A way the stamp may be put together. */
export interface StampCandidate {
  parts: StampPart[];
  /** The headings name the parts. */
  named: boolean;
}

interface Column {
  index: number;
  /** What most filled cells are. */
  kind: string;
  whole: boolean;
  least: number;
  most: number;
  /** Digits of all whole numbers alike, 0 where they differ. */
  digits: number;
  words: ReadonlySet<string>;
  texts: string[];
}

/** What the parts of a stamp are looked for in. */
interface Table {
  columns: readonly Column[];
  /** The columns have names. */
  headed: boolean;
}

/**
 * All ways in which the columns could make up a time stamp, whatever their order; `findStamps` tries which of them
 * makes the rows follow each other.
 *
 * in: rows of a sample; layout
 * out: candidates
 */
export function stampCandidates(rows: readonly string[][], layout: Layout): StampCandidate[] {
  const columns = range(layout.width).map((index) => describe(rows, layout, index));
  const table: Table = { columns, headed: layout.headings.length > 0 };
  return [
    ...columns.flatMap((column) => [...writtenDates(column, table), ...countedTimes(column)]),
    ...yearParts(columns).flatMap((year) => [...monthAndDay(year, table), ...dayOfYear(year, table)]),
  ];
}

/** A column that holds dates, with or without the time. */
function writtenDates(column: Column, table: Table): StampCandidate[] {
  const { index, kind, texts, digits } = column;
  const packed = column.whole && [8, 10, 12, 14].includes(digits) && /^(18|19|20)/.test(texts[0] ?? '');
  if (kind !== 'stamp' && kind !== 'date' && !packed) return [];
  const named = column.words.has('date');
  const some = texts.slice(0, 40);
  return MORE_STAMP_STYLES.flatMap(({ name, read }) => {
    const readable = some.filter((text) => !Number.isNaN(read(text))).length;
    if (readable < 0.9 * some.length) return [];
    const parts: StampPart[] = [{ part: 'text', column: index, style: name }];
    const dayAlone = kind === 'date' || digits === 8;
    return [{ parts, named }, ...(dayAlone ? withClock(parts, named, table) : [])];
  });
}

/** A column that counts from the start of an era or of the year. */
function countedTimes(column: Column): StampCandidate[] {
  const { index, whole, least, most, digits, words } = column;
  if (column.kind !== 'number') return [];
  const dated = words.has('date');
  const between = (low: number, high: number): boolean => least > low && most < high;
  const list: StampCandidate[] = [];
  const add = (part: StampPart, named: boolean) => list.push({ parts: [part], named });
  if (whole && between(3e8, 4e9) && digits >= 9) add({ part: 'epoch s', column: index }, dated);
  if (whole && between(3e11, 4e12)) add({ part: 'epoch ms', column: index }, dated);
  if (between(20_000, 80_000) && (dated || index === 0)) add({ part: 'serial day', column: index }, dated);
  const ofYear = words.has('hour of year');
  if (isWhole(column, 0, 8784) && most > 366 && (words.has('hour') || ofYear || index === 0))
    add({ part: 'hour of year', column: index, add: least === 0 ? 0 : -1 }, ofYear);
  return list;
}

/** Columns that may hold the year, and undefined for a stamp without one. */
function yearParts(columns: readonly Column[]): (StampPart | undefined)[] {
  const whole = columns.filter((column) => isWhole(column, 1800, 2199) && column.digits === 4);
  const short = columns.filter((column) => isWhole(column, 0, 99) && column.words.has('year'));
  return [
    ...whole.map(({ index }): StampPart => ({ part: 'year', column: index })),
    ...short.map(
      ({ index, most }): StampPart => ({ part: 'year', column: index, add: most < 50 ? 2000 : 1900 }),
    ),
    undefined,
  ];
}

function monthAndDay(year: StampPart | undefined, table: Table): StampCandidate[] {
  const { columns, headed } = table;
  if (year === undefined && columns.some((column) => isWhole(column, 1800, 2199) && column.digits === 4))
    return [];
  const yearNamed = year === undefined || columns[year.column]!.words.has('year');
  const months = columns.filter((column) => isWhole(column, 1, 12));
  const days = columns.filter((column) => isWhole(column, 1, 31));
  return cross(months, days).flatMap(([month, day]) => {
    const date: StampPart[] = [
      ...(year === undefined ? [] : [year]),
      { part: 'month', column: month.index },
      { part: 'day', column: day.index },
    ];
    const indices = date.map(({ column }) => column);
    if (new Set(indices).size < indices.length) return [];
    const named = yearNamed && month.words.has('month') && day.words.has('day');
    // One column, such as the day of the year, may stand between.
    const beside = Math.max(...indices) - Math.min(...indices) <= indices.length;
    return named || (beside && !headed) ? withClock(date, named, table) : [];
  });
}

function dayOfYear(year: StampPart | undefined, table: Table): StampCandidate[] {
  return table.columns.flatMap((column) => {
    const says = column.words.has('day of year');
    const fits = column.kind === 'number' && column.least >= 0 && column.most < 367;
    if (!fits || column.index === year?.column) return [];
    const afterYear = year !== undefined && column.index === year.column + 1 && column.most > 31;
    if (!says && !afterYear) return [];
    const parts: StampPart[] = [
      ...(year === undefined ? [] : [year]),
      { part: 'day of year', column: column.index },
    ];
    return [...(column.whole ? [] : [{ parts, named: says }]), ...withClock(parts, says, table)];
  });
}

/** A date with each time of day that stands near it or has a name. */
function withClock(date: readonly StampPart[], named: boolean, table: Table): StampCandidate[] {
  const after = Math.max(...date.map(({ column }) => column));
  const isNear = ({ index }: Column): boolean => index > after && index <= after + 2;
  const clocks = table.columns.filter(({ kind }) => kind === 'clock');
  const hhmms = table.columns.filter(
    (column) => isHhmm(column) && (isNear(column) || column.words.has('hhmm') || column.words.has('hour')),
  );
  const hours = table.columns.filter(
    (column) =>
      isHour(column, table.headed) &&
      !date.some((part) => part.column === column.index) &&
      (isNear(column) || column.words.has('hour')),
  );
  return [
    ...clocks.map(({ index }) => {
      const texts = table.columns[index + 1]?.texts ?? [];
      const halves = texts.length > 0 && texts.every((text) => /^[ap]\.?m\.?$/i.test(text));
      const half: StampPart[] = halves ? [{ part: 'half of the day', column: index + 1 }] : [];
      return { parts: [...date, { part: 'clock', column: index } as const, ...half], named };
    }),
    ...hhmms.map(({ index, words }) => ({
      parts: [...date, { part: 'hhmm', column: index } as const],
      named: named && words.has('hour'),
    })),
    ...hours.flatMap((hour) => withHour(date, hour, named && hour.words.has('hour'), table)),
  ];
}

/** A date with an hour, and with the minutes and seconds there may be beside it. */
function withHour(
  date: readonly StampPart[],
  hour: Column,
  named: boolean,
  { columns, headed }: Table,
): StampCandidate[] {
  const parts: StampPart[] = [...date, { part: 'hour', column: hour.index }];
  const minutes = columns.filter(
    (column) =>
      isWhole(column, 0, 60) &&
      !parts.some((part) => part.column === column.index) &&
      (column.words.has('minute') || (!headed && column.index === hour.index + 1)),
  );
  return [
    { parts, named },
    ...minutes.flatMap(({ index, most, words }) => {
      const withMinute: StampPart[] = [
        ...parts,
        { part: 'minute', column: index, ...(most === 60 ? { hoursFromOne: true } : {}) },
      ];
      const saysMinute = named && words.has('minute');
      const second = columns[index + 1];
      const hasSecond = second?.words.has('second') && second.kind === 'number';
      return [
        { parts: withMinute, named: saysMinute },
        ...(hasSecond
          ? [{ parts: [...withMinute, { part: 'second', column: index + 1 } as const], named: saysMinute }]
          : []),
      ];
    }),
  ];
}

function isWhole(column: Column, least: number, most: number): boolean {
  return column.kind === 'number' && column.whole && column.least >= least && column.most <= most;
}

/** Whole hours, or with their quarters (13.25) named ones, and any that run through the day where nothing has a name. */
function isHour(column: Column, headed: boolean): boolean {
  const { kind, least, most, whole, words } = column;
  const told = whole || words.has('hour') || (!headed && most > 22);
  return kind === 'number' && told && least >= 0 && most <= 24 && most > least;
}

function isHhmm(column: Column): boolean {
  return (
    isWhole(column, 0, 2400) && column.most > 24 && column.texts.every((text) => Number(text) % 100 < 60)
  );
}

function describe(rows: readonly string[][], layout: Layout, index: number): Column {
  const cells = range(0, rows.length, Math.max(1, Math.floor(rows.length / 4000)))
    .map((r) => rows[r]![index] ?? '')
    .map((text) => ({ text, kind: classifyCell(text) }))
    .filter(({ kind }) => kind !== 'empty');
  const counts = rollup(
    cells,
    (list) => list.length,
    ({ kind }) => kind,
  );
  const kind = greatest(counts, ([, count]) => count)?.[0] ?? 'empty';
  const figures = cells.filter((cell) => cell.kind === 'number').map(({ text }) => text);
  const [least = Infinity, most = -Infinity] = extent(figures, (text) => Number(text.replace(',', '.')));
  const lengths = new Set(figures.map((text) => text.length));
  const heading = normaliseHeading(`${layout.headings[index] ?? ''} ${layout.units[index] ?? ''}`);
  const legend = normaliseHeading(layout.legends[index] ?? '').slice(0, 40);
  const words = stampWords(heading);
  return {
    index,
    kind: kind === 'date' && counts.has('stamp') ? 'stamp' : kind,
    whole: kind === 'number' && figures.every((text) => /^\d+(?:\.0+)?$/.test(text)),
    least,
    most,
    digits: lengths.size === 1 ? [...lengths][0]! : 0,
    words: words.size > 0 ? words : stampWords(legend),
    texts: cells.map(({ text }) => text),
  };
}

/** Parts of a stamp that words name. */
function stampWords(words: string): Set<string> {
  return new Set(STAMP_WORDS.filter(([pattern]) => pattern.test(words)).map(([, part]) => part));
}
