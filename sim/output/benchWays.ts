import type { BenchCheck } from '../trial/BenchRows.ts';

/**
 * The ways of measuring of a bench sheet, each once, with the numbers of the checks that it is for, from 1.
 *
 * in: checks, in the order of the sheet
 */
export function benchWays(checks: readonly BenchCheck[]): { rows: number[]; how: string }[] {
  const ways = new Map<string, number[]>();
  checks.forEach(({ how }, k) => {
    ways.set(how, [...(ways.get(how) ?? []), k + 1]);
  });
  return [...ways].map(([how, rows]) => ({ rows, how }));
}
