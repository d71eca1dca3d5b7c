import { group, range, sort } from 'd3-array';
import { fixOf, InputProblem } from '../../common/InputProblem.ts';
import type { TableSource } from '../../tables/TableSource.ts';
import { refuseManyColumns } from '../../tables/TableSource.ts';
import type { UnitName } from '../../tables/units.ts';
import { chooseColumns } from './chooseColumns.ts';
import { classifyCell } from './classifyCell.ts';
import {
  columnName,
  DELIMITER_WORDS,
  type DetectedFormat,
  type Doubt,
  headingPlace,
  type Layout,
  type QuantityName,
  type StampLabel,
  wideWords,
} from './DetectedFormat.ts';
import { detectDialect, type SplitSample } from './detectDialect.ts';
import { findStamps } from './findStamps.ts';
import { labelClaim } from './labelClaim.ts';
import { marksUnread } from './markColumns.ts';
import { readSite, type SiteFound, siteInRows } from './readSite.ts';
import { type FileSample, takeSample } from './takeSample.ts';
import { unrolled, wideDays } from './wideDays.ts';
import { listed, normaliseHeading, typed } from './words.ts';
import { generalLines, zoneClaim } from './zoneClaim.ts';

/** What the user says about a file; each wins over what the file says. */
export interface RecogniseOptions {
  place?: { latitude_deg: number; longitude_deg: number; elevation_m?: number | undefined } | undefined;
  /** 'UTC', '+01:00', an IANA name, or 'solar' for true solar time. */
  zone?: string | undefined;
  marks?: StampLabel | undefined;
  /** Heading (or number) of the column of a quantity. */
  columns?: Partial<Record<QuantityName, string>> | undefined;
  units?: Partial<Record<QuantityName, UnitName>> | undefined;
  /** Heading (or number) of the column with the time of each row. */
  stamp?: string | undefined;
  /** Codes that say 'missing', beside those that are known by their shape; under `strict` these alone. */
  missing?: readonly string[] | undefined;
  /**
   * Only what is stated is read, whole columns with their units, and nothing of it is mended: what otherwise would be
   * taken as missing, left out or set right is refused. An offset that a stamp states itself stands.
   */
  strict?: boolean | undefined;
  /** Of a file that holds several, the one that is meant. */
  station?: string | undefined;
  /** Told what is understood as it comes, so that a refusal can say it. */
  onUnderstood?: ((what: string, how: string) => void) | undefined;
}

/**
 * What a weather file is, from a bounded sample of it: encoding, layout, stamp, columns and units, place; each with
 * its reason, and what else it could have been. Several files are one record and must be laid out alike.
 *
 * in: sources, at least one; options
 * out: the recognition, plain data
 * throws: FILE_EMPTY, FILE_NOT_TEXT, FILE_TRUNCATED, FILE_UNREADABLE, WEATHER_COLUMN_MISSING, WEATHER_AMBIGUOUS,
 * WEATHER_STAMP_UNREADABLE, WEATHER_VALUE_NOT_NUMBER, SCENARIO_WRONG_TYPE, FILE_TOO_LARGE
 */
