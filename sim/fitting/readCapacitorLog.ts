import { bisectLeft } from 'd3-array';
import { unitSlip } from '../common/hints.ts';
import { InputProblem } from '../common/InputProblem.ts';
import { readLog } from '../spot/measured/readLog.ts';
import type { NamedBytes } from '../tables/TableSource.ts';

/** Capacitor voltages of a lamp in service. */
export interface CapacitorLog {
  file: string;
  /** UTC milliseconds, rising. */
  time_ms: readonly number[];
  capacitor_V: readonly number[];
  step_ms: number;
}

/** Headings of the two columns. */
const LOG_COLUMNS = { stamp: 'time_utc', capacitor: 'capacitor_V' } as const;

/**
 * The capacitor voltages, volts, that a lamp in service logged: a CSV file with the columns time_utc (an offset in a stamp
 * counts) and capacitor_V.
 *
 * in: file, name and bytes; rated_V, of the bank
 * out: readings in the order of time
 * throws: what `readLog` throws (a log that jumps backwards: WEATHER_DISORDER), SCENARIO_WRONG_UNIT for millivolts,
 *   WEATHER_VALUE_OUT_OF_RANGE for voltages the capacitor cannot have
 */
export function readCapacitorLog(file: NamedBytes, rated_V: number): CapacitorLog {
  const { stamp_ms, value, line, step_ms } = readLog(file, {
    stamp: { column: LOG_COLUMNS.stamp, zone: 'UTC' },
    column: LOG_COLUMNS.capacitor,
    missing: [''],
    unit: 'V',
    missingKey: 'the rows to leave out: an empty cell is one that is missing',
  });
  const most_V = Math.max(...value);
  const place = { file: file.name, field: LOG_COLUMNS.capacitor };
  if (unitSlip(most_V, 0.8 * rated_V) === 1000) {
    throw new InputProblem({
      ...place,
      code: 'SCENARIO_WRONG_UNIT',
      got: `voltages up to ${most_V}`,
      expected: `volts, up to about the rated ${rated_V} V`,
      fix: 'the column is in V; divide millivolts by 1000.',
    });
  }
  const bad = value.findIndex((volts) => volts < -0.1 || volts > 1.5 * rated_V);
  if (bad >= 0) {
    throw new InputProblem({
      ...place,
      code: 'WEATHER_VALUE_OUT_OF_RANGE',
      line: line[bad]!,
      got: `${value[bad]} V`,
      expected: `0 to ${(1.5 * rated_V).toFixed(2)} V`,
      fix: 'take the row out, or check the lamp that the log belongs to.',
    });
  }
  return { file: file.name, time_ms: stamp_ms, capacitor_V: value, step_ms };
}

/** The logged voltage at an instant, volts, between its neighbours; NaN in a gap. */
export function loggedAt_V({ time_ms, capacitor_V, step_ms }: CapacitorLog, at_ms: number): number {
  const high = bisectLeft(time_ms, at_ms);
  if (time_ms[high] === at_ms) return capacitor_V[high]!;
  if (high === 0 || high === time_ms.length) return Number.NaN;
  const [before_ms, after_ms] = [time_ms[high - 1]!, time_ms[high]!];
  if (after_ms - before_ms > 1.5 * step_ms) return Number.NaN;
  return (
    capacitor_V[high - 1]! +
    ((capacitor_V[high]! - capacitor_V[high - 1]!) * (at_ms - before_ms)) / (after_ms - before_ms)
  );
}
