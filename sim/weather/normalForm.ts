import { csvText } from '../common/csvText.ts';
import { InputProblem } from '../common/InputProblem.ts';
import { problemList } from '../common/problemList.ts';
import { HOUR_MS } from '../common/time.ts';
import { csvRows, findHeading } from '../tables/csvRows.ts';
import { decodeText } from '../tables/decodeText.ts';
import { quotedCell } from '../tables/parseNumber.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import { examineHourlyCsv, type HourlyMapping } from './examineHourlyCsv.ts';
import { WEATHER_MARKS, type WeatherRecord } from './WeatherRecord.ts';

/**
 * The project's own plain form of an hourly weather record: CSV, UTF-8, LF, comma, point, one heading row with the
 * unit in each heading, one row an hour without gaps, oldest first.
 *
 * | column | meaning |
 * |---|---|
 * | start_utc | start of the hour, UTC, as 2021-12-31T23:00:00Z |
 * | ghi_W_m2 | global horizontal irradiance, mean over the hour |
 * | dni_W_m2, dhi_W_m2 | direct normal and diffuse horizontal irradiance, where the record has them |
 * | air_degC | air temperature; stand_in_air_degC where no hour of it was measured |
 * | snow_depth_m, rain_mm, wind_m_s | where the record has them |
 * | weather_mark | what the hour's light rests on: measured, closed, split, filled or stand-in |
 * | latitude_deg, longitude_deg, elevation_m | the place, north and east positive, the same in every row |
 *
 * An empty cell is a missing value. Numbers are written in the fewest digits that give the same number back.
 */
const NORMAL_FORM = {
  start: 'start_utc',
  columns: {
    ghi: { column: 'ghi_W_m2', unit: 'W/m2' },
    dni: { column: 'dni_W_m2', unit: 'W/m2' },
    dhi: { column: 'dhi_W_m2', unit: 'W/m2' },
    air_temperature: { column: 'air_degC', unit: 'degC' },
    snow_depth: { column: 'snow_depth_m', unit: 'm' },
    rain: { column: 'rain_mm', unit: 'mm' },
    wind: { column: 'wind_m_s', unit: 'm/s' },
  },
  standInAir: 'stand_in_air_degC',
  mark: 'weather_mark',
  place: ['latitude_deg', 'longitude_deg', 'elevation_m'],
} as const;

/** Where the weather is that of, degrees north and east, metres. */
export type NormalFormPlace = Record<(typeof NORMAL_FORM.place)[number], number>;

type Quantity = keyof typeof NORMAL_FORM.columns;

const VALUES = {
  ghi: (record) => record.ghi_W_m2,
  dni: (record) => record.dni_W_m2,
  dhi: (record) => record.dhi_W_m2,
  air_temperature: (record) => record.air_degC,
  snow_depth: (record) => record.snowDepth_m,
  rain: (record) => record.rain_mm,
  wind: (record) => record.wind_m_s,
} as const satisfies Record<Quantity, (record: WeatherRecord) => Float64Array | undefined>;

const QUANTITIES = Object.keys(NORMAL_FORM.columns) as Quantity[];

/**
 * A weather record in the normal form, as text.
 *
 * in: record; NaN is written as an empty cell; place, left out where it is not known
 * out: CSV text
 */
export function writeNormalForm(record: WeatherRecord, place?: NormalFormPlace): string {
  const standIn = record.origin.options['air temperature']?.startsWith('stand-in') === true;
  const held = QUANTITIES.filter((quantity) => VALUES[quantity](record) !== undefined);
  const columns = held.map((quantity) => ({
    heading:
      quantity === 'air_temperature' && standIn
        ? NORMAL_FORM.standInAir
        : NORMAL_FORM.columns[quantity].column,
    cell: (i: number) => numberText(VALUES[quantity](record)![i]!),
  }));
  const start = {
    heading: NORMAL_FORM.start,
    cell: (i: number) => `${new Date(record.start_ms + i * HOUR_MS).toISOString().slice(0, 19)}Z`,
  };
  const mark = { heading: NORMAL_FORM.mark, cell: (i: number) => WEATHER_MARKS[record.mark[i]!]! };
  const placeColumns =
    place === undefined
      ? []
      : NORMAL_FORM.place.map((heading) => ({ heading, cell: () => numberText(place[heading]) }));
  return csvText(
    [start, ...columns, mark, ...placeColumns],
    Array.from({ length: record.count }, (_, i) => i),
  );
}

/**
 * The explicit mapping that reads a file of the normal form, for what its heading row holds.
 *
 * in: headings of the file
 * out: the mapping; undefined where the headings are not those of the normal form
 */
