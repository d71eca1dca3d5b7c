import * as z from 'zod';

/** A number above 0. */
export const above0 = z.number().positive();

/** A number of 0 or more. */
export const from0 = z.number().min(0);

/** A number from one to another: ends far beyond what a maker has, and within what a run can follow. */
export function within(least: number, most: number) {
  return z.number().min(least).max(most);
}

/** Keys that stand together below one key of a part. */
export function keysOf<Shape extends z.ZodRawShape>(title: string, shape: Shape) {
  return z.strictObject(shape).meta({ title });
}

/**
 * A list of rows with the same keys.
 * in: title; range, fewest and most rows; shape, the keys of a row
 */
export function rowsOf<Shape extends z.ZodRawShape>(
  title: string,
  [least, most]: readonly [number, number?],
  shape: Shape,
) {
  let rows = z.array(z.strictObject(shape));
  if (least > 0) rows = rows.min(least);
  if (most !== undefined) rows = rows.max(most);
  return rows.meta({ title });
}

/** The coldest that a part is rated for. */
export const lowestTemperature = z.number().min(-100).max(25).optional().meta({
  title: 'lowest temperature that it is rated for; hours in which the jar is colder are flagged',
});

const price = within(0, 1e6);

/** What buying a part comes to. */
export const bought = {
  price: price.optional().meta({ title: "price of one part, in the scenario's currency" }),
  pack: z.number().int().min(1).max(10_000).optional().meta({
    title: 'how many are sold together; the price stays that of one',
  }),
  in_drawer: z.number().int().min(0).max(10_000).optional().meta({
    title: 'how many are at hand: those cost nothing',
  }),
};

/**
 * The same of a part that has a price even where none is stated.
 * in: usual price; assumption behind it
 */
export function boughtFor(usual: number, assumption: string) {
  return { ...bought, price: price.default(usual).meta({ ...bought.price.meta(), assumption }) };
}

/**
 * An error that a maker states of readings, from 0 up.
 * in: usual, taken where none is stated; most; what it is the error of; assumption behind the usual one
 */
export function errorOf(usual: number, most: number, what: string, assumption: string) {
  return from0
    .max(most)
    .default(usual)
    .meta({ title: `error of ${what}`, assumption });
}

/** Last digit of a voltmeter; assumption behind 1 mV. */
export function voltmeterStep(assumption = 'a range of 2 V on a meter of 2000 counts') {
  return within(1e-6, 1000).default(1).meta({ title: 'last digit of the voltmeter', assumption });
}

/** Last digit of an ammeter. */
export function ammeterStep(title: string) {
  const assumption = 'a range of 200 mA on a meter of 2000 counts';
  return within(1e-6, 1000).default(0.1).meta({ title, assumption });
}

/** Error of a voltmeter. */
export const voltmeterError = from0.max(10).default(0.5).meta({
  title: "the voltmeter's error in percent of the reading",
  assumption: 'a plain multimeter, from memory',
});

/** Temperature of what is read at the bench. */
export function benchTemperature(title: string, most = 90) {
  return z.number().min(-30).max(most).default(25).meta({ title, assumption: 'indoors' });
}
