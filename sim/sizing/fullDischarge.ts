import { bisectRight } from 'd3-array';
import { LitLoad } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';

/** What a lamp does at most from one charge, from the highest voltage that it can have down to its cut-off, never charged. */
export interface FullDischarge {
  /** Voltage of the first row, and what the others are lower by, one after the other. */
  highest_V: number;
  step_V: number;
  /** From row to row: seconds at full light since the beginning, and lumen seconds given in them. */
  seconds: Float64Array;
  light_lm_s: Float64Array;
  /** Most light, and least current of the driver at full light. */
  most_lm: number;
  least_A: number;
  /** Seconds after which too little light is left. in: least_lm, enough light; Infinity where more voltage may give too little */
  enoughFor_s: (least_lm: number) => number;
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
  const rows = knownRows(lamp, first, last);
  const rising = runningMost(rows.light_lm);
  const seconds = new Float64Array(last - first + 1);
  const light_lm_s = new Float64Array(last - first + 1);
  const delayed_F = capacitor.delayed.reduce((sum, { capacitance_F }) => sum + capacitance_F, 0);
  for (let down = 1; down < seconds.length; down++) {
    const upper = last - first - down + 1;
    const upper_V = (first + upper) * step_V;
    const least_A = Math.min(rows.current_A[upper]!, rows.current_A[upper - 1]!);
    const charge_C = step_V * (capacitor.capacitance_F + capacitor.rise_F_V * upper_V + delayed_F);
    const lasts_s = charge_C / least_A;
    seconds[down] = seconds[down - 1]! + lasts_s;
    light_lm_s[down] = light_lm_s[down - 1]! + rising[upper]! * lasts_s;
  }
  return {
    highest_V: last * step_V,
    step_V,
    seconds,
    light_lm_s,
    most_lm: rising.at(-1)!,
    least_A: rows.current_A.reduce((least, current) => Math.min(least, current), Number.POSITIVE_INFINITY),
    enoughFor_s: (least_lm) => {
      const enough = rows.light_lm.findIndex((light) => light >= least_lm);
      if (enough < 0) return 0;
      const stays = rows.lessLight_lm.subarray(enough + NEAR_ROWS).every((light) => light >= least_lm);
      return stays
        ? seconds[Math.min(last - first - enough + 1, seconds.length - 1)]!
        : Number.POSITIVE_INFINITY;
    },
  };
}

/** A full lamp's discharge, from a voltage on. */
export class Discharge {
  private readonly full: FullDischarge;
  /** Row, with its fraction. */
  private place = 0;
  /** Seconds at full light and lumen seconds since the lamp was full. */
  now_s = 0;
  private light_lm_s = 0;

  constructor(full: FullDischarge) {
    this.full = full;
  }

  get volts(): number {
    return this.full.highest_V - this.place * this.full.step_V;
  }

  /** Below the cut-off it stands at the last row, from which nothing is given. */
  from(volts: number): void {
    const { highest_V, step_V, seconds, light_lm_s } = this.full;
    this.place = Math.min(Math.max(0, (highest_V - volts) / step_V), seconds.length - 1);
    this.now_s = between(seconds, this.place);
    this.light_lm_s = between(light_lm_s, this.place);
  }

  /** Lumen seconds of some seconds at full light. */
  light(lit_s: number): number {
    const { seconds, light_lm_s } = this.full;
    const last = seconds.length - 1;
    const [before_lm_s, until_s] = [this.light_lm_s, this.now_s + lit_s];
    const row = bisectRight(seconds, until_s, Math.floor(this.place) + 1) - 1;
    this.place = row < last ? row + (until_s - seconds[row]!) / (seconds[row + 1]! - seconds[row]!) : last;
    this.now_s = between(seconds, this.place);
    this.light_lm_s = between(light_lm_s, this.place);
    return this.light_lm_s - before_lm_s;
  }
}

function between(rows: Float64Array, place: number): number {
  const row = Math.min(Math.floor(place), rows.length - 2);
  return rows[row]! + (place - row) * (rows[row + 1]! - rows[row]!);
}

const made = new WeakMap<LampParams, ReturnType<typeof rowsOf>>();

/** The rows of a lamp, kept with it and made again where they do not reach. */
function knownRows(lamp: LampParams, first: number, last: number) {
  const count = last - first + 1;
  const known = made.get(lamp);
  const rows = known !== undefined && known.light_lm.length >= count ? known : rowsOf(lamp, first, last);
  if (rows !== known) made.set(lamp, rows);
  const upTo = (column: Float64Array) => column.subarray(0, count);
  const { light_lm, lessLight_lm, current_A } = rows;
  return { light_lm: upTo(light_lm), lessLight_lm: upTo(lessLight_lm), current_A: upTo(current_A) };
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
      lit.terminal_V = main_V;
      lit.read();
      const here_A = lit.current_A;
      const terminal_V = main_V - ohm * here_A;
      lit.terminal_V = terminal_V;
      lit.read();
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
