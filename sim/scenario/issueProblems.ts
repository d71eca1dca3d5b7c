import type { z } from 'zod';
import type { KeyPath } from '../common/document.ts';
import { nearestWord } from '../common/hints.ts';
import { valueAt } from './paths.ts';
import { likelyWithin } from './questions.ts';
import { choicesOf, expectedWords, schemaAt } from './SchemaNode.ts';
import { shownValue } from './shownValue.ts';
import { type SchemaProblem, unknownKey } from './unknownKey.ts';
import { writtenQuantity } from './writtenQuantity.ts';

type Issue = z.core.$ZodIssue;

/** Of so many unknown keys of a map it is worked out what was meant; more are no slips of the pen. */
const MOST_ADVISED = 100;

/**
 * Problems in our words from what the schema found.
 *
 * in: issues; root, the scenario they are about, its parts merged in; written, as the user wrote it; above, path that
 *   theirs are below (the root by default)
 */
export function issueProblems(
  issues: readonly Issue[],
  root: unknown,
  written: unknown,
  above: KeyPath = [],
): SchemaProblem[] {
  return issues.flatMap((issue): SchemaProblem[] => {
    const path = [...above, ...issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step))];
    switch (issue.code) {
      case 'unrecognized_keys':
        return issue.keys.map((key, k) =>
          k < MOST_ADVISED ? unknownKey(path, key, root, written) : unadvised(path, key),
        );
      case 'invalid_key':
        return [
          {
            code: 'SCENARIO_WRONG_TYPE',
            path,
            got: `the name "${String(path.at(-1))}"`,
            expected:
              'a name that begins with a letter, without < > : " / \\ | ? *, of 64 characters at most',
            fix: 'choose a name such as north-side.',
          },
        ];
      case 'invalid_union':
        return unionProblems(issue, path, root, written);
      default:
        return [valueProblem(issue, path, root, written)];
    }
  });
}

function unadvised(path: KeyPath, key: string): SchemaProblem {
  return {
    code: 'SCENARIO_UNKNOWN_KEY',
    path: [...path, key],
    got: `the key "${key}"`,
    expected: 'no such key',
  };
}

/** Of a choice between forms: what is wrong with the form that was meant, if one can be told. */
function unionProblems(
  issue: Extract<Issue, { code: 'invalid_union' }>,
  path: KeyPath,
  root: unknown,
  written: unknown,
): SchemaProblem[] {
  const deeper = issue.errors.find((form) => form.length > 0 && form.every(isOfTheForm));
  if (deeper !== undefined) return issueProblems(deeper, root, written, path);
  return [valueProblem(issue, path, root, written)];
}

/** False where a value is not even of the kind a form wants. */
function isOfTheForm(issue: Issue): boolean {
  return issue.path.length > 0 || issue.code === 'unrecognized_keys' || issue.code.startsWith('too_');
}

function valueProblem(issue: Issue, path: KeyPath, root: unknown, written: unknown): SchemaProblem {
  // The schema of a choice by kind sits one step above the key that chooses.
  const chooses = issue.code === 'invalid_union' && issue.discriminator !== undefined;
  const node = schemaAt(chooses ? path.slice(0, -1) : path, root);
  const value = valueAt(root, path);
  const choices = node === undefined ? [] : choicesOf(node);
  const expected = chooses
    ? `one of ${choices.join(', ')} (${node?.title ?? 'what kind it is'})`
    : expectedWords(node);
  const key = String(path.at(-1) ?? '');
  if (value === undefined || value === null) {
    const only = choices.length === 1 ? `: ${String(choices[0])}` : '';
    const fix =
      typeof path.at(-1) === 'number'
        ? 'write a number in its place.'
        : value === null
          ? `write its value after "${key}:", or take the key away.`
          : `add ${key}${only}.`;
    const got = value === null ? 'no value' : 'nothing';
    return { code: 'SCENARIO_MISSING_KEY', path, got, expected, fix };
  }
  const quantity = typeof value === 'string' ? writtenQuantity(value, node ?? {}) : undefined;
  if (quantity?.problem !== undefined) {
    const { quantity: wanted, ...problem } = quantity.problem;
    return { ...problem, path, expected: wanted === undefined ? expected : `${wanted}: ${expected}` };
  }
  const text = valueAt(written, path);
  const outside =
    issue.code === 'too_small' ||
    issue.code === 'too_big' ||
    (typeof value === 'string' && choices.some((choice) => typeof choice === 'string'));
  return {
    code: outside ? 'SCENARIO_OUT_OF_RANGE' : 'SCENARIO_WRONG_TYPE',
    path,
    got:
      typeof text === 'string' && text !== value
        ? `"${text}", which is ${shownValue(value)}`
        : shownValue(value),
    expected: issue.code === 'custom' ? issue.message.replace(/^expected /, '') : expected,
    fix:
      countFix(issue, value) ??
      likelyFix(issue, value, node?.unit, choices.map(String)) ??
      outsideFix(issue, path, root),
  };
}

/** Of a list that is short of months or has too many of them. */
function countFix(issue: Issue, value: unknown): string | undefined {
  const counted = issue.code === 'too_small' ? issue.minimum : issue.code === 'too_big' ? issue.maximum : 0;
  return Array.isArray(value) && counted === 12 ? 'one for each month, January first.' : undefined;
}

function likelyFix(
  issue: Issue,
  value: unknown,
  unit: string | undefined,
  choices: readonly string[],
): string | undefined {
  if (typeof value !== 'string') return undefined;
  const near = nearestWord(value, choices);
  if (near !== undefined) return `did you mean "${near}"?`;
  return issue.code === 'invalid_type' && /^[-+]?\d/.test(value)
    ? `write one number${unit === undefined || unit === '1' ? '' : ` in ${unit}, or with another unit`}.`
    : undefined;
}

/** What a number out of range was likely meant to be, or the unit that it is read in. */
function outsideFix(issue: Issue, path: KeyPath, root: unknown): string | undefined {
  const value = valueAt(root, path);
  if ((issue.code !== 'too_small' && issue.code !== 'too_big') || typeof value !== 'number') return undefined;
  const node = schemaAt(path, root) ?? {};
  const meant = likelyWithin(path, value, root);
  if (meant !== undefined) return `did you mean ${meant}?`;
  return node.unit === undefined || node.unit === '1'
    ? 'check the value.'
    : `check the value; it is read in ${node.unit}.`;
}
