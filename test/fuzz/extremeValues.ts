import type { SchemaNode } from '../../sim/scenario/SchemaNode.ts';

/** What no number of a scenario is ever meant to be, and what many are. */
const NUMBERS = [0, 1, -1, 5e-324, 1e-300, 1e-12, 1e-6, 1e-3, 0.1, 10, 1e3, 1e6, 1e12, 1e300];
const TIMES = [1e-6, 1e-3, 0.1, 0.5, 0.9, 1.1, 2, 10, 1e3, 1e6];
const WORDS = [
  '',
  'nonsense',
  '12:00',
  '00:00',
  '23:59',
  '02-29',
  '12-31',
  'UTC',
  'Pacific/Apia',
  '3 mm',
  '=1+1',
];

/** Names that the parts library has or had, and one that it never had. */
const PART_NAMES = [
  'small-cell',
  'poor-cell',
  'small-schottky',
  'medium-capacitor',
  'inductor-driver',
  'white-led',
];

/**
 * Values to try under a key: of a number its least and most with what lies just beside them, tiny, huge, none at all,
 * and the usual one times some factors; of a choice all of them; of a text some that it may be taken for.
 *
 * in: node, a leaf of the schema; usual, what stands there in an ordinary scenario
 */
export function extremesOf(node: SchemaNode, usual: unknown): unknown[] {
  if (node.const !== undefined) return [node.const, 'nonsense'];
  if (node.enum !== undefined) return [...node.enum, 'nonsense'];
  if (node.type === 'boolean') return [true, false, 'yes'];
  if (node.type === 'string') return [...WORDS, ...(node.title?.includes('parts library') ? PART_NAMES : [])];
  const { minimum, maximum, exclusiveMinimum, exclusiveMaximum } = node;
  const ends = [minimum, maximum, exclusiveMinimum, exclusiveMaximum].filter((end) => end !== undefined);
  const inside = [
    ...(minimum === undefined ? [] : [minimum]),
    ...(maximum === undefined ? [] : [maximum]),
    ...(exclusiveMinimum === undefined ? [] : [exclusiveMinimum + Number.MIN_VALUE]),
    ...(minimum !== undefined && maximum !== undefined ? [0.5 * (minimum + maximum)] : []),
  ];
  const beside = ends.flatMap((end) => [end - 1e-9 * (1 + Math.abs(end)), end + 1e-9 * (1 + Math.abs(end))]);
  const factors = typeof usual === 'number' ? TIMES.map((times) => usual * times) : [];
  const whole = node.type === 'integer' ? [...inside, ...factors].map(Math.round) : [];
  return [...inside, ...factors, ...whole, ...beside, ...NUMBERS, Number.NaN, Number.POSITIVE_INFINITY];
}

/** Whether the schema takes a value at sight. */
export function takes(node: SchemaNode, value: unknown): boolean {
  if (typeof value !== 'number')
    return node.enum?.includes(value) ?? (node.const === undefined || node.const === value);
  const { minimum, maximum, exclusiveMinimum, exclusiveMaximum, type } = node;
  if (!Number.isFinite(value) || (type === 'integer' && !Number.isInteger(value))) return false;
  return (
    !(value < (minimum ?? Number.NEGATIVE_INFINITY)) &&
    !(value > (maximum ?? Number.POSITIVE_INFINITY)) &&
    !(value <= (exclusiveMinimum ?? Number.NEGATIVE_INFINITY)) &&
    !(value >= (exclusiveMaximum ?? Number.POSITIVE_INFINITY))
  );
}

/** Decades below the most of a number that may be 0. */
const DECADES = 12;

/**
 * A number somewhere within its range, each size as likely as another; undefined where a key has no range.
 *
 * in: node; part, 0 to 1, of the way from its least to its most
 */
export function sizeWithin(
  { minimum, exclusiveMinimum, maximum, type }: SchemaNode,
  part: number,
): number | undefined {
  const least = minimum ?? exclusiveMinimum;
  if ((type !== 'number' && type !== 'integer') || least === undefined || maximum === undefined)
    return undefined;
  const size =
    least > 0
      ? least * (maximum / least) ** part
      : least < 0
        ? least + part * (maximum - least)
        : maximum * 10 ** (-DECADES * (1 - part));
  return type === 'integer' ? Math.round(size) : size;
}
