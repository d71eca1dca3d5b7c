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
  /** Citation, or 'common practice, no source'. */
  source: string;
  /** confirmed: the printed number was seen in a public copy; memory: recalled; derived: exact consequence of published equations; practice: common practice, no source. */
  status: 'confirmed' | 'memory' | 'derived' | 'practice';
  compute: () => number;
  /** A fact that is reported, not gated: a miss is shown as such and does not fail the tests. */
  reportOnly?: boolean;
}
