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

/**
 * All ways in which the columns could make up a time stamp, whatever their order; `findStamps` tries which of them
 * makes the rows follow each other.
 *
 * in: rows of a sample; layout
 * out: candidates
 */
export function stampCandidates(rows: readonly string[][], layout: Layout): StampCandidate[] {
  const columns = Array.from({ length: layout.width }, (_, index) => describe(rows, layout, index));
  const candidates: StampCandidate[] = [];
  const clocks = columns.filter(({ kind }) => kind === 'clock');
  const isWhole = (column: Column, least: number, most: number): boolean =>
    column.kind === 'number' && column.whole && column.least >= least && column.most <= most;
  // Whole hours, or with their quarters (13.25) named ones, and any that run through the day where nothing has a name.
  const hours = columns.filter(
    (column) =>
      column.most > column.least &&
      (isWhole(column, 0, 24) ||
        (column.kind === 'number' &&
          (column.words.has('hour') || (layout.headings.length === 0 && column.most > 22)) &&
          column.least >= 0 &&
          column.most <= 24)),
  );
  const hhmms = columns.filter(
    (column) =>
      isWhole(column, 0, 2400) && column.most > 24 && column.texts.every((text) => Number(text) % 100 < 60),
  );
  const add = (parts: StampPart[], named = false): void => {
    candidates.push({ parts, named });
  };
  /** With a clock time beside the date: near it, or named. */
  const withClock = (date: StampPart[], after: number, named: boolean): void => {
    const near = (column: Column): boolean => column.index > after && column.index <= after + 2;
    for (const clock of clocks) {
      const withTime: StampPart[] = [...date, { part: 'clock', column: clock.index }];
      const next = columns[clock.index + 1];
      const halves =
        next !== undefined &&
        next.texts.length > 0 &&
        next.texts.every((text) => /^[ap]\.?m\.?$/i.test(text));
      if (halves) add([...withTime, { part: 'half of the day', column: next.index }], named);
      else add(withTime, named);
    }
    for (const hhmm of hhmms) {
      if (near(hhmm) || hhmm.words.has('hhmm') || hhmm.words.has('hour')) {
        add([...date, { part: 'hhmm', column: hhmm.index }], named && hhmm.words.has('hour'));
      }
    }
    for (const hour of hours) {
      if (date.some(({ column }) => column === hour.index)) continue;
      if (!near(hour) && !hour.words.has('hour')) continue;
      const withHour: StampPart[] = [...date, { part: 'hour', column: hour.index }];
      const saysHour = named && hour.words.has('hour');
      add(withHour, saysHour);
      for (const minute of columns) {
        if (!isWhole(minute, 0, 60) || date.some(({ column }) => column === minute.index)) continue;
        const beside = minute.index === hour.index + 1;
        if (minute.index === hour.index || (!beside && !minute.words.has('minute'))) continue;
        const minutePart: StampPart = { part: 'minute', column: minute.index };
        if (minute.most === 60) minutePart.hoursFromOne = true;
        const saysMinute = saysHour && minute.words.has('minute');
        // A column beside the hour that is not named is one only where it counts in equal steps.
        if (layout.headings.length > 0 && !minute.words.has('minute')) continue;
        add([...withHour, minutePart], saysMinute);
        const second = columns[minute.index + 1];
        if (second?.words.has('second') && second.kind === 'number') {
          add([...withHour, minutePart, { part: 'second', column: second.index }], saysMinute);
        }
      }
    }
  };

  for (const column of columns) {
    const { index, kind, words } = column;
    const dated = words.has('date');
    const packed =
      column.whole && [8, 10, 12, 14].includes(column.digits) && /^(18|19|20)/.test(column.texts[0] ?? '');
    if (kind === 'stamp' || kind === 'date' || packed) {
      for (const { name, read } of MORE_STAMP_STYLES) {
        const some = column.texts.slice(0, 40);
        const readable = some.filter((text) => !Number.isNaN(read(text))).length;
        if (readable < 0.9 * some.length) continue;
        const date: StampPart[] = [{ part: 'text', column: index, style: name }];
        add(date, dated);
        if (kind === 'date' || column.digits === 8) withClock(date, index, dated);
      }
    }
    if (kind !== 'number') continue;
    if (column.whole && column.least > 3e8 && column.most < 4e9 && column.digits >= 9)
      add([{ part: 'epoch s', column: index }], dated);
    if (column.whole && column.least > 3e11 && column.most < 4e12)
      add([{ part: 'epoch ms', column: index }], dated);
    if (column.least > 20_000 && column.most < 80_000 && (dated || index === 0)) {
      add([{ part: 'serial day', column: index }], dated);
    }
    if (
      isWhole(column, 0, 8784) &&
      column.most > 366 &&
      (words.has('hour') || words.has('hour of year') || index === 0)
    ) {
      add(
        [{ part: 'hour of year', column: index, add: column.least === 0 ? 0 : -1 }],
        words.has('hour of year'),
      );
    }
  }

  const years = columns.filter((column) => isWhole(column, 1800, 2199) && column.digits === 4);
  const shortYears = columns.filter((column) => isWhole(column, 0, 99) && column.words.has('year'));
  const months = columns.filter((column) => isWhole(column, 1, 12));
  const days = columns.filter((column) => isWhole(column, 1, 31));
  const yearParts: (StampPart | undefined)[] = [
    ...years.map(({ index }): StampPart => ({ part: 'year', column: index })),
    ...shortYears.map(
      ({ index, most }): StampPart => ({ part: 'year', column: index, add: most < 50 ? 2000 : 1900 }),
    ),
    undefined,
  ];
  for (const year of yearParts) {
    const yearNamed = year === undefined || columns[year.column]!.words.has('year');
    for (const month of months) {
      for (const day of days) {
        const indices = [month.index, day.index, ...(year === undefined ? [] : [year.column])];
        if (new Set(indices).size < indices.length) continue;
        const named = yearNamed && month.words.has('month') && day.words.has('day');
        // One column, such as the day of the year, may stand between.
        const beside = Math.max(...indices) - Math.min(...indices) <= indices.length;
        if (!named && (!beside || layout.headings.length > 0)) continue;
        if (year === undefined && years.length > 0) continue;
        const date: StampPart[] = [
          ...(year === undefined ? [] : [year]),
          { part: 'month', column: month.index },
          { part: 'day', column: day.index },
        ];
        withClock(date, Math.max(...indices), named);
      }
    }
    for (const column of columns) {
      const says = column.words.has('day of year');
      const fits = column.kind === 'number' && column.least >= 0 && column.most < 367;
      if (!fits || column.index === year?.column || (year === undefined && !says)) continue;
      if (!says && (column.most <= 31 || column.index !== (year?.column ?? -9) + 1)) continue;
      const date: StampPart[] = [
        ...(year === undefined ? [] : [year]),
        { part: 'day of year', column: column.index },
      ];
      if (!column.whole) add(date, says);
      withClock(date, column.index, says);
    }
  }
  return candidates;
}

