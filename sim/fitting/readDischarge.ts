import { InputProblem } from '../common/InputProblem.ts';
import { decodeText } from '../tables/decodeText.ts';
import { parseDecimal } from '../tables/parseNumber.ts';
import { splitLine } from '../tables/rowSplitter.ts';
import { chooseStampStyle, parseStamp } from '../tables/stampReader.ts';
import { bytesSource, type NamedBytes } from '../tables/TableSource.ts';
import type { Layout } from '../weather/recognise/DetectedFormat.ts';
import { detectDialect } from '../weather/recognise/detectDialect.ts';
import { takeSample } from '../weather/recognise/takeSample.ts';
import { type DischargeFacts, dischargeFacts, missingFact, type StatedFacts } from './dischargeFacts.ts';

/** A logged discharge: voltages at the terminals over time. */
export interface DischargeCurve extends DischargeFacts {
  file: string;
  /** Seconds, rising. */
  time_s: Float64Array;
  volts: Float64Array;
  /** Where each fact was said, and how columns were read, in words. */
  words: string[];
}

const TIME = /^(time|t|zeit|tijd|tid|seconds?|elapsed|sec|s)\b/i;
const CURRENT = /^(current|strom|i|amps?|amperes?)\b/i;
/** A column that counts rows. */
const INDEX = /^(no|nr|#|index|row|record|sample|point)\b/i;
const SECONDS = { ms: 0.001, s: 1, sec: 1, seconds: 1, min: 60, minutes: 60, h: 3600, hours: 3600 } as const;
/** A file whose voltages never come down to this share of the rated one does not hold the discharge. */
const END_SHARE = 0.4;

/**
 * The discharge of a capacitor from the file of a logger, as it is: delimiter, decimal mark, lines above the rows, time
 * and voltage found by words and numbers; rated voltage and current or load from those lines where nobody says them.
 *
 * in: file; said, what the user states, which wins
 * out: the curve
 * throws: what decodeText throws; WEATHER_COLUMN_MISSING without a time or a voltage; WEATHER_DISORDER where time goes
 *   back; SCENARIO_MISSING_KEY where nobody says the rated voltage, or the current or load; SCENARIO_CONFLICT where the
 *   file says both; WEATHER_PARTIAL_YEAR where the voltage does not come down to 0.4 of the rated one
 */
export async function readDischarge(file: NamedBytes, said: StatedFacts): Promise<DischargeCurve> {
  const { layout } = detectDialect(await takeSample(bytesSource(file)));
  const { headings } = layout;
  const lines = decodeText(file).split(/\r\n|\n|\r/);
  const cells = lines
    .slice(layout.firstDataLine - 1)
    .filter((line) => line.trim() !== '')
    .map((line) => splitLine(line, layout.delimiter));
  const columns = Array.from({ length: layout.width }, (_, c) =>
    Float64Array.from(cells, (row) => parseDecimal((row[c] ?? '').trim(), layout.decimal === ',')),
  );
  const time = timeColumn(file.name, layout, columns, cells);
  const words: string[] = [time.words];
  const facts = dischargeFacts(file.name, layout, said, words);
  const rated_V = facts.rated_V ?? missingFact(file.name, 'rated_V', 'the rated voltage', '--rated 2.7');
  const voltage = voltageColumn(file.name, layout, columns, time.column, rated_V);
  words.push(voltage.words);
  if (facts.current_A === undefined && facts.load_ohm === undefined) {
    const amperes = headings.findIndex((heading) => CURRENT.test(heading.trim()));
    const mean_A = amperes < 0 ? Number.NaN : meanWhileFalling(columns[amperes]!, voltage.volts, rated_V);
    if (!(mean_A > 0)) {
      const both = 'the current it was discharged with, or the load resistor';
      throw missingFact(file.name, 'current_A', both, '--current 0.1', ' or --ohms 10');
    }
    const isMilli = /\bmA\b/.test(headings[amperes]!);
    facts.current_A = isMilli ? mean_A / 1000 : mean_A;
    words.push(`current: the mean of column "${headings[amperes]}" while the voltage falls`);
  }
  const kept = Array.from(time.seconds.keys()).filter(
    (i) => Number.isFinite(time.seconds[i]!) && Number.isFinite(voltage.volts[i]!),
  );
  return {
    ...facts,
    rated_V,
    file: file.name,
    time_s: Float64Array.from(kept, (i) => time.seconds[i]!),
    volts: Float64Array.from(kept, (i) => voltage.volts[i]!),
    words,
  };
}

function timeColumn(
  file: string,
  layout: Layout,
  columns: readonly Float64Array[],
  cells: readonly string[][],
) {
  const headingAt = (c: number) => (layout.headings[c] ?? '').trim();
  const rising = [...columns.keys()].filter((c) => isRising(columns[c]!));
  const named = rising.filter((c) => TIME.test(headingAt(c)));
  const column = named[0] ?? rising.find((c) => !INDEX.test(headingAt(c))) ?? rising[0];
  const name = (c: number) => (headingAt(c) === '' ? `column ${c + 1}` : `column "${headingAt(c)}"`);
  if (column !== undefined) {
    const stated = /[[(]?\b(ms|s|sec|seconds|min|minutes|h|hours)\b[\])]?\s*$/i.exec(
      headingAt(column).replaceAll('_', ' '),
    );
    const unit = (stated?.[1]?.toLowerCase() ?? layout.units[column] ?? '') as keyof typeof SECONDS;
    const known = SECONDS[unit];
    const seconds = columns[column]!.map((value) => value * (known ?? 1));
    return {
      column,
      seconds,
      words: `time: ${name(column)}, in ${known === undefined ? 's, as no unit is stated' : unit}`,
    };
  }
  for (let c = 0; c < layout.width; c++) {
    const texts = cells.map((row) => (row[c] ?? '').trim());
    const { styles, readable } = chooseStampStyle(texts.slice(0, 200));
    if (styles[0] === undefined || readable < Math.min(200, texts.length)) continue;
    const seconds = Float64Array.from(texts, (text) => parseStamp(text, styles[0]!, 0) / 1000);
    if (isRising(seconds)) return { column: c, seconds, words: `time: ${name(c)}, ${styles[0].name}` };
    throw disorder(file, layout, seconds);
  }
  const asTime = [...columns.keys()].find((c) => TIME.test(headingAt(c)));
  if (asTime !== undefined) throw disorder(file, layout, columns[asTime]!);
  throw lacks(file, layout, 'a column of times that rise from row to row');
}

function isRising(values: Float64Array): boolean {
  let rises = 0;
  for (let i = 1; i < values.length; i++) {
    if (values[i]! <= values[i - 1]!) return false;
    if (values[i]! > values[i - 1]!) rises++;
  }
  return rises > 0.9 * (values.length - 1);
}

function disorder(file: string, { firstDataLine }: Layout, values: Float64Array): InputProblem {
  const at = values.findIndex((value, i) => i > 0 && !(value > values[i - 1]!));
  return new InputProblem({
    code: 'WEATHER_DISORDER',
    file,
    line: firstDataLine + Math.max(at, 0),
    got: `a time of ${values[at]} after ${values[at - 1]}`,
    expected: 'one discharge, its times rising from row to row',
    fix: 'leave the rows of one discharge.',
  });
}

function voltageColumn(
  file: string,
  layout: Layout,
  columns: readonly Float64Array[],
  time: number,
  rated_V: number,
) {
  const found = [...columns.keys()].flatMap((column) => {
    if (column === time) return [];
    const heading = (layout.headings[column] ?? '').trim();
    const most = columns[column]!.reduce((best, value) => Math.max(best, value || 0), 0);
    const isMilli =
      /\bmV\b/.test(`${heading.replaceAll('_', ' ')} ${layout.units[column] ?? ''}`) || most > 100 * rated_V;
    const volts = isMilli ? columns[column]!.map((value) => value / 1000) : columns[column]!;
    const top = isMilli ? most / 1000 : most;
    if (top < 0.75 * rated_V || top > 1.3 * rated_V) return [];
    const named = /volt|spann|^[uv]\b|\bm?V\b/i.test(heading.replaceAll('_', ' '));
    return [{ column, volts, isMilli, named, heading }];
  });
  const best = found.find(({ named }) => named) ?? found[0];
  if (best === undefined)
    throw lacks(file, layout, `a column of voltages that begin near the rated ${rated_V} V`);
  const highest = best.volts.indexOf(best.volts.reduce((most, value) => Math.max(most, value || 0), 0));
  const lowest_V = best.volts
    .subarray(highest)
    .reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
  if (lowest_V > END_SHARE * rated_V) {
    throw new InputProblem({
      code: 'WEATHER_PARTIAL_YEAR',
      file,
      field: best.heading || `column ${best.column + 1}`,
      got: `voltages that come down to ${lowest_V.toFixed(3)} V`,
      expected: `a discharge to ${END_SHARE} of the rated ${rated_V} V at least, ${(END_SHARE * rated_V).toFixed(2)} V`,
      fix: 'log on until then, or is the rated voltage another (--rated)?',
    });
  }
  const name = best.heading === '' ? `column ${best.column + 1}` : `column "${best.heading}"`;
  return { volts: best.volts, words: `voltage: ${name}, in ${best.isMilli ? 'mV' : 'V'}` };
}

/** Mean of a current from 0.8 to 0.4 of the rated voltage, whatever its sign. */
function meanWhileFalling(current: Float64Array, volts: Float64Array, rated_V: number): number {
  const within = current.filter((_, i) => volts[i]! < 0.8 * rated_V && volts[i]! > END_SHARE * rated_V);
  return Math.abs(within.reduce((sum, value) => sum + value, 0) / within.length);
}

function lacks(file: string, layout: Layout, expected: string): InputProblem {
  const names = layout.headings.filter((heading) => heading !== '').map((heading) => `"${heading}"`);
  return new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file,
    ...(layout.headingLine === undefined ? {} : { line: layout.headingLine }),
    got: names.length === 0 ? `${layout.width} columns without headings` : `the columns ${names.join(', ')}`,
    expected,
    fix: 'is the rated voltage right (--rated)? A time and a voltage in every row are enough.',
  });
}
