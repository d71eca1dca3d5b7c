/** One single change to a trial that failed, and what the whole record run again with it came to. */
export interface Change {
  /** What is changed, in few words: 'one more capacitor beside'. */
  change: string;
  /** Before and after, with units. */
  detail: string;
  failedNightsBefore: number;
  failedNights: number;
  shortBefore_h: number;
  short_h: number;
  /** What the parts of the change cost, where prices are given, in the scenario's currency. */
  cost: number | undefined;
}
