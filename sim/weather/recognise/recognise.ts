import { IANAZone } from 'luxon';
import { InputProblem } from '../../common/InputProblem.ts';
import { parseOffset } from '../../tables/stampStyles.ts';
import type { TableSource } from '../../tables/TableSource.ts';
import { refuseManyColumns } from '../../tables/TableSource.ts';
import type { UnitName } from '../../tables/units.ts';
import { chooseColumns } from './chooseColumns.ts';
import type {
  DetectedFormat,
  LabelClaim,
  Layout,
  QuantityName,
  StampLabel,
  ZoneClaim,
} from './DetectedFormat.ts';
import { detectDialect, type SplitSample } from './detectDialect.ts';
import { findStamps, type StampsFound } from './findStamps.ts';
import { labelFromHeading, labelFromWords } from './labelFromWords.ts';
import { normaliseHeading } from './normaliseHeading.ts';
import { oneStation } from './oneStation.ts';
import { readSite, type SiteFound } from './readSite.ts';
import type { FileSample } from './takeSample.ts';
import { takeSample } from './takeSample.ts';
import { zoneFromWords } from './zoneFromWords.ts';

/** What the user says about a file; each wins over what the file says. */
export interface RecogniseOptions {
  place?: { latitude_deg: number; longitude_deg: number; elevation_m?: number | undefined } | undefined;
  /** 'UTC', '+01:00', an IANA name, or 'solar' for true solar time. */
  zone?: string | undefined;
  marks?: StampLabel | undefined;
  /** Heading (or number) of the column of a quantity. */
  columns?: Partial<Record<QuantityName, string>> | undefined;
  units?: Partial<Record<QuantityName, UnitName>> | undefined;
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
  return recogniseSamples(samples, options);
}

/** The same from samples already taken. */
function recogniseSamples(samples: readonly FileSample[], options: RecogniseOptions = {}): DetectedFormat {
  const first = samples[0]!;
  const splits = samples.map((sample) => detectDialect(sample));
  const layout = splits[0]!.layout;
  refuseManyColumns(first.name, layout.width);
  for (const [k, split] of splits.entries()) refuseUnlike(layout, first.name, split.layout, samples[k]!.name);
  options.onUnderstood?.('rows', layoutWords(layout));
  const { split: pooled, station } = oneStation(first.name, pool(splits), options.station);
  const stamps = findStamps(first.name, pooled);
  options.onUnderstood?.('stamps', stamps.reading.style);
  const preamble = [...layout.preamble, ...notesOf(first, layout)];
  const place = readSite(generalLines(preamble, layout));
  const zone = zoneClaim(options, stamps, layout, place, preamble, pooled.rows);
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
  });
  for (const { quantity, heading, column, unit } of columns)
    options.onUnderstood?.(
      quantity,
      `${heading === '' ? `column ${column + 1}` : `"${heading}"`} in ${unit}`,
    );
  const light = columns.find(({ quantity }) => quantity === 'ghi') ?? columns[0]!;
  const label = labelClaim(options, stamps, layout, light.column, preamble);
  const files = samples.map((sample, k) => ({
    name: sample.name,
    layout: splits[k]!.layout,
    first_ms: firstOf(stamps.wall_ms, pooled.rows, splits[k]!),
  }));
  const order = stamps.reading.typicalYear ? files : files.toSorted((a, b) => a.first_ms - b.first_ms);
  if (place.several !== undefined && place.several.length > 1) {
    const [a, b] = [place.several[0]!, place.several.at(-1)!];
    if (Math.abs(a.latitude_deg - b.latitude_deg) + Math.abs(a.longitude_deg - b.longitude_deg) > 0) {
      doubts.push({
        about: 'place',
        taken: `${b.latitude_deg}, ${b.longitude_deg}`,
        runnerUp: `${a.latitude_deg}, ${a.longitude_deg}`,
        why: 'the file lists a place for each of several periods; the last is taken',
      });
    }
  }
  return {
    encoding: first.encoding,
    gzip: first.gzip,
    files: order,
    stamp: { ...stamps.reading, zone, label },
    columns,
    ...(station === undefined ? {} : { station }),
    site: siteOf(place),
    doubts: [...stamps.doubts, ...doubts],
  };
}

