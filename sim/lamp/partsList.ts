import type { LampSection } from './schema.ts';

export type PartName =
  | 'cell'
  | 'diode'
  | 'capacitor'
  | 'balancing'
  | 'limiter'
  | 'driver'
  | 'inductor'
  | 'led'
  | 'jar';

/** Parts of one kind in a lamp, as they are bought or taken from the drawer. */
export interface PartLine {
  part: PartName;
  /** In plain words, with its name where it has one: 'solar cells, small-cell'. */
  name: string;
  count: number;
  /** Of one. */
  price?: number;
  /** How many are sold together; the price stays that of one. */
  pack?: number;
  /** How many are at hand. */
  in_drawer?: number;
  /** Of those that are not at hand; undefined where they have no price. */
  cost?: number;
  /** Its price is in that of another part. */
  included?: true;
}

/** What a section says of buying its part. */
interface Bought {
  part?: string | undefined;
  price?: number | undefined;
  pack?: number | undefined;
  in_drawer?: number | undefined;
}

/**
 * The parts of a lamp, in the order they stand in its circuit.
 *
 * in: lamp, its parts merged in
 * out: a line a kind; prices in the scenario's currency
 */
export function partsList({ cell, diode, capacitor, driver, led, jar }: LampSection): PartLine[] {
  const capacitors = capacitor.parallel * capacitor.series;
  const { limiter, balancing_kohm } = capacitor;
  return [
    line('cell', 'solar cell', cell, cell.parallel * cell.series),
    line('diode', 'blocking diode', diode, 1),
    line('capacitor', 'supercapacitor', { ...capacitor, price: capacitorPrice(capacitor) }, capacitors),
    ...(balancing_kohm === undefined
      ? []
      : [included('balancing', 'balancing resistor', capacitors, 'the capacitors')]),
    ...(limiter === undefined ? [] : [line('limiter', 'limiter', limiter, 1)]),
    line('driver', 'driver', driver, 1),
    ...(driver.kind === 'boost' ? [included('inductor', 'inductor', 1, 'the driver')] : []),
    line('led', 'LED', led, led.count * led.in_series),
    // Any jar will do: one of which no price is told is at hand.
    line('jar', 'jar', { in_drawer: jar.price === undefined ? 1 : undefined, ...jar }, 1),
  ];
}

/** Price of one capacitor, with what each of its farads adds; undefined where it has none. */
export function capacitorPrice({
  price,
  price_per_F,
  capacitance_F,
  raw,
}: LampSection['capacitor']): number | undefined {
  if (price_per_F === undefined) return price;
  const farads = raw?.capacitance_F ?? capacitance_F;
  return farads === undefined ? undefined : (price ?? 0) + price_per_F * farads;
}

/**
 * What the parts of a lamp cost that are not at hand, in the scenario's currency; of several lamps, which share a drawer.
 *
 * in: lamp, its parts merged in; lamps, how many are built
 * out: undefined where a part that must be bought has no price; packs are not counted
 */
export function lampPrice(lamp: LampSection, lamps = 1): number | undefined {
  let sum = 0;
  for (const { part, count, price, in_drawer = 0, included: priced } of partsList(lamp)) {
    const bought = Math.max(0, count * lamps - in_drawer);
    const isFound = priced === true || (part === 'jar' && price === undefined && lamps > 1);
    if (bought === 0 || isFound) continue;
    if (price === undefined) return undefined;
    sum += price * bought;
  }
  return sum;
}

/** Names of those parts of a lamp that must be bought and have no price. */
export function unpriced(lamp: LampSection): string[] {
  return partsList(lamp).flatMap(({ name, cost }) => (cost === undefined ? [name] : []));
}

function line(
  part: PartName,
  kind: string,
  { part: name, price, pack, in_drawer }: Bought,
  count: number,
): PartLine {
  const bought = Math.max(0, count - (in_drawer ?? 0));
  const kinds = plural(kind, count);
  return {
    part,
    name: name === undefined ? kinds : `${kinds}, ${name}`,
    count,
    ...(price !== undefined && { price }),
    ...(pack !== undefined && { pack }),
    ...(in_drawer !== undefined && { in_drawer }),
    ...(bought === 0 ? { cost: 0 } : price !== undefined && { cost: price * bought }),
  };
}

function included(part: PartName, kind: string, count: number, by: string): PartLine {
  return { part, name: `${plural(kind, count)} (priced with ${by})`, count, cost: 0, included: true };
}

function plural(kind: string, count: number): string {
  return count === 1 ? kind : `${kind}s`;
}
