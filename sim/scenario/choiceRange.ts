import type { ValueProblem } from '../common/InputProblem.ts';
import { type PreferredSeries, preferredNumbers } from '../common/preferredNumbers.ts';
import type { SchemaNode } from './SchemaNode.ts';
import { numberForm, writtenQuantity } from './writtenQuantity.ts';

/** A range as it is written: 'FIRST..LAST by STEP'. */
const RANGE = /^\s*(.+?)\s*\.\.\s*(.+?)(?:\s+by\s+(.+?))?\s*$/;

const SERIES: readonly PreferredSeries[] = ['E3', 'E6', 'E12', 'E24'];

/** More values than any choice has. */
const MOST_VALUES = 10_000;

/** What a range holds, or what is wrong with it. */
export type RangeOutcome =
  | { values: number[]; problem?: never }
  | { values?: never; problem: Omit<ValueProblem, 'path'> };

/**
 * The values of a range such as '100..1000 by E6', '1..4 by 1' or '330 uH..1 mH by E12'.
 *
 * in: text; node, the schema of its key
 * out: rising; undefined where the text is no range, or no number is wanted
 */
export function choiceRange(text: string, node: SchemaNode): RangeOutcome | undefined {
  const [, first, last, by] = RANGE.exec(text) ?? [];
  if (first === undefined || last === undefined || numberForm(node) === undefined) return undefined;
  const [from, to] = [first, last].map((end) => writtenQuantity(end, node));
  const got = `"${text}"`;
  const wrong = (code: ValueProblem['code'], expected: string, fix: string, what = got): RangeOutcome => ({
    problem: { code, got: what, expected, fix },
  });
  const unread = [from, to].find((end) => end?.value === undefined);
  if (from?.value === undefined || to?.value === undefined) {
    const {
      code = 'SCENARIO_WRONG_TYPE',
      fix = 'write two numbers, as in 100..1000 by E6.',
      got: end,
    } = unread?.problem ?? {};
    const what = end === undefined ? got : `${end}, in ${got}`;
    return wrong(code, 'a number on both sides of the dots', fix, what);
  }
  const [low, high] = [from.value, to.value];
  if (low > high)
    return wrong(
      'SCENARIO_CONFLICT',
      'a range from its least value to its most',
      `write ${last}..${first}${by === undefined ? '' : ` by ${by}`}.`,
    );
  const series = SERIES.find((name) => name === by?.toUpperCase());
  const step = by === undefined || series !== undefined ? undefined : writtenQuantity(by, node)?.value;
  if (series !== undefined) return preferredRange(series, low, high, got);
  if (step === undefined || !(step > 0))
    return wrong(
      'SCENARIO_WRONG_TYPE',
      `by ${SERIES.join(', ')} (preferred numbers), or by a step above 0`,
      `write ${first}..${last} by E6, or ${first}..${last} by ${Number(((high - low) / 4 || 1).toPrecision(2))}.`,
    );
  const count = Math.floor((high - low) / step + 1e-9) + 1;
  if (count > MOST_VALUES)
    return wrong(
      'SCENARIO_OUT_OF_RANGE',
      `at most ${MOST_VALUES} values`,
      `take a larger step, as in ${first}..${last} by ${Number(((high - low) / 10).toPrecision(2))}.`,
      `${got}, which holds ${count} values`,
    );
  return { values: Array.from({ length: count }, (_, k) => Number((low + k * step).toPrecision(12))) };
}

function preferredRange(series: PreferredSeries, low: number, high: number, got: string): RangeOutcome {
  if (low <= 0) {
    const expected = 'preferred numbers, which are all above 0';
    return {
      problem: { code: 'SCENARIO_OUT_OF_RANGE', got, expected, fix: 'begin above 0, or take equal steps.' },
    };
  }
  const values = preferredNumbers(series, low, high);
  if (values.length > 0) return { values };
  // A decade has three of them at least.
  const below = preferredNumbers(series, low / 10, low).at(-1);
  const above = preferredNumbers(series, high, high * 10)[0];
  return {
    problem: {
      code: 'SCENARIO_OUT_OF_RANGE',
      got: `${got}, which holds no number of ${series}`,
      expected: 'a range with a value in it at least',
      fix: `the nearest of ${series} are ${below} and ${above}.`,
    },
  };
}
