import { significant } from '../../common/Estimate.ts';
import { lacksValues, type Report, unlessReported } from '../../common/InputProblem.ts';
import {
  absorbedCurrent_A,
  checkBranches,
  type DelayedBranch,
  delayedBranches,
  NO_BRANCH,
  scaledBranches,
} from './delayedCharge.ts';
import type { CapacitorSection } from './schema.ts';

/** Less charge than this delayed is none that a reading tells, and its branch would be all but an open end. */
const LEAST_DELAYED_SHARE = 1e-4;
/** Series resistance times capacitance: some 1 s of power cells, 45 s of the smallest buttons (from memory). */
const MOST_SERIES_S = 400;

/** Voltage below which a lithium hybrid is spoilt, from memory. */
export const HYBRID_LOWEST_V = 2.2;

/** Series resistance in the cold over that at 25 degC. */
export interface SeriesGrowth {
  atMinus20: number;
  atMinus40: number;
}

/** A resistance that no cold moves. */
const NO_GROWTH: SeriesGrowth = { atMinus20: 1, atMinus40: 1 };

/** The whole bank of capacitors, SI units. */
export interface CapacitorParams {
  /** dQ/dV at 0 V. */
  capacitance_F: number;
  /** Rise of dQ/dV with voltage: dQ/dV = capacitance_F + rise_F_V * V. */
  rise_F_V: number;
  /** At 25 degC. */
  series_ohm: number;
  /** How many times that it is in the cold. */
  seriesGrowth: SeriesGrowth;
  /** Two, the unused ones with a capacitance of 0. */
  delayed: readonly [DelayedBranch, DelayedBranch];
  /** Leakage at the rated voltage and 25 degC. */
  leakage_A: number;
  /** Bank voltage that changes the leakage by a factor of e; Infinity for a resistance. */
  leakageEFold_V: number;
  /** Warming that doubles the leakage; Infinity where it is fixed. */
  leakageDoubling_K: number;
  rated_V: number;
  /** Below it the bank is spoilt; 0 where it may be empty. */
  lowest_V: number;
  /** What it is rated down to. */
  lowest_degC: number;
  /** Conductance of the balancing resistors across the bank. */
  balancing_S: number;
  /** Voltage above which the limiter draws; Infinity without one. */
  limiter_V: number;
  limiter_ohm: number;
}

/** How many times what it was a bank has of each. */
export interface CapacitorChange {
  capacitance: number;
  resistance: number;
  leakage: number;
}

/**
 * A bank of which some has gone or grown; delayed charge goes with the capacitance, its time stays.
 *
 * in: bank; change, factors above 0, of the leakage 0 or more
 */
export function changedCapacitor(
  bank: CapacitorParams,
  { capacitance, resistance, leakage }: CapacitorChange,
): CapacitorParams {
  return {
    ...bank,
    capacitance_F: bank.capacitance_F * capacitance,
    rise_F_V: bank.rise_F_V * capacitance,
    series_ohm: bank.series_ohm * resistance,
    leakage_A: bank.leakage_A * leakage,
    delayed: scaledBranches(bank.delayed, capacitance),
  };
}

/**
 * Parameters of the bank, from the datasheet of one part or from raw parameters.
 *
 * The rated capacitance is the mean of dQ/dV from 0.8 to 0.4 of the rated voltage, so that
 * rated = capacitance + rise * 0.6 * rated voltage. What the delayed branches still take after the rest time is taken
 * off the leakage, so that it is not counted twice.
 *
 * in: section, as the schema gives it, library part merged in and readings settled; report, takes what cannot be
 * out: the bank, or undefined after a problem
 * source: ZubietaBonert2000 (branches, dQ/dV = C0 + C1 V), IEC62391 (the timed discharge)
 * departs: the delayed branches hang behind the series resistance, not before it: under 1 percent at 30 A through
 *   2.5 mohm, nothing at the milliamperes of a lamp
 */
export function capacitorParams(section: CapacitorSection, report: Report): CapacitorParams | undefined {
  const one =
    section.raw === undefined
      ? fromDatasheet(section, report)
      : fromRaw(section.raw, section.rated_V, report);
  if (one === undefined) return undefined;
  checkSeriesResistance(one, section, report);
  const { parallel, series } = section;
  const lowest_V = lowestVoltage_V(section);
  if (lowest_V >= section.rated_V) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['lowest_V'],
      got: `${lowest_V} V`,
      expected: `less than the rated voltage of ${section.rated_V} V`,
      fix: 'is one of them of the whole bank? Both are of one part',
    });
  }
  if (section.esr_factor_minus40 < section.esr_factor_minus20) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['esr_factor_minus40'],
      got: `${section.esr_factor_minus40}, less than ${section.esr_factor_minus20} at -20 degC`,
      expected: 'a resistance that does not fall as it gets colder',
      fix: 'state both as times the resistance at 25 degC',
    });
  }
  if (section.limiter !== undefined && section.limiter.at_V > section.rated_V * series) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['limiter', 'at_V'],
      got: `${section.limiter.at_V} V`,
      expected: `at most the rated voltage of the bank, ${section.rated_V * series} V`,
      fix: 'a limiter above the rated voltage protects nothing',
    });
  }
  const each = parallel / series;
  return {
    capacitance_F: one.capacitance_F * each,
    rise_F_V: (one.rise_F_V * each) / series,
    series_ohm: one.series_ohm / each,
    seriesGrowth: one.seriesGrowth,
    delayed: scaledBranches(one.delayed, each),
    leakage_A: one.leakage_A * parallel,
    leakageEFold_V: one.leakageEFold_V * series,
    leakageDoubling_K: one.leakageDoubling_K,
    rated_V: section.rated_V * series,
    lowest_V: lowest_V * series,
    lowest_degC: section.lowest_degC,
    balancing_S: section.balancing_kohm === undefined ? 0 : each / (section.balancing_kohm * 1000),
    limiter_V: section.limiter?.at_V ?? Number.POSITIVE_INFINITY,
    limiter_ohm: section.limiter?.slope_ohm ?? 1,
  };
}

