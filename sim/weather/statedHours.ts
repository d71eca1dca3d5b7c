import type { Problem } from '../common/InputProblem.ts';
import { fewProblems, problemList } from '../common/problemList.ts';
import { HOUR_MS } from '../common/time.ts';
import { hourGrid } from '../tables/hourGrid.ts';
import { refuseGaps } from '../tables/hourlyTable.ts';
import { fromCanonical } from '../tables/units.ts';
import { wrapped } from './clock/negativeLogLikelihood.ts';
import { clockText, typedFor } from './clock/stampReadings.ts';
import { type Finding, problemsOfFindings } from './quality/Finding.ts';
import type { NativeSeries } from './read/NativeSeries.ts';
import type { Reading } from './readWithClock.ts';
import { unitInDoubt } from './recognise/unitInDoubt.ts';
import { COLUMN_OF } from './WeatherRecord.ts';

/**
 * The hours of a file whose mapping is stated whole, as they stand in it. What an import would mend is refused by its
 * line: rows that do not follow each other hour by hour, missing values.
 *
 * in: stated
 * out: the hours, row i being hour i
 * throws: WEATHER_STAMP_UNREADABLE, WEATHER_GAP and the like; all problems together
 */
export function statedHours({ name: file, series, recognition, clock }: Reading): {
  start_ms: number;
  count: number;
  columns: NativeSeries['columns'];
} {
  const problems = problemList();
  const shift_ms = clock.offset_min * 60_000 + HOUR_MS / 2;
  const time_ms = Array.from(series.stamp_ms, (ms) => ms - shift_ms);
  const line = Array.from(series.line);
  const field = recognition.files[0]!.layout.headings[recognition.stamp.parts[0]!.column] ?? '';
  const grid = hourGrid({ file, field, time_ms, line }, problems);
  for (const { quantity, heading, column } of recognition.columns) {
    const missing = Uint8Array.from(series.columns[quantity]!, (value) => (Number.isNaN(value) ? 1 : 0));
    refuseGaps({ file, field: heading, column: column + 1 }, missing, time_ms, line, problems);
  }
  problems.throwIfAny();
  return { ...grid!, columns: series.columns };
}

/** A few wrong values are faults; a larger share is a wrong unit. */
const UNIT_SHARE = 0.01;
/** A clock is worth a word from half an hour on. */
const CLOCK_OFF_MIN = 30;

/**
 * What cannot be in the hours of a file whose mapping is stated, by the line it begins on, each with what may mend it: a
 * gap that somebody filled, another unit, a code that says 'missing', another clock.
 *
 * in: stated; start_ms, of its first row's hour; findings of the quality checks
 */
export function statedProblems(stated: Reading, start_ms: number, findings: readonly Finding[]): Problem[] {
  const { name, series, recognition, site } = stated;
  const more = ({ kind, column, from_ms, to_ms, hours }: Finding): Partial<Problem> => {
    const choice = recognition.columns.find(
      ({ quantity }) => quantity !== 'bhi' && COLUMN_OF[quantity] === column,
    )!;
    const row = (from_ms - start_ms) / HOUR_MS;
    const place = { line: series.line[row]!, field: choice.heading };
    const repeated = findings.find(
      (other) =>
        other.kind === 'value-repeated' &&
        other.column === column &&
        other.from_ms < to_ms &&
        from_ms < other.to_ms,
    );
    if (repeated !== undefined)
      return { ...place, fix: `${repeated.evidence}: a gap that somebody filled; treat it as missing.` };
    const many = hours > UNIT_SHARE * series.line.length;
    const { unit = undefined } = (many && unitInDoubt(series, choice, site)) || {};
    const key = `weather.columns.${choice.quantity}.unit: ${unit}`;
    if (unit !== undefined) {
      const fix = `are latitude and longitude right, with their signs? If so, is the column in ${unit}? Then set ${key}.`;
      return { ...place, fix };
    }
    const value = fromCanonical(series.columns[choice.quantity]![row]!, choice.unit, 3600);
    const inFile = String(Number(value.toPrecision(12)));
    if (kind !== 'sun-down' && /^-|^9+(\.9*)?$/.test(inFile)) {
      const fix = `if ${inFile} stands for 'missing', add "${inFile}" to weather.missing; else correct the value.`;
      return { ...place, fix };
    }
    return { ...place, fix: clockHint(stated) ?? 'correct the value.' };
  };
  return fewProblems(problemsOfFindings(name, findings, more));
}

/** What to correct about a clock that the sun gainsays; undefined where it agrees or cannot tell. */
function clockHint({ clock, clockCheck: { reading }, recognition: { stamp } }: Reading): string | undefined {
  const off_min = Math.round(wrapped(reading.offset_min - clock.offset_min));
  if (reading.verdict === 'undecided' || Math.abs(off_min) < CLOCK_OFF_MIN) return undefined;
  const typed = typedFor(clock.choices, stamp);
  const fits = typed.length === 0 ? '' : ` (${typed.join(' or ')} would fit)`;
  return `by the sun that is a ${clockText(off_min)}: check weather.stamp.zone and weather.stamp.marks${fits}, the site and the sign of its longitude.`;
}
