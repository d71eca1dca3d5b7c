import type { z } from 'zod';
import type { capacitorSchema } from '../lamp/capacitor/schema.ts';
import type { cellSchema } from '../lamp/cell/schema.ts';
import type { diodeSchema } from '../lamp/diode/schema.ts';
import type { driverSchema } from '../lamp/driver/schema.ts';
import type { jarSchema } from '../lamp/jar/schema.ts';
import type { ledSchema } from '../lamp/led/schema.ts';
import { COVER_PARTS } from '../spot/cover/coverParams.ts';
import type { coverSchema } from '../spot/cover/schema.ts';

/** Keys of a part that are uncertain together: what they may be in the poorer and in the better half of what is sold. */
export interface PartSpan<Section = object> {
  poor: Partial<Section>;
  good: Partial<Section>;
}

/** A part of the library: the keys it fills in, which of them are uncertain, and a word on where its values come from. */
export interface Part<Section = object> {
  note: string;
  values: Section;
  spans: readonly PartSpan<Section>[];
}

type Shelf<Section = object> = Readonly<Record<string, Part<Section>>>;

/** A part that is nobody's in particular: the middle of what a maker buys, with what that may turn out to be. */
function generic<Section>(values: Section, ...spans: PartSpan<Section>[]): Part<Section> {
  return { note: 'generic; the middle of what is sold, from memory', values, spans };
}

/** What one part costs: the middle, in hobby quantities. */
type Price = { price: number; price_per_F?: number };

/**
 * A part beside its poor and its good sibling, which stand at the ends of its spans; those reach to the middle. Prices
 * are those of the three, in this order.
 */
function graded<Section>(
  kind: string,
  name: string,
  part: Part<Section>,
  [price, poorPrice, goodPrice]: readonly [Price, Price, Price],
): Shelf<Section> {
  const { values, spans } = part;
  const middle = ({ poor }: PartSpan<Section>) =>
    Object.fromEntries(
      Object.keys(poor).map((key) => [key, values[key as keyof Section]]),
    ) as Partial<Section>;
  const allAt = (end: keyof PartSpan): Section =>
    Object.assign({}, values, ...spans.map((span) => span[end]));
  return {
    [name]: { ...part, values: { ...values, ...price } },
    [`poor-${kind}`]: {
      note: 'generic; the poor end of what is sold, from memory',
      values: { ...allAt('poor'), ...poorPrice },
      spans: spans.map((span) => ({ poor: span.poor, good: middle(span) })),
    },
    [`good-${kind}`]: {
      note: 'generic; the good end of what is sold, from memory',
      values: { ...allAt('good'), ...goodPrice },
      spans: spans.map((span) => ({ poor: middle(span), good: span.good })),
    },
  };
}

/** Light of a white LED of a few milliamperes; least efficacy where it is driven hardest. */
function whiteLed(best_lm_W: number): z.input<typeof ledSchema> {
  const rows = [
    [1, 2.62, 0.89],
    [5, 2.7, 1],
    [10, 2.76, 0.965],
    [20, 2.86, 0.88],
    [30, 2.95, 0.81],
  ] as const;
  return {
    table: rows.map(([current_mA, forward_V, share]) => ({
      current_mA,
      forward_V,
      efficacy_lm_W: Math.round(share * best_lm_W),
    })),
  };
}

const drop = (drop_V: number): z.input<typeof diodeSchema> => ({
  forward_drop: [{ current_mA: 10, drop_V }],
});

/** Glass from water-white to greenish. */
const COVER_SPAN = { poor: { absorption_per_m: 32 }, good: { absorption_per_m: 4 } };

/** LED power over power drawn, from five capacitor voltages. */
const boostEfficiency = (...shares: [number, number, number, number, number]) => ({
  efficiency: [0.9, 1.2, 1.6, 2, 2.5].map((capacitor_V, k) => ({ capacitor_V, efficiency: shares[k]! })),
});

/** Prices of a part, its poor and its good sibling. */
const prices = (...each: [number, number, number]) =>
  each.map((price) => ({ price })) as [Price, Price, Price];

/**
 * The parts library: by the key a part stands under, then by its name. Prices are from memory, the middle of what hobby
 * quantities cost, in euros or dollars.
 */
