/** How sure an outside value is: the word that stands in the tables, and what it means. */
export const STATUSES = {
  printed: 'the number as printed, seen in a public copy',
  'answer from memory': 'the example and its inputs seen in a public copy, the printed answer from memory',
  'from memory': 'example and answer from memory',
  computed: "computed apart from this project from the source's equations, which were seen in a public copy",
  'computed, from memory': 'the same, equations or parameters from memory',
  'derived here': 'arithmetic, a closed form or a quadrature made apart, in no book that was seen',
  'own evaluation': 'our own evaluation of published measurements',
  'common practice': 'no source',
  input: 'gives back what was put in: no check, counted neither as held nor as missed',
} as const;

type Status = keyof typeof STATUSES;

/**
 * One outside value the tool is held against. `compute` runs the project's own code; `expected` and `tolerance`
 * come from the source. A value with no source stated is not a truth.
 */
export interface TruthCase {
  /** Heading of the printed table the case stands under, e.g. 'Tilted plane'. */
  topic: string;
  what: string;
  unit: string;
  expected: number;
  /** Absolute, in `unit`. For a band, half its width, `expected` its middle. */
  tolerance: number;
  /** What limits the tolerance (rounding of the book, another constant, the model). */
  why: string;
  /** Citation, with 'from memory' where it is; or 'common practice, no source'. */
  source: string;
  status: Status;
  compute: () => number;
  /** A fact that is reported, not gated: a miss is shown as such and does not fail the tests. */
  reportOnly?: boolean;
}
