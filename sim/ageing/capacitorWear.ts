import { exp } from '../common/elementary/exp.ts';
import { log } from '../common/elementary/log.ts';
import { power } from '../common/elementary/power.ts';
import type { CapacitorChange } from '../lamp/capacitor/params.ts';
import type { CapacitorSection } from '../lamp/capacitor/schema.ts';

/** What a maker of capacitors promises: so many hours at a voltage and a temperature, and what is left then. */
export interface LifeRating {
  hours: number;
  /** Of one part. */
  at_V: number;
  at_degC: number;
  /** Share of the capacitance that is left at the end of those hours. */
  capacitanceLeft: number;
  /** How many times larger the series resistance and the leakage are then. */
  resistanceTimes: number;
  leakageTimes: number;
}

/** How much longer a capacitor lives where it is cooler or holds less voltage. */
export interface LifeLaw {
  name: 'low' | 'middle' | 'high';
  /** Life is so many times longer for each 10 K less. */
  per10K: number;
  /** And for each 0.1 V less on one part. */
  perTenthVolt: number;
  /** Who says so. */
  from: string;
}

/** Least, middle and most that published factors say; of the temperature all say the same. */
export const LIFE_LAWS: readonly LifeLaw[] = [
  { name: 'low', per10K: 2, perTenthVolt: 1.3, from: "a maker's guide to the prediction of life" },
  { name: 'middle', per10K: 2, perTenthVolt: Math.SQRT2, from: 'usual guides of makers, from memory' },
  {
    name: 'high',
    per10K: 2,
    perTenthVolt: 2,
    from: 'Linzen et al. 2005, Bohlen et al. 2007, Koetz et al. 2010, from memory',
  },
];

/** A law by its name. */
export function lawNamed(name: LifeLaw['name']): LifeLaw {
  return LIFE_LAWS.find((law) => law.name === name)!;
}

/** Of a part whose rating is not stated. */
const USUAL = { hours: 1000, at_degC: 65, capacitance_left: 0.7, esr_times: 2, leakage_times: 2 } as const;

/**
 * The rating of one part of a bank: as stated, or the usual one.
 *
 * in: section, the capacitor's
 * source: common practice, no source (1000 h at 65 degC and the rated voltage to 70 percent and twice the resistance)
 */
export function lifeRating({ life, rated_V }: CapacitorSection): LifeRating {
  const {
    hours,
    at_V = rated_V,
    at_degC,
    capacitance_left,
    esr_times,
    leakage_times,
  } = { at_V: rated_V, ...USUAL, ...life };
  return {
    hours,
    at_V,
    at_degC,
    capacitanceLeft: capacitance_left,
    resistanceTimes: esr_times,
    leakageTimes: leakage_times,
  };
}

/**
 * Share of its rated life that a part spends in an hour at a voltage and a temperature, 1/h.
 *
 * in: rating; law; part_V, of one part; part_degC
 * out: 1 / hours at the rating's own voltage and temperature
 * valid: a law that multiplies; beyond the rating's voltage and temperature nothing vouches for it
 * source: SupercapacitorLife (a factor for each 10 K and for each 0.1 V)
 */
export function wearRate_per_h(rating: LifeRating, law: LifeLaw, part_V: number, part_degC: number): number {
  return exp(wearExponent(rating, law, part_V, part_degC)) / rating.hours;
}

function wearExponent(rating: LifeRating, law: LifeLaw, part_V: number, part_degC: number): number {
  return (
    (log(law.per10K) * (part_degC - rating.at_degC)) / 10 +
    (log(law.perTenthVolt) * (part_V - rating.at_V)) / 0.1
  );
}

/**
 * A part after some of its rated life: at 1 what the rating says of its end, before and beyond it by even factors.
 *
 * in: rating; wear, shares of the rated life, 0 or more
 * departs: measured fades are steeper at first and flatter later; between new and the end a straight line differs by 1.3
 *   percent of the capacitance at most. Beyond 1 it is an extrapolation. A part in a row without balancing that gives way
 *   takes ever more of the voltage: worn out it stays as it is, for no law says what becomes of it
 */
export function capacitorAge(rating: LifeRating, wear: number): CapacitorChange {
  return {
    capacitance: Math.max(WORN_OUT.capacitance, power(rating.capacitanceLeft, wear)),
    resistance: Math.min(WORN_OUT.times, power(rating.resistanceTimes, wear)),
    leakage: Math.min(WORN_OUT.times, power(rating.leakageTimes, wear)),
  };
}

/** Of a part that is past all use. */
const WORN_OUT = { capacitance: 0.01, times: 1000 } as const;