export const PARTS: {
  readonly cell: Shelf<z.input<typeof cellSchema>>;
  readonly diode: Shelf<z.input<typeof diodeSchema>>;
  readonly capacitor: Shelf<z.input<typeof capacitorSchema>>;
  readonly driver: Shelf<z.input<typeof driverSchema>>;
  readonly led: Shelf<z.input<typeof ledSchema>>;
  readonly jar: Shelf<z.input<typeof jarSchema>>;
  readonly cover: Shelf<z.input<typeof coverSchema>>;
} = {
  // Four silicon junctions in series, about 60 cm2.
  cell: graded(
    'cell',
    'small-cell',
    generic(
      {
        short_circuit_mA: 500,
        open_circuit_V: 2.45,
        best_current_mA: 460,
        best_voltage_V: 1.95,
        cells_in_series: 4,
        shunt_V: 200,
        area_cm2: 60,
      },
      {
        poor: { short_circuit_mA: 440, best_current_mA: 405 },
        good: { short_circuit_mA: 530, best_current_mA: 488 },
      },
      {
        poor: { open_circuit_V: 2.35, best_voltage_V: 1.85 },
        good: { open_circuit_V: 2.5, best_voltage_V: 2 },
      },
      { poor: { shunt_V: 50 }, good: { shunt_V: 600 } },
    ),
    prices(3, 2, 5),
  ),
  diode: graded(
    'diode',
    'small-schottky',
    generic(drop(0.2), { poor: drop(0.3), good: drop(0.17) }),
    prices(0.3, 0.15, 0.6),
  ),
  capacitor: graded(
    'capacitor',
    'medium-capacitor',
    generic(
      {
        capacitance_F: 360,
        rated_V: 2.7,
        esr_mohm: 7,
        leakage_uA: 700,
        leakage_rest_h: 72,
        life: { hours: 1000, at_degC: 65 },
      },
      { poor: { capacitance_F: 320 }, good: { capacitance_F: 400 } },
      { poor: { esr_mohm: 15 }, good: { esr_mohm: 3 } },
      { poor: { leakage_uA: 2000 }, good: { leakage_uA: 250 } },
    ),
    [
      { price: 2, price_per_F: 0.016 },
      { price: 1.5, price_per_F: 0.012 },
      { price: 3, price_per_F: 0.02 },
    ],
  ),
  driver: graded(
    'driver',
    'inductor-driver',
    generic<z.input<typeof driverSchema>>(
      {
        kind: 'boost',
        inductance_uH: 680,
        frequency_kHz: 9,
        duty: 0.2,
        rectifier_drop_V: 0,
        current_limit_mA: 30,
        ...boostEfficiency(0.68, 0.75, 0.8, 0.84, 0.87),
        cutoff_V: 0.9,
        restart_V: 1.1,
      },
      {
        poor: boostEfficiency(0.6, 0.69, 0.75, 0.79, 0.82),
        good: boostEfficiency(0.75, 0.81, 0.85, 0.88, 0.9),
      },
      { poor: { cutoff_V: 1, restart_V: 1.2 }, good: { cutoff_V: 0.8, restart_V: 1 } },
    ),
    prices(1.5, 1, 3),
  ),
  led: graded(
    'led',
    'white-led',
    generic<z.input<typeof ledSchema>>(
      { ...whiteLed(140), life: { hours: 20_000, at_mA: 20 } },
      { poor: whiteLed(110), good: whiteLed(190) },
    ),
    prices(0.3, 0.15, 0.6),
  ),
  jar: {
    'small-jar': generic(
      { rise_K_full_sun: 20, time_constant_min: 30, price: 2.5 },
      { poor: { rise_K_full_sun: 30 }, good: { rise_K_full_sun: 10 } },
    ),
  },
  cover: Object.fromEntries(
    Object.entries(COVER_PARTS).map(([name, { note, ...values }]) => [
      name,
      { note, values: { kind: 'flat', ...values }, spans: [COVER_SPAN] },
    ]),
  ),
};

export type PartKind = keyof typeof PARTS;

/** Keys of a lamp that hold a part. */
export const LAMP_PARTS = [
  'cell',
  'diode',
  'capacitor',
  'driver',
  'led',
  'jar',
] as const satisfies PartKind[];
