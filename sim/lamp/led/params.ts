import type { Report } from '../../common/InputProblem.ts';
import type { LedSection } from './schema.ts';

/** All LEDs as one: forward voltage of the string and lumens per watt, against the whole current. SI units. */
export interface LedParams {
  /** Rising, amperes through all strings together. */
  current_A: readonly number[];
  forward_V: readonly number[];
  efficacy_lm_W: readonly number[];
  /** What they are rated down to; -Infinity where that is not stated. */
  lowest_degC: number;
}

/**
 * Parameters of the LEDs, from a table or raw parameters.
 *
 * in: section, as the schema gives it, library part merged in and readings settled; report, takes what cannot be
 * out: the LEDs as one, or undefined after a problem
 */
export function ledParams(section: LedSection, report: Report): LedParams | undefined {
  const rows = section.raw ? [{ current_mA: 1, ...section.raw }] : section.table;
  if (rows === undefined) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: ['table'],
      got: 'nothing',
      expected: 'a table of current, forward voltage and efficacy, a library part, or raw model parameters',
      fix: 'add part: white-led',
    });
    return undefined;
  }
  for (let i = 1; i < rows.length; i++) {
    if (rows[i]!.current_mA > rows[i - 1]!.current_mA && rows[i]!.forward_V >= rows[i - 1]!.forward_V)
      continue;
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['table', i],
      got: `${rows[i]!.current_mA} mA at ${rows[i]!.forward_V} V after ${rows[i - 1]!.current_mA} mA at ${rows[i - 1]!.forward_V} V`,
      expected: 'rows with rising current and a forward voltage that does not fall',
      fix: 'sort the rows by current',
    });
    return undefined;
  }
  return {
    current_A: rows.map((row) => (row.current_mA / 1000) * section.count),
    forward_V: rows.map((row) => row.forward_V * section.in_series),
    efficacy_lm_W: rows.map((row) => row.efficacy_lm_W),
    lowest_degC: section.lowest_degC ?? Number.NEGATIVE_INFINITY,
  };
}
