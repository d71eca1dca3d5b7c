/** What a single question asks for. */
export const FIND_WORDS = ['capacitance', 'promise', 'shade', 'light', 'inductor'] as const;
export type FindWord = (typeof FIND_WORDS)[number];

/** How far apart the values are that an answer was looked for among. */
export interface FindStep {
  size: number;
  /** Of percent: of the value. */
  unit: '%' | 'h';
}

/** The answer to a single question about one lamp in one spot: one value, and how the nights are on either side of it. */
export interface Found {
  find: FindWord;
  spot: string;
  lamp: string;
  /** In words: 'capacitance of one capacitor'. */
  what: string;
  /** Key of the scenario that takes the value; undefined where there is none. */
  key: string | undefined;
  unit: string;
  /** Every night is kept with it; undefined where no value that was looked at does that. */
  value: number | undefined;
  /** Whether it is the least or the greatest that does. */
  end: 'least' | 'greatest';
  /** As the scenario has it; undefined where it says nothing. */
  stated: number | undefined;
  step: FindStep;
  /** Least and greatest value that was looked at. */
  lookedFrom: number;
  lookedTo: number;
  /** The next value beyond `value`, with which not every night is kept; undefined where there is none. */
  neighbour: number | undefined;
  /**
   * Where keeping turns, going away from `value` into those that keep: the last that keeps, the first that keeps again,
   * and so on by turns. A single one is where keeping ends on the other side.
   */
  turns: readonly number[];
  /** Where no value keeps every night: the one with fewest failed nights, then short hours. */
  nearest: { value: number; nights: number; failedNights: number; short_h: number } | undefined;
  /** The next preferred numbers that keep every night, of parts that are sold by them. */
  preferred: readonly { series: string; value: number }[];
  /** The same by a closed form, where there is one, of a capacitor that begins full and gets no light. */
  closedForm: { value: number; from_V: number } | undefined;
  /** What a maker must know beside it. */
  notes: readonly string[];
  /** Whole records that were run for it. */
  runs: number;
}
