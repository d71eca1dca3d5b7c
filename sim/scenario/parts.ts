import type { z } from 'zod';
import type { capacitorSchema } from '../lamp/capacitor/schema.ts';
import type { cellSchema } from '../lamp/cell/schema.ts';
import type { diodeSchema } from '../lamp/diode/schema.ts';
import type { driverSchema } from '../lamp/driver/schema.ts';
import type { jarSchema } from '../lamp/jar/schema.ts';
import type { ledSchema } from '../lamp/led/schema.ts';
import { COVER_PARTS } from '../spot/cover/coverParams.ts';

/** A part of the library: the keys it fills in, and a word on where its values come from. */
export interface Part<Section = object> {
  note: string;
  values: Section;
}

type Shelf<Section = object> = Readonly<Record<string, Part<Section>>>;

/** A part that is nobody's in particular. */
const generic = <Section>(values: Section): Part<Section> => ({
  note: 'generic; typical datasheet values, from memory',
  values,
});

/** The parts library: by the key a part stands under, then by its name. */
export const PARTS: {
  readonly cell: Shelf<z.input<typeof cellSchema>>;
  readonly diode: Shelf<z.input<typeof diodeSchema>>;
  readonly capacitor: Shelf<z.input<typeof capacitorSchema>>;
  readonly driver: Shelf<z.input<typeof driverSchema>>;
  readonly led: Shelf<z.input<typeof ledSchema>>;
  readonly jar: Shelf<z.input<typeof jarSchema>>;
  readonly cover: Shelf;
} = {
  // Four silicon junctions in series, about 60 cm2.
  cell: {
    'small-cell': generic({
      short_circuit_mA: 500,
      open_circuit_V: 2.45,
      best_current_mA: 460,
      best_voltage_V: 1.95,
      cells_in_series: 4,
      shunt_V: 200,
      area_cm2: 60,
    }),
    'poor-cell': generic({
      short_circuit_mA: 420,
      open_circuit_V: 2.35,
      best_current_mA: 360,
      best_voltage_V: 1.75,
      cells_in_series: 4,
      shunt_V: 25,
      area_cm2: 60,
    }),
  },
  diode: {
    'small-schottky': generic({ forward_drop: [{ current_mA: 10, drop_V: 0.2 }] }),
  },
  capacitor: {
    'medium-capacitor': generic({
      capacitance_F: 360,
      rated_V: 2.7,
      esr_mohm: 7,
      leakage_uA: 700,
      leakage_rest_h: 72,
    }),
  },
  driver: {
    'inductor-driver': generic({
      kind: 'boost',
      inductance_uH: 680,
      frequency_kHz: 9,
      duty: 0.2,
      rectifier_drop_V: 0,
      current_limit_mA: 30,
      efficiency: 0.9,
      cutoff_V: 0.9,
      restart_V: 1.1,
    }),
  },
  led: {
    'white-led': generic({
      table: [
        { current_mA: 1, forward_V: 2.62, efficacy_lm_W: 178 },
        { current_mA: 5, forward_V: 2.7, efficacy_lm_W: 200 },
        { current_mA: 10, forward_V: 2.76, efficacy_lm_W: 193 },
        { current_mA: 20, forward_V: 2.86, efficacy_lm_W: 176 },
        { current_mA: 30, forward_V: 2.95, efficacy_lm_W: 162 },
      ],
    }),
  },
  jar: {
    'small-jar': generic({ rise_K_full_sun: 20, time_constant_min: 30 }),
  },
  cover: Object.fromEntries(
    Object.entries(COVER_PARTS).map(([name, { note, ...values }]) => [
      name,
      { note, values: { kind: 'flat', ...values } },
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