/** How rows are cut, in words. */
function layoutWords({ delimiter, decimal, firstDataLine }: Layout): string {
  const marks = { ',': 'commas', ';': 'semicolons', '\t': 'tabs', '|': 'bars', ' ': 'blanks' } as const;
  return `from line ${firstDataLine}, cut at ${marks[delimiter]}${decimal === ',' ? ', decimal commas' : ''}`;
}

function siteOf(place: SiteFound): DetectedFormat['site'] {
  const { latitude_deg, longitude_deg, elevation_m, words } = place;
  return {
    ...(latitude_deg === undefined ? {} : { latitude_deg }),
    ...(longitude_deg === undefined ? {} : { longitude_deg }),
    ...(elevation_m === undefined ? {} : { elevation_m }),
    words,
  };
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

function zoneClaim(
  options: RecogniseOptions,
  stamps: StampsFound,
  layout: Layout,
  place: SiteFound,
  preamble: readonly string[],
  rows: readonly string[][],
): ZoneClaim {
  if (options.zone !== undefined) {
    const stated = statedZone(options.zone, stamps.each);
    const { zone: _, ...silent } = options;
    const own = stamps.each ? stated : zoneClaim(silent, stamps, layout, place, preamble, rows);
    const same = (a: ZoneClaim) => JSON.stringify({ ...a, words: '', stated: true });
    const gainsaid = own.kind !== 'unstated' && same(own) !== same(stated);
    return gainsaid ? { ...stated, words: `${stated.words}, over what the file says: ${own.words}` } : stated;
  }
  if (stamps.each) return { kind: 'each', words: 'each stamp states its own offset' };
  if (stamps.reading.parts.some(({ part }) => part.startsWith('epoch'))) {
    return { kind: 'fixed', offset_min: 0, words: 'seconds since 1970 count in UTC' };
  }
  let vague: ZoneClaim | undefined;
  const ask = (text: string, where: string): ZoneClaim | undefined => {
    if (text === '') return undefined;
    const claim = zoneFromWords(text, where, place.standard_min);
    if (claim?.kind !== 'unstated') return claim;
    vague ??= claim;
    return undefined;
  };
  for (const { column } of stamps.reading.parts) {
    const found =
      ask(layout.headings[column] ?? '', 'heading') ??
      ask((layout.headings[column] ?? '').replaceAll('_', ' '), 'heading') ??
      ask(layout.units[column] ?? '', 'units row') ??
      ask(layout.legends[column] ?? '', 'legend');
    if (found !== undefined) return found;
  }
  const column = zoneColumn(layout, rows);
  if (column !== undefined) {
    const found = ask(column, 'a column of its own');
    if (found !== undefined) return found;
  }
  for (const line of generalLines(preamble, layout)) {
    // 'UT', 'MET' and 'EST' are other things as well: only where the line speaks of time.
    if (!TIME_WORDS.test(normaliseHeading(line))) continue;
    const found = ask(line, 'preamble');
    if (found !== undefined) return found;
  }
  if (place.standard_min !== undefined) {
    return {
      kind: 'fixed',
      offset_min: place.standard_min,
      words: `the offset of ${place.standard_min / 60} h the preamble states (${place.words})`,
    };
  }
  return vague ?? { kind: 'unstated', words: 'the file does not say' };
}

const TIME_WORDS =
  /\b(utc|gmt|tuc|mez|mesz|cet|cest|[a-z]*time\w*|time ?zone|[a-z]*zeit\w*|ti[dj]\w*|tijd\w*|[a-z]*tid\w*|clock|uhr\w*|uur\w*|klok\w*|stamp\w*|hour\w*|stunden?|timm\w*|tun\w+|aika\w*|heure\w*|hora\w*|ora|ore|orario|godzin\w*|czas\w*|cas\w*|hodin\w*|zona|huso|fuso|fuseau|dates?|europe|america|africa|asia|australia|atlantic|pacific|indian|etc)\b/;

/** What a column of the rows says that is headed as a zone and says one thing throughout. */
function zoneColumn(layout: Layout, rows: readonly string[][]): string | undefined {
  const column = layout.headings.findIndex((heading) =>
    /^(time ?zone|tz|zeitzone|tijdzone|tidszon|tidssone|tidszone|aikavyohyke|fuseau|huso|fuso|strefa|zone|utc offset)/.test(
      normaliseHeading(heading),
    ),
  );
  if (column < 0) return undefined;
  const values = new Set(rows.map((cells) => cells[column] ?? ''));
  const [only] = values;
  if (values.size !== 1 || only === undefined) return undefined;
  return /^[+-]?\d/.test(only) ? `UTC${/^\d/.test(only) ? '+' : ''}${only}` : only;
}

function statedZone(text: string, over: boolean): ZoneClaim {
  const words = over ? 'stated by the user, over the offset each stamp states' : 'stated by the user';
  const offset_ms = parseOffset(text);
  if (!Number.isNaN(offset_ms)) return { kind: 'fixed', offset_min: offset_ms / 60_000, words, stated: true };
  if (/^(true )?solar( time)?$/i.test(text.trim())) return { kind: 'solar', words, stated: true };
  if (IANAZone.isValidZone(text.trim())) return { kind: 'civil', zone: text.trim(), words, stated: true };
  throw new InputProblem({
    code: 'SCENARIO_WRONG_TYPE',
    field: 'weather.zone',
    got: `"${text}"`,
    expected: 'UTC, a fixed offset such as +01:00, a zone such as Europe/Berlin, or solar',
    fix: '--zone +01:00 (in a scenario, weather.zone: +01:00), or the like.',
  });
}

function labelClaim(
  options: RecogniseOptions,
  stamps: StampsFound,
  layout: Layout,
  light: number,
  preamble: readonly string[],
): LabelClaim {
  if (options.marks !== undefined) return { label: options.marks, words: 'stated by the user' };
  const { parts } = stamps.reading;
  if (parts.some(({ style }) => style === 'interval from/to')) {
    return { label: 'start', words: 'each stamp states its whole interval; its start is read' };
  }
  if (parts.some(({ hoursFromOne }) => hoursFromOne === true)) {
    return { label: 'end', words: 'minutes run to 60, so a stamp names the end' };
  }
  for (const { column } of parts) {
    const found =
      labelFromHeading(layout.headings[column] ?? '') ??
      labelFromWords(layout.units[column] ?? '', 'units row') ??
      labelFromWords(layout.legends[column] ?? '', 'legend');
    if (found !== undefined) return found;
  }
  const own =
    labelFromWords(layout.headings[light] ?? '', 'heading') ??
    labelFromWords(layout.legends[light] ?? '', 'legend');
  if (own !== undefined) return own;
  for (const line of generalLines(preamble, layout)) {
    const found = labelFromWords(line, 'preamble');
    if (found !== undefined) return found;
  }
  return { words: 'the file does not say' };
}

/** Lines of the preamble that do not speak of one column alone. */
function generalLines(preamble: readonly string[], layout: Layout): string[] {
  const names = new Set(layout.headings.filter((name) => name !== '').map((name) => name.toLowerCase()));
  return preamble.filter((line) => {
    if (line === layout.preamble[(layout.headingLine ?? 0) - 1]) return false;
    const named = /^[\s#%!*/-]*([^\s=:]{1,24})\s*(?:[=:]|\s-\s)/.exec(line);
    return named === null || !names.has(named[1]!.toLowerCase());
  });
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
    ...(b.headingLine === undefined ? {} : { line: b.headingLine }),
    got: text(b),
    expected: `the columns of ${nameA}: ${text(a)}`,
    fix: 'read files together only where they are laid out alike.',
  });
}
