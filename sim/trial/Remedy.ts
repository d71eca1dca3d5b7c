/** One single change to a trial that failed, and what the whole record run again with it came to. */
export interface Remedy {
  /** What is changed, in few words: 'one more store beside'. */
  change: string;
  /** Before and after, with units. */
  detail: string;
  failureNightsBefore: number;
  failureNights: number;
  darkBefore_h: number;
  dark_h: number;
  /** What the parts of the change cost, where prices are given, in the scenario's currency. */
  cost?: number;
}
