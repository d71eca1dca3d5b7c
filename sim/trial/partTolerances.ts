import { power } from '../common/elementary/power.ts';
import { randomStream } from '../common/random.ts';
import { scaledBranches } from '../lamp/capacitor/delayedCharge.ts';
import type { LampParams } from '../lamp/params.ts';

/** How far one piece of a part strays from what is stated of its kind. */
export interface PartTolerance {
  /** Part and key, as `keyWords` knows it. */
  key: string;
  words: string;
  low: number;
  high: number;
  apply: (to: LampParams, factor: number) => LampParams;
}

/** How far good parts stray from what is stated; every one an assumption. */
export const PART_TOLERANCES: readonly PartTolerance[] = [
  {
    key: 'cell.short_circuit_mA',
    words: 'cell current +-10 percent',
    low: 0.9,
    high: 1.1,
    apply: (to, factor) => {
      const { photocurrent_A, shunt_ohm } = to.cell;
      return withPart(to, 'cell', { photocurrent_A: photocurrent_A * factor, shunt_ohm: shunt_ohm / factor });
    },
  },
  {
    key: 'cell.open_circuit_V',
    words: 'cell voltage +-3 percent',
    low: 0.97,
    high: 1.03,
    apply: (to, factor) => withPart(to, 'cell', { openCircuit_V: to.cell.openCircuit_V * factor }),
  },
  {
    key: 'diode.forward_drop',
    words: 'diode drop +-10 percent',
    low: 0.9,
    high: 1.1,
    apply: (to, factor) => {
      const { ideality, series_ohm, on_ohm } = to.diode;
      return withPart(to, 'diode', {
        ideality: ideality * factor,
        series_ohm: series_ohm * factor,
        on_ohm: on_ohm * factor,
      });
    },
  },
  {
    key: 'capacitor.capacitance_F',
    words: 'capacitance -10 to +30 percent',
    low: 0.9,
    high: 1.3,
    apply: (to, factor) => {
      const { capacitance_F, rise_F_V } = to.capacitor;
      const more = { capacitance_F: capacitance_F * factor, rise_F_V: rise_F_V * factor };
      return withPart(moreDelayed(to, factor), 'capacitor', more);
    },
  },
  {
    key: 'capacitor.delayed_share',
    words: 'delayed share of the charge from half to one and a half times what is stated',
    low: 0.5,
    high: 1.5,
    apply: moreDelayed,
  },
  {
    key: 'capacitor.leakage_uA',
    words: 'leakage and standby from 0.3 to 2 times what is stated',
    low: 0.3,
    high: 2,
    apply: (to, factor) => {
      const { driver, capacitor } = to;
      const drawn = { standby_A: driver.standby_A * factor, belowCutoff_A: driver.belowCutoff_A * factor };
      return withPart(withPart(to, 'driver', drawn), 'capacitor', {
        leakage_A: capacitor.leakage_A * factor,
      });
    },
  },
];

/** The cell in dim light strays most of all; no band of a reading leans on it, for it is what the reading is for. */
const SHUNT: PartTolerance = {
  key: 'cell.shunt_V',
  words: "the cell's shunt from a third to three times what is stated",
  low: 1 / 3,
  high: 3,
  apply: (to, factor) => withPart(to, 'cell', { shunt_ohm: to.cell.shunt_ohm * factor }),
};

/** What lamps that are built from the same list of parts differ by, in words. */
export const BUILT_WORDS: readonly string[] = [...PART_TOLERANCES, SHUNT].map(({ words }) => words);

/** One lamp as it came out of the workshop, and the factor of each tolerance. */
export interface BuiltLamp {
  lamp: LampParams;
  factors: Record<string, number>;
}

/**
 * Lamps built from the same list of parts, each piece somewhere within its tolerance: evenly between its ends, on a scale
 * of ratios.
 *
 * in: lamp, as stated; count; seed
 * out: so many lamps, the same for the same seed, whatever the lamp is called
 * valid: an assumption; pieces of one purchase are often more alike
 */
export function builtLamps(lamp: LampParams, count: number, seed: number): BuiltLamp[] {
  return Array.from({ length: count }, (_, index) => {
    const random = randomStream(seed, 'lamps built', index);
    const built: BuiltLamp = { lamp, factors: {} };
    for (const { key, low, high, apply } of [...PART_TOLERANCES, SHUNT]) {
      built.factors[key] = low * power(high / low, random.uniform());
      built.lamp = apply(built.lamp, built.factors[key]!);
    }
    return built;
  });
}

function withPart<Part extends 'cell' | 'diode' | 'capacitor' | 'driver'>(
  lamp: LampParams,
  part: Part,
  changes: Partial<LampParams[Part]>,
): LampParams {
  return { ...lamp, [part]: { ...lamp[part], ...changes } };
}

/** More of the delayed branches with the same time constants. */
function moreDelayed(lamp: LampParams, factor: number): LampParams {
  return withPart(lamp, 'capacitor', { delayed: scaledBranches(lamp.capacitor.delayed, factor) });
}
