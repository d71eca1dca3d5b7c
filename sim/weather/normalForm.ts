import { range } from 'd3-array';
import { csvText } from '../common/csvText.ts';
import { problemList } from '../common/problemList.ts';
import { HOUR_MS } from '../common/time.ts';
import { findHeading } from '../tables/csvRows.ts';
import { decodeText } from '../tables/decodeText.ts';
import { namedColumns, readHourlyTable } from '../tables/hourlyTable.ts';
import { quotedCell } from '../tables/parseNumber.ts';
import type { NamedBytes, TableSource } from '../tables/TableSource.ts';
import type { UnitName } from '../tables/units.ts';
import { COLUMN_OF, columnsOf, WEATHER_MARKS, type WeatherRecord } from './WeatherRecord.ts';

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
const COLUMNS = [
  { quantity: 'ghi', heading: 'ghi_W_m2', unit: 'W/m2' },
  { quantity: 'dni', heading: 'dni_W_m2', unit: 'W/m2' },
  { quantity: 'dhi', heading: 'dhi_W_m2', unit: 'W/m2' },
  { quantity: 'air_temperature', heading: 'air_degC', unit: 'degC' },
  { quantity: 'air_temperature', heading: 'stand_in_air_degC', unit: 'degC', standIn: true },
  { quantity: 'snow_depth', heading: 'snow_depth_m', unit: 'm' },
  { quantity: 'rain', heading: 'rain_mm', unit: 'mm' },
  { quantity: 'wind', heading: 'wind_m_s', unit: 'm/s' },
] as const satisfies { quantity: keyof typeof COLUMN_OF; heading: string; unit: UnitName; standIn?: true }[];
const START = 'start_utc';
const MARK = 'weather_mark';
const PLACE = ['latitude_deg', 'longitude_deg', 'elevation_m'] as const;

/** Where the weather is that of, degrees north and east, metres. */
export type NormalFormPlace = Record<(typeof PLACE)[number], number>;

/** A record of the normal form, and the place its file states. */
interface OwnRecord {
  record: WeatherRecord;
  place?: NormalFormPlace;
}

/**
 * A weather record in the normal form, as text.
 *
 * in: record; NaN is written as an empty cell; place, left out where it is not known
 * out: CSV text
 */
export function writeNormalForm(record: WeatherRecord, place?: NormalFormPlace): string {
  const airStandsIn = record.origin.options['air temperature']?.startsWith('stand-in') === true;
  const columns = COLUMNS.flatMap(({ quantity, heading, ...column }) => {
    const values = record[COLUMN_OF[quantity]];
    const other = quantity === 'air_temperature' && 'standIn' in column !== airStandsIn;
    return values === undefined || other ? [] : [{ heading, cell: (i: number) => numberText(values[i]!) }];
  });
  const start = {
    heading: START,
    cell: (i: number) => `${new Date(record.start_ms + i * HOUR_MS).toISOString().slice(0, 19)}Z`,
  };
  const mark = { heading: MARK, cell: (i: number) => WEATHER_MARKS[record.mark[i]!]! };
  const places =
    place === undefined ? [] : PLACE.map((heading) => ({ heading, cell: () => numberText(place[heading]) }));
  return csvText([start, ...columns, mark, ...places], range(record.count));
}

/** A larger file is no normal form of this tool. */
const LARGEST = 1 << 27;

/**
 * The record of a single file of the normal form, with its marks and the place it states: the same numbers that were
 * written; undefined for any other.
 *
 * in: sources, the files of one record
 * throws: what readHourlyTable throws, but for empty cells, which come back as NaN; WEATHER_VALUE_NOT_NUMBER for a
 * word that is no mark
 */
export function ownRecord(sources: readonly TableSource[]): OwnRecord | undefined {
  const [source, ...others] = sources;
  if (source === undefined || others.length > 0 || source.size > LARGEST) return undefined;
  const head = new TextDecoder('latin1').decode(source.readAt(0, 400));
  if (!/^(?:\u00ef\u00bb\u00bf)?start_utc,.*weather_mark/.test(head)) return undefined;
  const file = { name: source.name, bytes: source.readAt(0, source.size) };
  const text = decodeText(file);
  const { cells: headings, line } = findHeading(text, [START, MARK]);
  if (!headings.includes('ghi_W_m2')) return undefined;
  const record = readNormalForm(file, headings);
  const first = text.split(/\r?\n/, line + 1)[line] ?? '';
  const place = placeOf(headings, first.split(','));
  return place === undefined ? { record } : { record, place };
}

function readNormalForm(file: NamedBytes, headings: readonly string[]): WeatherRecord {
  const held = COLUMNS.filter(({ heading }) => headings.includes(heading));
  const columns = Object.fromEntries(
    held.map(({ quantity, heading, unit }) => [quantity, { column: heading, unit }]),
  );
  const stamp = { column: START, zone: 'UTC', marks: 'start' } as const;
  const series = readHourlyTable(file, { stamp, columns, missing: [''] }, 'kept');
  const mark = readMarks(file);
  const options: Record<string, string> = {
    form: 'the normal form: UTC, start of the hour, units in the headings',
  };
  if (held.some((column) => 'standIn' in column)) options['air temperature'] = 'stand-in, from the file';
  const filledHours = mark.filter((each) => WEATHER_MARKS[each] === 'filled').length;
  const { start_ms, count } = series;
  const {
    ghi_W_m2,
    air_degC = new Float64Array(count).fill(Number.NaN),
    ...more
  } = columnsOf(series.columns);
  return {
    ...{ start_ms, step_s: 3600, count, ghi_W_m2: ghi_W_m2!, air_degC, ...more, mark },
    origin: { file: file.name, sha256: series.sha256, options, filledHours },
  };
}

/** The place that a row states; undefined where it states none. */
function placeOf(headings: readonly string[], cells: readonly string[]): NormalFormPlace | undefined {
  const [latitude_deg, longitude_deg, elevation_m] = PLACE.map((name) => {
    const text = cells[headings.indexOf(name)] ?? '';
    return text === '' ? Number.NaN : Number(text);
  }) as [number, number, number];
  const known = Math.abs(latitude_deg) <= 90 && Math.abs(longitude_deg) <= 180 && !Number.isNaN(elevation_m);
  return known ? { latitude_deg, longitude_deg, elevation_m } : undefined;
}

function readMarks(file: NamedBytes): Uint8Array {
  const problems = problemList();
  const { cells, line } = namedColumns(file, [MARK], 'one row an hour', problems);
  const mark = Uint8Array.from(cells[0]!, (cell, row) => {
    const index = (WEATHER_MARKS as readonly string[]).indexOf(cell);
    if (index >= 0) return index;
    problems.add('mark', () => ({
      code: 'WEATHER_VALUE_NOT_NUMBER',
      file: file.name,
      line: line[row]!,
      field: MARK,
      got: quotedCell(cell),
      expected: `one of ${WEATHER_MARKS.join(', ')}`,
      fix: 'correct the word.',
    }));
    return 0;
  });
  problems.throwIfAny();
  return mark;
}

function numberText(value: number): string {
  return Number.isNaN(value) ? '' : String(value);
}
