/** What holds for any input; a few runs belong to every test, all of them to the slow ones. */
export interface Property {
  title: string;
  /** Inputs that the slow test tries. */
  runs: number;
  /** Throws with the smallest input found for which it does not hold. */
  check: (runs: number, seed?: number) => void | Promise<void>;
}