function describe(rows: readonly string[][], layout: Layout, index: number): Column {
  const texts: string[] = [];
  const counts = new Map<string, number>();
  let whole = true;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  let digits = -1;
  const stride = Math.max(1, Math.floor(rows.length / 4000));
  for (let r = 0; r < rows.length; r += stride) {
    const text = rows[r]![index] ?? '';
    const kind = classifyCell(text);
    if (kind === 'empty') continue;
    counts.set(kind, (counts.get(kind) ?? 0) + 1);
    texts.push(text);
    if (kind !== 'number') continue;
    const value = Number(text.replace(',', '.'));
    if (!/^\d+(?:\.0+)?$/.test(text)) whole = false;
    if (value < least) least = value;
    if (value > most) most = value;
    if (digits === -1) digits = text.length;
    else if (digits !== text.length) digits = 0;
  }
  const kind = [...counts].reduce((best, [name, count]) => (count > best.count ? { name, count } : best), {
    name: 'empty',
    count: 0,
  }).name;
  const heading = normaliseHeading(`${layout.headings[index] ?? ''} ${layout.units[index] ?? ''}`);
  const legend = normaliseHeading(layout.legends[index] ?? '').slice(0, 40);
  const words = new Set<string>();
  for (const [pattern, part] of STAMP_WORDS) if (pattern.test(heading)) words.add(part);
  if (words.size === 0) for (const [pattern, part] of STAMP_WORDS) if (pattern.test(legend)) words.add(part);
  return {
    index,
    kind: kind === 'date' && counts.get('stamp') ? 'stamp' : kind,
    whole: whole && kind === 'number',
    least,
    most,
    digits: Math.max(0, digits),
    words,
    texts,
  };
}