export function normalFormMapping(headings: readonly string[]): HourlyMapping | undefined {
  const needed = [NORMAL_FORM.start, NORMAL_FORM.columns.ghi.column, NORMAL_FORM.mark];
  if (!needed.every((heading) => headings.includes(heading))) return undefined;
  const columns: HourlyMapping['columns'] = {};
  for (const quantity of QUANTITIES) {
    const { column, unit } = NORMAL_FORM.columns[quantity];
    if (headings.includes(column)) columns[quantity] = { column, unit };
  }
  if (headings.includes(NORMAL_FORM.standInAir)) {
    columns.air_temperature = { column: NORMAL_FORM.standInAir, unit: 'degC' };
  }
  return { stamp: { column: NORMAL_FORM.start, zone: 'UTC', marks: 'start' }, columns, missing: [''] };
}

/**
 * Reads a file of the normal form back, with its marks: the same numbers that were written.
 *
 * in: file, name and bytes
 * out: the record; undefined where the file is not of the normal form
 * throws: what readHourlySeries throws, but for empty cells, which come back as NaN; WEATHER_VALUE_NOT_NUMBER for a
 * word that is no mark
 */
export function readNormalForm(file: NamedBytes): WeatherRecord | undefined {
  const { text } = decodeText(file);
  const heading = findHeading(text, [NORMAL_FORM.start, NORMAL_FORM.mark]);
  const mapping = normalFormMapping(heading.cells);
  if (mapping === undefined) return undefined;
  const { series, problems } = examineHourlyCsv(file, mapping);
  const marks = readMarks(file.name, text);
  const found = [
    ...problems.list().filter(({ code }) => code !== 'WEATHER_GAP' || series === undefined),
    ...marks.problems,
  ];
  if (series === undefined || found.length > 0) throw new InputProblem(found);
  const { ghi, dni, dhi, air_temperature: air, snow_depth: snow, rain, wind } = series.columns;
  const options: Record<string, string> = {
    form: 'the normal form: UTC, start of the hour, units in the headings',
  };
  if (heading.cells.includes(NORMAL_FORM.standInAir)) options['air temperature'] = 'stand-in, from the file';
  const filledHours = marks.mark.reduce((sum, mark) => sum + (WEATHER_MARKS[mark] === 'filled' ? 1 : 0), 0);
  return {
    start_ms: series.start_ms,
    step_s: 3600,
    count: series.count,
    ghi_W_m2: ghi!,
    ...(dni === undefined ? {} : { dni_W_m2: dni }),
    ...(dhi === undefined ? {} : { dhi_W_m2: dhi }),
    air_degC: air ?? new Float64Array(series.count).fill(Number.NaN),
    ...(snow === undefined ? {} : { snowDepth_m: snow }),
    // Metres inside the reader, tenths of a micrometre at most: the written millimetres come back by rounding.
    ...(rain === undefined
      ? {}
      : { rain_mm: rain.map((depth_m) => Number((depth_m * 1000).toPrecision(15))) }),
    ...(wind === undefined ? {} : { wind_m_s: wind }),
    mark: marks.mark,
    origin: { file: file.name, sha256: series.sha256, options, filledHours },
  };
}

/** The place that the first row of a file of the normal form states; undefined where it states none. */
export function placeOfNormalForm(file: NamedBytes): NormalFormPlace | undefined {
  const [heading = '', first = ''] = decodeText(file).text.split(/\r?\n/, 2);
  const headings = heading.split(',');
  const cells = first.split(',');
  const [latitude_deg, longitude_deg, elevation_m] = NORMAL_FORM.place.map((name) => {
    const text = cells[headings.indexOf(name)] ?? '';
    return text === '' ? Number.NaN : Number(text);
  }) as [number, number, number];
  const known = Math.abs(latitude_deg) <= 90 && Math.abs(longitude_deg) <= 180 && !Number.isNaN(elevation_m);
  return known ? { latitude_deg, longitude_deg, elevation_m } : undefined;
}

function readMarks(
  name: string,
  text: string,
): { mark: Uint8Array; problems: ReturnType<ReturnType<typeof problemList>['list']> } {
  const problems = problemList();
  const heading = findHeading(text, [NORMAL_FORM.start, NORMAL_FORM.mark]);
  // Rows that break off are reported where the numbers are read.
  const rows = csvRows(name, text, heading, [heading.cells.indexOf(NORMAL_FORM.mark)], problemList());
  const mark = Uint8Array.from(rows.cells[0]!, (cell, row) => {
    const index = (WEATHER_MARKS as readonly string[]).indexOf(cell);
    if (index >= 0) return index;
    problems.add('mark', () => ({
      code: 'WEATHER_VALUE_NOT_NUMBER',
      file: name,
      line: rows.line[row]!,
      field: NORMAL_FORM.mark,
      got: quotedCell(cell),
      expected: `one of ${WEATHER_MARKS.join(', ')}`,
      fix: 'correct the word.',
    }));
    return 0;
  });
  return { mark, problems: problems.list() };
}

function numberText(value: number): string {
  return Number.isNaN(value) ? '' : String(value);
}