export async function recognise(
  sources: readonly TableSource[],
  options: RecogniseOptions = {},
): Promise<DetectedFormat> {
  const samples: FileSample[] = [];
  for (const source of sources) samples.push(await takeSample(source));
  const first = samples[0]!;
  if (first.json) options.onUnderstood?.('JSON', 'laid out as a table');
  const written = samples.map((sample) => detectDialect(sample));
  refuseManyColumns(first.name, written[0]!.layout.width);
  for (const [k, { layout }] of written.entries())
    refuseUnlike(written[0]!.layout, first.name, layout, samples[k]!.name);
  const wide = options.strict ? undefined : wideDays(pool(written));
  const splits = wide === undefined ? written : written.map((split) => unrolled(split, wide));
  const layout = splits[0]!.layout;
  options.onUnderstood?.('rows', `${layoutWords(layout)}${wideWords(wide)}`);
  const { split: pooled, station } = oneStation(first.name, pool(splits), options.station);
  const stamps = findStamps(first.name, pooled, options.stamp);
  options.onUnderstood?.('stamps', stamps.reading.style);
  const preamble = [...layout.preamble, ...notesOf(first, layout)];
  const general = generalLines(preamble, layout);
  const above = readSite(general);
  const place = above.latitude_deg === undefined ? { ...above, ...siteInRows(layout, pooled.rows) } : above;
  const clock = { stamps, layout, rows: pooled.rows, general, place };
  const zone = zoneClaim(options.strict && stamps.each ? undefined : options.zone, clock);
  const latitude_deg = options.place?.latitude_deg ?? place.latitude_deg;
  const longitude_deg = options.place?.longitude_deg ?? place.longitude_deg;
  const { columns, doubts } = chooseColumns({
    file: first.name,
    layout,
    rows: pooled.rows,
    wall_ms: stamps.wall_ms,
    step_s: stamps.reading.step_s,
    offset_ms: zone.kind === 'fixed' ? zone.offset_min * 60_000 : 0,
    stampColumns: new Set(stamps.reading.parts.map(({ column }) => column)),
    latitude_deg,
    longitude_deg,
    stated: options.columns ?? {},
    units: options.units ?? {},
    strict: options.strict ?? false,
  });
  for (const { quantity, column, unit } of columns)
    options.onUnderstood?.(quantity, `${columnName(layout, column)} in ${unit}`);
  const light = columns.find(({ quantity }) => quantity === 'ghi') ?? columns[0]!;
  const { standard_min: _, several = [], ...site } = place;
  const label = labelClaim(options.marks, clock, light.column);
  const files = samples.map(({ name }, k) => ({ name, layout: withDays(written[k]!.layout, wide) }));
  const isWhole = samples.every(({ pieces }) => pieces.length === 0);
  const begins = new Map(files.map((file, k) => [file, firstOf(stamps.wall_ms, pooled.rows, splits[k]!)]));
  return {
    encoding: first.encoding,
    gzip: first.gzip,
    json: first.json,
    files: stamps.reading.typicalYear ? files : sort(files, (file) => begins.get(file)),
    stamp: { ...stamps.reading, zone, label },
    columns,
    ...(station === undefined ? {} : { station }),
    site,
    marks: options.strict ? [] : marksUnread(layout, pooled.rows, isWhole, columns),
    doubts: [...stamps.doubts, ...doubts, ...placeDoubts(several)],
  };
}

function withDays(layout: Layout, wide: Layout['wide']): Layout {
  return wide === undefined ? layout : { ...layout, wide };
}

function placeDoubts(several: NonNullable<SiteFound['several']>): Doubt[] {
  const [first, last] = [several[0], several.at(-1)].map((place) =>
    place === undefined ? '' : `${place.latitude_deg}, ${place.longitude_deg}`,
  ) as [string, string];
  const why = 'the file lists a place for each of several periods; the last is taken';
  return first === last ? [] : [{ about: 'place', taken: last, runnerUp: first, why }];
}

/** How rows are cut, in words. */
function layoutWords({ delimiter, decimal, firstDataLine }: Layout): string {
  return `from line ${firstDataLine}, cut at ${DELIMITER_WORDS[delimiter]}${decimal === ',' ? ', decimal commas' : ''}`;
}

/** Rows of all files, one file after the other; lines of different files stand far apart. */
function pool(splits: readonly SplitSample[]): SplitSample {
  if (splits.length === 1) return splits[0]!;
  return {
    layout: splits[0]!.layout,
    rows: splits.flatMap(({ rows }) => rows),
    lines: splits.flatMap(({ lines }, k) => lines.map((line) => (line === 0 ? 0 : line + k * 1e9))),
  };
}

/** First time of a file among those of the pooled rows that were kept. */
function firstOf(wall_ms: Float64Array, kept: readonly string[][], { rows }: SplitSample): number {
  const own = new Set(rows);
  return kept.reduce(
    (least, row, i) => (own.has(row) && wall_ms[i]! < least ? wall_ms[i]! : least),
    Number.POSITIVE_INFINITY,
  );
}

/** Comment lines among the first rows may speak of the clock too. */
function notesOf(sample: FileSample, layout: Layout): string[] {
  if (layout.comment === undefined) return [];
  return sample.head
    .split(/\r\n|\n|\r/)
    .slice(layout.firstDataLine)
    .filter((line) => line.startsWith(layout.comment!))
    .slice(0, 50);
}

function refuseUnlike(a: Layout, nameA: string, b: Layout, nameB: string): void {
  const alike =
    a.delimiter === b.delimiter &&
    a.headings.length === b.headings.length &&
    a.headings.every((heading, c) => heading === b.headings[c]) &&
    (a.headings.length > 0 || a.width === b.width);
  if (alike) return;
  const text = (layout: Layout): string =>
    layout.headings.length === 0
      ? `${layout.width} columns without headings`
      : layout.headings.join(', ').slice(0, 120);
  throw new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file: nameB,
    ...headingPlace(b),
    got: text(b),
    expected: `the columns of ${nameA}: ${text(a)}`,
    fix: 'read files together only where they are laid out alike.',
  });
}

