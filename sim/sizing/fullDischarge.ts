import { capacitorEnergy_J } from '../lamp/capacitor/step.ts';
import { LitLoad } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';

/** What a lamp does at most from one charge, from the highest voltage that it can have down to its cut-off, never charged. */
export interface FullDischarge {
  /** From row to row: seconds at full light since the beginning, and lumen seconds given in them. */
  seconds: Float64Array;
  light_lm_s: Float64Array;
  /** Most light, and most of it for each watt that the driver draws. */
  most_lm: number;
  most_lm_W: number;
  /** Least current of the driver at full light. */
  least_A: number;
  /** Energy of the charge above the cut-off. */
  stored_J: number;
  /** Whether more voltage never leads from enough light to too little. in: least_lm */
  staysAbove: (least_lm: number) => boolean;
}

/**
 * The discharge of a full lamp, an upper bound of every other's light by any time: the driver draws the least that it may
 * in each row of its table and gives the most light; nothing leaks; the delayed branches follow at once.
 *
 * in: lamp; highest_V
 */
export function fullDischarge(lamp: LampParams, highest_V: number): FullDischarge {
  const { capacitor, load, driver } = lamp;
  const { step_V } = load;
  const first = Math.floor(driver.cutoff_V / step_V);
  const last = Math.max(Math.ceil(highest_V / step_V), first + 1);
  const rows = rowsOf(lamp, first, last);
  const rising = runningMost(rows.light_lm);
  const seconds = new Float64Array(last - first + 1);
  const light_lm_s = new Float64Array(last - first + 1);
  const delayed_F = capacitor.delayed.reduce((sum, { capacitance_F }) => sum + capacitance_F, 0);
  let most_lm_W = 0;
  for (let down = 1; down < seconds.length; down++) {
    const upper = last - first - down + 1;
    const upper_V = (first + upper) * step_V;
    const [least_A, most_lm] = [Math.min(rows.current_A[upper]!, rows.current_A[upper - 1]!), rising[upper]!];
    const charge_C = step_V * (capacitor.capacitance_F + capacitor.rise_F_V * upper_V + delayed_F);
    const lasts_s = charge_C / least_A;
    seconds[down] = seconds[down - 1]! + lasts_s;
    light_lm_s[down] = light_lm_s[down - 1]! + most_lm * lasts_s;
    const lowest_V = Math.max(upper_V - step_V, driver.cutoff_V);
    const brighter_lm = Math.max(rows.light_lm[upper]!, rows.light_lm[upper - 1]!);
    most_lm_W = Math.max(most_lm_W, brighter_lm / (lowest_V * least_A));
  }
  const above = (square: number, volts: number) => 0.5 * delayed_F * (square - volts * volts);
  return {
    seconds,
    light_lm_s,
    most_lm: rising.at(-1)!,
    most_lm_W,
    least_A: rows.current_A.reduce((least, current) => Math.min(least, current), Number.POSITIVE_INFINITY),
    stored_J:
      capacitorEnergy_J(capacitor, highest_V) -
      capacitorEnergy_J(capacitor, driver.cutoff_V) +
      above(highest_V * highest_V, driver.cutoff_V),
    staysAbove: (least_lm) => {
      const enough = rows.light_lm.findIndex((light) => light >= least_lm);
      return enough < 0 || rows.lessLight_lm.subarray(enough + NEAR_ROWS).every((light) => light >= least_lm);
    },
  };
}

/** Lumen seconds of a full lamp lit for some seconds at full light. */
export function lightWithin({ seconds, light_lm_s }: FullDischarge, lit_s: number): number {
  const last = seconds.length - 1;
  if (!(lit_s < seconds[last]!)) return light_lm_s[last]!;
  let [low, high] = [0, last];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (seconds[middle]! <= lit_s) low = middle;
    else high = middle;
  }
  const part = (lit_s - seconds[low]!) / (seconds[high]! - seconds[low]!);
  return light_lm_s[low]! + part * (light_lm_s[high]! - light_lm_s[low]!);
}

/** Most and least light, and least current, at each row of the load's table, on whichever side of a boost's boundary it may be. */
function rowsOf({ load, capacitor }: LampParams, first: number, last: number) {
  const lit = new LitLoad(load);
  const light_lm = new Float64Array(last - first + 1);
  const lessLight_lm = new Float64Array(last - first + 1).fill(Number.POSITIVE_INFINITY);
  const current_A = new Float64Array(last - first + 1).fill(Number.POSITIVE_INFINITY);
  // At the terminals, behind a resistance that grows in the cold, the driver sees a little less.
  const ohm = capacitor.series_ohm * Math.max(1, capacitor.seriesGrowth.atMinus40);
  for (let row = first; row <= last; row++) {
    const main_V = row * load.step_V;
    const k = row - first;
    for (const above of [false, true]) {
      const over_V = main_V - load.dcmBoundary_V;
      if (above ? over_V < -2 * load.step_V - BAND_V : over_V > 2 * load.step_V + BAND_V) continue;
      lit.setAbove(above);
      lit.at(main_V);
      const here_A = lit.current_A;
      const terminal_V = main_V - ohm * here_A;
      lit.at(terminal_V);
      light_lm[k] = Math.max(light_lm[k]!, lit.light_lm(main_V), lit.light_lm(terminal_V));
      lessLight_lm[k] = Math.min(lessLight_lm[k]!, lit.light_lm(main_V), lit.light_lm(terminal_V));
      current_A[k] = Math.min(current_A[k]!, here_A, lit.current_A);
    }
  }
  return { light_lm, lessLight_lm, current_A };
}

/** The terminals may be so many rows below the capacitor. */
const NEAR_ROWS = 3;
/** How far a boost may stay on one side of its boundary. */
const BAND_V = 0.02;

function runningMost(values: Float64Array): Float64Array {
  let most = 0;
  return values.map((value) => {
    most = Math.max(most, value);
    return most;
  });
}
