import { FULL_SUN_W_M2 } from '../common/constants.ts';
import { bisect } from '../common/numeric.ts';
import { fullSunReachable } from '../lamp/checkLamp.ts';
import type { LampParams } from '../lamp/params.ts';
import type { SettledSection } from '../lamp/schema.ts';
import { BENCH_DEG_C } from './benchMeters.ts';

/** A capacitor that its lamp would drive above its rated voltage, and what prevents it. */
export interface OverRating {
  /** In full sun on the bench. */
  reachable_V: number;
  rated_V: number;
  why: string;
  /** Changes to the scenario, each enough by itself. */
  changes: string[];
}

/** Outside, on the clear day that drives a cell highest. */
const COLD_DEG_C = -20;
/** A limiter begins below the rated voltage by what its slope adds at this share of the cell's current. */
const LIMITER_SHARE = 1.2;
const STEP_V = 0.05;
/** As the scenario has it. */
const MOST_IN_SERIES = 10;

/**
 * Whether full sun drives the capacitor of a lamp above its rated voltage at the bench, and what to change.
 *
 * in: lamp; section, its parts
 * out: undefined where it stays at or below the rated voltage
 * valid: steady light of 1000 W/m2, everything at 20 degC
 */
export function overRating(lamp: LampParams, section: SettledSection): OverRating | undefined {
  const { rated_V } = lamp.capacitor;
  const { reachable_V } = fullSunReachable(lamp, BENCH_DEG_C);
  if (reachable_V <= rated_V) return undefined;
  const changes = [limiterChange(lamp, section), cellChange(lamp), seriesChange(lamp, section)].filter(
    (change) => change !== undefined,
  );
  return {
    reachable_V,
    rated_V,
    why: `Full sun drives its capacitor to ${above(reachable_V)}, and it is rated ${rated_V.toFixed(2)} V: above that it swells and can burst. Connect nothing; change one of these first, then ask for the sheet again:`,
    changes: changes.length > 0 ? changes : ['a cell of less voltage, or more capacitors in series'],
  };
}

/**
 * A sentence on the clear cold day that drives the capacitor above its rated voltage, where a mild one does not;
 * undefined where none does.
 *
 * in: lamp, not over its rating at the bench
 * valid: steady light of 1000 W/m2, the jar as much warmer than -20 degC as that light makes it
 */
export function coldFlag(lamp: LampParams): string | undefined {
  const cold_V = coldReachable_V(lamp);
  const { rated_V } = lamp.capacitor;
  if (cold_V <= rated_V) return undefined;
  return `Full sun on a day of ${COLD_DEG_C} degC drives the capacitor to ${above(cold_V)}, and it is rated ${rated_V.toFixed(2)} V: where such days come, take a limiter.`;
}

function coldReachable_V(lamp: LampParams): number {
  const { fixed_degC, rise_K_per_W_m2 } = lamp.jar;
  const warmed_degC = COLD_DEG_C + FULL_SUN_W_M2 * rise_K_per_W_m2;
  return fullSunReachable(lamp, Number.isNaN(fixed_degC) ? warmed_degC : fixed_degC).reachable_V;
}

/** The highest it may come, on the bench and on that day: nothing is known of a leakage above the rated voltage. */
function highest_V(lamp: LampParams): number {
  const tight = { ...lamp, capacitor: { ...lamp.capacitor, leakage_A: 0 } };
  return Math.max(fullSunReachable(tight, BENCH_DEG_C).reachable_V, coldReachable_V(tight));
}

function limiterChange(lamp: LampParams, { capacitor: section }: SettledSection): string | undefined {
  const { capacitor, driver, cell } = lamp;
  const slope_ohm = section.limiter?.slope_ohm ?? 0.1;
  const most_V = capacitor.rated_V - LIMITER_SHARE * cell.photocurrent_A * slope_ohm;
  const at_V = Number((Math.floor(most_V / STEP_V) * STEP_V).toFixed(2));
  const limited = { ...lamp, capacitor: { ...capacitor, limiter_V: at_V, limiter_ohm: slope_ohm } };
  if (at_V <= driver.restart_V || highest_V(limited) > capacitor.rated_V) return undefined;
  const begins = section.limiter === undefined ? 'a limiter' : 'a limiter that begins lower';
  const heat_W = capacitor.rated_V * cell.photocurrent_A;
  return `${begins}, capacitor.limiter: { at_V: ${at_V} }; it must stand ${(cell.photocurrent_A * 1000).toPrecision(3)} mA, ${heat_W.toPrecision(2)} W of heat, for hours`;
}

function cellChange(lamp: LampParams): string | undefined {
  const { cell, capacitor, driver } = lamp;
  // Of fewer junctions, so that it moves less with the temperature too.
  const with_V = (openCircuit_V: number) => {
    const voltageTempco_V_per_K = (cell.voltageTempco_V_per_K * openCircuit_V) / cell.openCircuit_V;
    return { ...lamp, cell: { ...cell, openCircuit_V, voltageTempco_V_per_K } };
  };
  const most_V = bisect(
    (open_V) => capacitor.rated_V - highest_V(with_V(open_V)),
    0.1 * cell.openCircuit_V,
    cell.openCircuit_V,
  );
  const open_V = Math.floor((most_V ?? 0) * 10) / 10;
  if (open_V <= 0 || fullSunReachable(with_V(open_V), BENCH_DEG_C).reachable_V <= driver.restart_V)
    return undefined;
  return `a cell of at most ${open_V.toFixed(1)} V open circuit in full sun at 25 degC (this one has ${cell.openCircuit_V.toFixed(2)} V)`;
}

function seriesChange(lamp: LampParams, { capacitor }: SettledSection): string | undefined {
  const { rated_V } = lamp.capacitor;
  const each_V = rated_V / capacitor.series;
  const series = Math.ceil(highest_V(lamp) / each_V);
  if (series > MOST_IN_SERIES) return undefined;
  return `${series} capacitors in series, capacitor.series: ${series}, with balancing_kohm across each: rated ${(series * each_V).toFixed(2)} V together, but with ${capacitor.series === 1 ? `1/${series}` : `${capacitor.series}/${series}`} of the capacitance`;
}

/** Two decimals, rounded up, so that what is above a limit reads so. */
function above(value_V: number): string {
  return `${(Math.ceil(value_V * 100) / 100).toFixed(2)} V`;
}