/** Words over a column that names records. Common practice, no source. */
const STATION_WORDS =
  /\b(station\w*|site\w*|location|loc|place|sensor\w*|probe|logger|device|node|channel|record|series|plot|garden|ort|standort|messstelle|geber|name|id|nr|no|stacja|estacion|stazione|stasjon|asema|stanice|variable|parameter|quantity)\b/;
/** Records of one file: so many at most, each with so many rows of the sample, this many times in common. */
const RECORDS = { most: 60, rows: 12, shared: 12 } as const;

/**
 * The rows of one record, where a file holds several side by side: a column names them, and they share their times.
 *
 * in: file, name for messages; split, rows of all files; wanted, the record the user means
 * out: its rows, all where there is one record, and the column that names it
 * throws: WEATHER_AMBIGUOUS with the names to choose from; WEATHER_COLUMN_MISSING where no record bears the name
 */
function oneStation(
  file: string,
  split: SplitSample,
  wanted?: string,
): { split: SplitSample; station?: DetectedFormat['station'] } {
  if (wanted !== undefined) return stated(file, split, wanted);
  for (const { column, groups } of namings(split)) {
    if (!shareTimes(file, split, groups)) continue;
    throw new InputProblem({
      code: 'WEATHER_AMBIGUOUS',
      file,
      ...headingPlace(split.layout, column),
      got: `${groups.size} records in one file, told apart by ${split.layout.headings[column] ? 'column ' : ''}${columnName(split.layout, column)}: ${listed(groups.keys(), 8)}`,
      expected: 'one record',
      ...choices(groups),
    });
  }
  return { split };
}

function stated(file: string, split: SplitSample, wanted: string): ReturnType<typeof oneStation> {
  const plain = wanted.trim().toLowerCase();
  const list = namings(split);
  for (const { column, groups } of list) {
    const name = [...groups.keys()].find((known) => known.toLowerCase() === plain);
    if (name !== undefined) return { split: part(split, groups.get(name)!), station: { column, name } };
  }
  const best = list[0];
  throw new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file,
    field: wanted,
    got:
      best === undefined ? 'no column that names stations' : `the records ${listed(best.groups.keys(), 8)}`,
    expected: `rows of "${wanted}"`,
    ...(best === undefined ? { fix: 'leave --station out.' } : choices(best.groups)),
  });
}

interface Naming {
  column: number;
  /** Rows of each name, in the order in which they come. */
  groups: Map<string, number[]>;
}

/** Columns that could name records, figures only where the heading says so; those whose heading does come first. */
function namings({ rows, layout }: SplitSample): Naming[] {
  const found = range(layout.width).flatMap((column) => {
    const said = STATION_WORDS.test(normaliseHeading(layout.headings[column] ?? ''));
    const all = group(rows.keys(), (r) => (rows[r]![column] ?? '').trim());
    const groups = new Map([...all].filter(([name, list]) => name !== '' && list.length >= RECORDS.rows));
    const isNaming =
      groups.size > 1 && (said || [...groups.keys()].every((name) => classifyCell(name) === 'word'));
    return isNaming && all.size <= RECORDS.most ? [{ column, groups, said }] : [];
  });
  return sort(found, ({ said }) => !said);
}

/** The times of one record come again in another, while each record by itself has each time once. */
function shareTimes(file: string, split: SplitSample, groups: Naming['groups']): boolean {
  const [a, b] = [...groups.values()].sort((x, y) => y.length - x.length).slice(0, 2);
  try {
    const [times, others] = [a!, b!].map((rows) => findStamps(file, part(split, rows)).wall_ms);
    const seen = new Set(times);
    const shared = others!.filter((ms) => seen.has(ms)).length;
    return shared >= RECORDS.shared && seen.size > 0.95 * times!.length;
  } catch (error) {
    if (error instanceof InputProblem) return false;
    throw error;
  }
}

function part(split: SplitSample, rows: readonly number[]): SplitSample {
  return { ...split, rows: rows.map((r) => split.rows[r]!), lines: rows.map((r) => split.lines[r]!) };
}

function choices(groups: Naming['groups']): ReturnType<typeof fixOf> {
  return fixOf([...groups.keys()].slice(0, 8).map((name) => `--station ${typed(name)}`));
}