/** Voltage that one part must not fall below; 0 where it may be empty. */
export function lowestVoltage_V({ lowest_V, kind }: Pick<CapacitorSection, 'lowest_V' | 'kind'>): number {
  return lowest_V ?? (kind === 'lithium-hybrid' ? HYBRID_LOWEST_V : 0);
}

type OnePart = Omit<
  CapacitorParams,
  'rated_V' | 'lowest_V' | 'lowest_degC' | 'balancing_S' | 'limiter_V' | 'limiter_ohm'
>;

function fromRaw(
  raw: NonNullable<CapacitorSection['raw']>,
  rated_V: number,
  report: Report,
): OnePart | undefined {
  return unlessReported(report, (reporting) => {
    checkBranches(raw, reporting);
    return {
      capacitance_F: raw.capacitance_F,
      rise_F_V: raw.rise_F_V,
      series_ohm: raw.series_ohm,
      seriesGrowth: NO_GROWTH,
      delayed: [raw.delayed_branches[0] ?? NO_BRANCH, raw.delayed_branches[1] ?? NO_BRANCH],
      leakage_A: raw.leakage_ohm === undefined ? 0 : rated_V / raw.leakage_ohm,
      leakageEFold_V: Number.POSITIVE_INFINITY,
      leakageDoubling_K: Number.POSITIVE_INFINITY,
    };
  });
}

/** A resistance behind which so much capacitance would answer more slowly than any capacitor does. */
function checkSeriesResistance(one: OnePart, { raw }: CapacitorSection, report: Report): void {
  const { series_ohm, capacitance_F } = one;
  const own_s = series_ohm * capacitance_F;
  if (own_s <= MOST_SERIES_S) return;
  report({
    code: 'SCENARIO_CONFLICT',
    path: raw === undefined ? ['esr_mohm'] : ['raw', 'series_ohm'],
    got: `${series_ohm} ohm before ${significant(capacitance_F, 3)} F, which answer within ${significant(own_s, 3)} s`,
    expected: `a capacitor that answers within ${MOST_SERIES_S} s or less: ohms times farads`,
    fix: 'is one of the two in another unit? Power cells answer within some 1 s, the smallest buttons within 45 s',
  });
}

function fromDatasheet(section: CapacitorSection, report: Report): OnePart | undefined {
  if (lacksValues(section, ['capacitance_F', 'leakage_uA'], 'medium-capacitor', report)) return undefined;
  const { rated_V, delayed_share } = section;
  if (delayed_share > 0 && delayed_share < LEAST_DELAYED_SHARE) {
    report({
      code: 'SCENARIO_OUT_OF_RANGE',
      path: ['delayed_share'],
      got: `${delayed_share}`,
      expected: `0, or ${LEAST_DELAYED_SHARE} and more`,
      fix: 'state 0 where no charge is delayed',
    });
    return undefined;
  }
  const [capacitance_F, leakage_uA] = [section.capacitance_F!, section.leakage_uA!];
  const delayed = delayedBranches(capacitance_F, delayed_share, section.delayed_hours);
  const absorbed_A = absorbedCurrent_A(delayed, rated_V, section.leakage_rest_h);
  const leakage_A = leakage_uA * 1e-6 - absorbed_A;
  if (leakage_A < 0) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['leakage_rest_h'],
      got: `${section.leakage_rest_h} h, when the delayed charge alone still draws ${(absorbed_A * 1e6).toFixed(1)} uA`,
      expected: `less than the stated leakage of ${leakage_uA} uA`,
      fix: 'give a longer rest, a smaller delayed_share or a shorter delayed_hours',
    });
    return undefined;
  }
  return onePart({ ...section, capacitance_F }, leakage_A);
}

/** One part as its datasheet values have it, but for the leakage, without what delayed charge takes. */
export function onePart(section: CapacitorSection & { capacitance_F: number }, leakage_A: number): OnePart {
  const { capacitance_F, capacitance_rise, leakage_law, leakage_e_fold_V } = section;
  const atZero_F = capacitance_F / (1 + 0.6 * capacitance_rise);
  return {
    capacitance_F: atZero_F,
    rise_F_V: (atZero_F * capacitance_rise) / section.rated_V,
    series_ohm: section.esr_mohm / 1000,
    seriesGrowth: { atMinus20: section.esr_factor_minus20, atMinus40: section.esr_factor_minus40 },
    delayed: delayedBranches(capacitance_F, section.delayed_share, section.delayed_hours),
    leakage_A,
    leakageEFold_V: leakage_law === 'exponential' ? leakage_e_fold_V : Number.POSITIVE_INFINITY,
    leakageDoubling_K: section.leakage_doubling_K,
  };
}
