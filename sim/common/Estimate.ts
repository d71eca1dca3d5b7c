/** A quantity found from readings, with its 90 percent interval. */
export interface Estimate {
  /** Key of the scenario or of the raw parameters that it stands for. */
  key: string;
  what: string;
  unit: string;
  value: number;
  /** 0 (or -Infinity) where only an upper bound is known. */
  low: number;
  /** Infinity where only a lower bound is known. */
  high: number;
  /** What would be taken without the readings: the datasheet, a part of the library, a default; undefined without one. */
  datasheet?: number | undefined;
}

/** A reading beside what the fitted part would show. */
export interface FittedReading {
  what: string;
  unit: string;
  measured: number;
  fitted: number;
  /** Standard deviation of the reading, from the stated errors. */
  error: number;
}

/** What readings of one part gave. */
export interface PartFit {
  estimates: Estimate[];
  readings: FittedReading[];
  /** What a maker should know: what was taken from the datasheet, readings that scatter more than their errors. */
  notes: string[];
  /** The keys to write into the scenario in place of the readings. */
  keys: { readonly [key: string]: unknown };
}

/** Standard errors to either side of the value: 90 percent of a normal distribution; 95 percent on one side. */
export const STANDARD_ERRORS_90 = 1.6448536269514722;

/** Stated errors are taken as twice the standard deviation. */
export const STATED_OVER_STANDARD = 2;

/** Standard deviation of rounding to a last digit, over that digit: a rectangle. */
export const ROUNDING = 1 / Math.sqrt(12);

/** Standard deviation of what is known exactly: keeps weights finite. */
export const NO_ERROR = 1e-9;

/** Standard deviation, relative, of a value whose error is stated in percent. */
export function standardShare(stated_percent: number): number {
  return Math.max(stated_percent / 100 / STATED_OVER_STANDARD, NO_ERROR);
}

/** A value with its interval: so great a share of it to either side. */
export function around(value: number, share: number) {
  return { value, low: value * (1 - share), high: value * (1 + share) };
}

/** A number rounded to some significant digits. */
export function significant(value: number, digits: number): number {
  return Number(value.toPrecision(digits));
}

/** Model parameters as they are written into a scenario: to six digits. */
export function rounded<Keys extends Record<string, number>>(keys: Keys): Keys {
  return Object.fromEntries(Object.entries(keys).map(([key, value]) => [key, significant(value, 6)])) as Keys;
}
