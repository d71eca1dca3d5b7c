import { civilOffset, dateText } from '../common/civilTime.ts';
import { csvCell } from '../common/csvText.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import type { HourlyTrial } from '../trial/Trial.ts';
import { WEATHER_MARKS } from '../weather/WeatherRecord.ts';
import type { YearColumns } from '../year/YearColumns.ts';
import { bytesOf, CsvBytes } from './CsvBytes.ts';
import { offsetText } from './civilStamp.ts';
import {
  type Column,
  HOUR_HEADINGS,
  LAMP_COLUMNS,
  LIGHT_COLUMNS,
  MARK_HEADING,
  TRIAL_HEADINGS,
  WEATHER_COLUMNS,
} from './columns.ts';

/** Bytes of a piece, and what the longest row may add to it. */
const PIECE = 1 << 20;
const ROW = 1 << 13;
/** Bytes of both stamps of a row, with a comma before each. */
const STAMPS = ',2025-12-21T15:00:00Z,2025-12-21T16:00:00+01:00'.length;

/**
 * The text of hours.csv in UTF-8, piece by piece (many years of it need not fit one string): a row per trial and hour.
 *
 * in: trials; timeZone, IANA name of the site
 * out: pieces that together are the CSV text, the heading row first; each holds until the next is asked for
 */
export function* hoursCsv(trials: Iterable<HourlyTrial>, timeZone: string): Generator<Uint8Array> {
  const rowsOf = hourRows(timeZone);
  yield bytesOf(`${heading()}\n`);
  for (const trial of trials) yield* rowsOf(trial);
}

/**
 * A writer of the rows of one trial after the other, to be put under the heading of `hoursCsv` of none.
 *
 * in: timeZone, IANA name of the site
 * out: takes a trial, gives its rows in pieces, each of which holds until the next is asked for
 */
export function hourRows(timeZone: string): (trial: HourlyTrial) => Generator<Uint8Array> {
  const text = new CsvBytes(PIECE + ROW);
  const stampsOf = stampWriter(timeZone);
  const marks = WEATHER_MARKS.map((mark) => bytesOf(`,${mark}`));
  const lineEnd = bytesOf('\n');
  return function* ({ spot, lamp, light, year }) {
    const names = bytesOf(`${csvCell(spot)},${csvCell(lamp)}`);
    const stamps = stampsOf(light.start_ms, light.count);
    const weather = valuesOf(WEATHER_COLUMNS, light);
    const onCell = valuesOf(LIGHT_COLUMNS, light);
    const inLamp = valuesOf(LAMP_COLUMNS, { ...year.columns, ledMean_mA: ledMean_mA(year.columns) });
    for (let i = 0; i < year.columns.count; i++) {
      text.copy(names);
      text.copy(stamps, i * STAMPS, (i + 1) * STAMPS);
      writeNumbers(text, weather, i);
      text.copy(marks[light.mark[i]!]!);
      writeNumbers(text, onCell, i);
      writeNumbers(text, inLamp, i);
      text.copy(lineEnd);
      if (text.end > PIECE) yield text.take();
    }
    yield text.take();
  };
}

function heading(): string {
  const names = (columns: readonly { heading: string }[]) => columns.map((column) => column.heading);
  const all = [
    ...Object.keys({ ...TRIAL_HEADINGS, ...HOUR_HEADINGS }),
    ...names(WEATHER_COLUMNS),
    ...Object.keys(MARK_HEADING),
    ...names(LIGHT_COLUMNS),
    ...names(LAMP_COLUMNS),
  ];
  return all.join(',');
}

/** A writer of the two cells of each hour's start, each behind its comma: UTC, and civil time with its offset. */
function stampWriter(timeZone: string): (start_ms: number, count: number) => Uint8Array {
  const offset = civilOffset(timeZone);
  const endings = new Map<number, Uint8Array>();
  const utcEnding = bytesOf('Z');
  const remembered = new Map<string, Uint8Array>();
  return (start_ms, count) => {
    const key = `${start_ms} ${count}`;
    let stamps = remembered.get(key);
    if (stamps === undefined) {
      const text = new CsvBytes(count * STAMPS);
      const [utc, civil] = [clockWriter(text), clockWriter(text)];
      for (let i = 0; i < count; i++) {
        const ms = Math.round((start_ms + i * HOUR_MS) / 1000) * 1000;
        const offset_min = offset(ms);
        const ending = endings.get(offset_min) ?? bytesOf(offsetText(offset_min));
        endings.set(offset_min, ending);
        utc(ms);
        text.copy(utcEnding);
        civil(ms + offset_min * 60_000);
        text.copy(ending);
      }
      stamps = text.take();
      remembered.set(key, stamps);
    }
    return stamps;
  };
}

/** A writer of date and time of day to the second; the text of a date is made once a day. */
function clockWriter(text: CsvBytes): (ms: number) => void {
  const colon = bytesOf(':');
  let day = Number.NaN;
  let date = bytesOf('');
  return (ms) => {
    const today = Math.floor(ms / DAY_MS);
    if (today !== day) {
      day = today;
      date = bytesOf(`,${dateText(day * DAY_MS)}T`);
    }
    const seconds = Math.floor((ms - day * DAY_MS) / 1000);
    const minutes = Math.floor(seconds / 60);
    text.copy(date);
    text.twoDigits(Math.floor(minutes / 60));
    text.copy(colon);
    text.twoDigits(minutes % 60);
    text.copy(colon);
    text.twoDigits(seconds % 60);
  };
}

/** Mean current of the LED while it shone; NaN where it did not. */
function ledMean_mA({ led_C, ledOn_s }: YearColumns): Float64Array {
  return led_C.map((charge_C, i) => (ledOn_s[i]! > 0 ? (charge_C / ledOn_s[i]!) * 1000 : Number.NaN));
}

interface Values {
  decimals: number;
  values: Float64Array;
}

function valuesOf<Source>(columns: readonly Column<Source>[], source: Source): Values[] {
  return columns.map(({ key, decimals }) => ({ decimals, values: source[key] as Float64Array }));
}

function writeNumbers(text: CsvBytes, columns: readonly Values[], hour: number): void {
  for (let k = 0; k < columns.length; k++) {
    const { values, decimals } = columns[k]!;
    text.number(values[hour]!, decimals);
  }
}
