import { rounded } from '../common/Estimate.ts';
import { exp } from '../common/elementary/exp.ts';
import { power } from '../common/elementary/power.ts';
import { matrices } from '../common/matrices.ts';
import { square } from '../common/numeric.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import type { DischargeFacts, StatedFacts } from './dischargeFacts.ts';
import { type DischargeCurve, readDischarge } from './readDischarge.ts';

/** What a discharge curve says of its capacitor. */
export interface DischargeReport {
  file: string;
  facts: DischargeFacts;
  /** How the file was read, in words. */
  words: string[];
  /** Mean of dQ/dV from 0.8 to 0.4 of the rated voltage. */
  capacitance_F: number;
  /** Seconds between the two. */
  fall_s: number;
  /** From the drop as the current sets in; absent where the file begins later, or its steps are too coarse. */
  series?: { mohm: number; low_mohm: number; high_mohm: number };
  /** Share of the charge that came late, from the recovery after the load was taken off; absent without one. */
  delayed_share?: number;
  notes: string[];
  /** Keys for the capacitor of a scenario. */
  keys: { rated_V: number; capacitance_F: number; esr_mohm?: number; delayed_share?: number };
}

/** Timed between these shares of the rated voltage. source: IEC62391 */
const [UPPER, LOWER] = [0.8, 0.4];
/** Below this share of the highest voltage a discharge is on its way. */
const STEADY = 0.95;
/** The curve is drawn back to its start from between these shares of the time from 0.8 to 0.4. */
const [SETTLED, NEAR] = [0.01, 0.2];
/** Fewer rows than these show no drop. */
const LEAST_ROWS = 8;
/** A recovery that lasts less says nothing of charge that comes in hours. */
const LEAST_RECOVERY_S = 600;
/** Time constants of the delayed charge, halves of it, as a capacitor has them unless stated. */
const DELAYED_S = [1080, 10_800] as const;
/** More points than these tell no more. */
const MOST_POINTS = 3000;

/**
 * A capacitor from the curve of one discharge with a constant current or through a load resistor: capacitance, series
 * resistance from the first drop, and the delayed share where the load was taken off and the voltage came back.
 *
 * in: file, of a logger, as it is; said, facts that the user states, which win over the file's
 * out: values with how they were found
 * throws: what readDischarge throws
 * source: IEC62391 (charge from 0.8 to 0.4 of the rated voltage; the drop from the curve drawn back to its start)
 * departs: the curve is drawn back as a parabola, not a straight line, since capacitance rises with voltage
 */
export async function fitDischarge(file: NamedBytes, said: StatedFacts = {}): Promise<DischargeReport> {
  const curve = await readDischarge(file, said);
  const { rated_V, current_A, load_ohm } = curve;
  const fall = fallOf(curve);
  const notes: string[] = [];
  const drop = firstDrop(curve, fall);
  const series_ohm = drop === undefined ? 0 : drop.ohm;
  if (drop === undefined)
    notes.push(
      'the drop at the start is not in the file, or finer steps are needed to see it: the series resistance stays as it is',
    );
  // Through a resistor the drop shrinks with the current: inside, the voltage falls by so much more.
  const inside = load_ohm === undefined ? 1 : 1 + series_ohm / load_ohm;
  const capacitance_F = fall.charge_C / ((UPPER - LOWER) * rated_V * inside);
  const delayed_share = delayedShare(curve, drop?.at ?? 0, series_ohm, capacitance_F);
  if (delayed_share === undefined)
    notes.push(
      'the file ends with the discharge: the delayed share shows only in the hour after the load is taken off',
    );
  return {
    file: curve.file,
    facts: { rated_V, ...(current_A === undefined ? { load_ohm: load_ohm! } : { current_A }) },
    words: curve.words,
    capacitance_F,
    fall_s: fall.seconds,
    ...(drop === undefined
      ? {}
      : {
          series: { mohm: drop.ohm * 1000, low_mohm: drop.low_ohm * 1000, high_mohm: drop.high_ohm * 1000 },
        }),
    ...(delayed_share === undefined ? {} : { delayed_share }),
    notes,
    keys: {
      rated_V,
      ...rounded({ capacitance_F }),
      ...(drop === undefined ? {} : { esr_mohm: Number((drop.ohm * 1000).toPrecision(3)) }),
      ...(delayed_share === undefined ? {} : { delayed_share: Number(delayed_share.toFixed(3)) }),
    },
  };
}

/** Current out of the capacitor at a voltage of its terminals. */
function current_A({ current_A: constant, load_ohm }: DischargeFacts, volts: number): number {
  return constant ?? volts / load_ohm!;
}

/** Charge and time from 0.8 to 0.4 of the rated voltage, and the first row below the upper of them. */
function fallOf(curve: DischargeCurve): { charge_C: number; seconds: number; upper: number } {
  const { volts, time_s, rated_V } = curve;
  const highest = volts.indexOf(volts.reduce((most, value) => Math.max(most, value), 0));
  const [upper, lower] = [UPPER, LOWER].map((share) => crossing(curve, share * rated_V, highest)) as [
    ReturnType<typeof crossing>,
    ReturnType<typeof crossing>,
  ];
  const at = (i: number): number => current_A(curve, volts[i]!);
  let charge_C =
    ((current_A(curve, UPPER * rated_V) + at(upper.row)) / 2) * (time_s[upper.row]! - upper.time_s);
  for (let i = upper.row; i + 1 < lower.row; i++)
    charge_C += ((at(i) + at(i + 1)) / 2) * (time_s[i + 1]! - time_s[i]!);
  const last = lower.row - 1;
  charge_C += ((at(last) + current_A(curve, LOWER * rated_V)) / 2) * (lower.time_s - time_s[last]!);
  return { charge_C, seconds: lower.time_s - upper.time_s, upper: upper.row };
}

/**
 * When the voltage passes a level on its way down: a line through the rows around it, as far as the voltmeter's noise
 * is below that; and the first row after it.
 */
function crossing({ volts, time_s, rated_V }: DischargeCurve, level_V: number, from: number) {
  const first = volts.findIndex((value, i) => i > from && value <= level_V);
  const near: number[] = [];
  for (let i = Math.max(from, first - 200); i < Math.min(volts.length, first + 200); i++)
    if (Math.abs(volts[i]! - level_V) < 0.01 * rated_V) near.push(i);
  if (near.length < 4) {
    const [a, b] = [first - 1, first];
    const part = (volts[a]! - level_V) / (volts[a]! - volts[b]!);
    return { time_s: time_s[a]! + part * (time_s[b]! - time_s[a]!), row: first };
  }
  const mean = (of: (i: number) => number) => near.reduce((sum, i) => sum + of(i), 0) / near.length;
  const [middle_s, middle_V] = [mean((i) => time_s[i]!), mean((i) => volts[i]!)];
  const spread_s2 = mean((i) => square(time_s[i]! - middle_s));
  const slope_V_s = mean((i) => (time_s[i]! - middle_s) * (volts[i]! - middle_V)) / spread_s2;
  const crossed_s = middle_s + (level_V - middle_V) / slope_V_s;
  return { time_s: crossed_s, row: time_s.findIndex((time) => time > crossed_s) };
}

/** The drop as the current sets in, over the current: what the curve, drawn back, misses of the last row before it. */
function firstDrop(curve: DischargeCurve, { upper, seconds }: ReturnType<typeof fallOf>) {
  const { volts, time_s, rated_V } = curve;
  const highest_V = volts.reduce((most, value) => Math.max(most, value), 0);
  const from = volts.findIndex((value, i) => value <= STEADY * highest_V && isFallingFrom(volts, i));
  const steady = drawnThrough(
    curve,
    spread(
      from,
      volts.findIndex((value, i) => i > upper && value <= rated_V / 2),
    ),
    1,
  );
  if (steady === undefined || highest_V < 0.9 * rated_V) return undefined;
  // Before the current sets in the voltage stays, and the line drawn back rises above it: the row that stands highest
  // over the line is the last one before.
  let at = from;
  for (let i = from; i >= 0; i--) if (steady.miss_V(i) > steady.miss_V(at)) at = i;
  const near = Array.from(time_s.keys()).filter((i) => {
    const since_s = time_s[i]! - time_s[at]!;
    return since_s >= SETTLED * seconds && since_s <= NEAR * seconds;
  });
  const start = drawnThrough(curve, near, 2);
  if (start === undefined) return undefined;
  // The current set in somewhere between this row and the next.
  const within_V = start.drawn_V(at) - start.drawn_V(at + 1);
  const [low_V, high_V] = [
    start.miss_V(at) - 2 * start.noise_V,
    start.miss_V(at) + within_V + 2 * start.noise_V,
  ];
  if (low_V <= 0 || high_V > 3 * low_V) return undefined;
  const amperes = current_A(curve, start.drawn_V(at));
  const ohm = (start.miss_V(at) + within_V / 2) / amperes;
  return { at, ohm, low_ohm: low_V / amperes, high_ohm: high_V / amperes };
}

/** A polynomial through the voltages of some rows, and what others miss of it; undefined for too few rows. */
function drawnThrough({ volts, time_s }: DischargeCurve, rows: readonly number[], degree: number) {
  if (rows.length < LEAST_ROWS) return undefined;
  const origin_s = time_s[rows[0]!]!;
  const powers = (i: number) => Array.from({ length: degree + 1 }, (_, k) => power(time_s[i]! - origin_s, k));
  const factors = closestSum(
    rows.map(powers),
    rows.map((i) => volts[i]!),
  );
  const drawn_V = (i: number) => powers(i).reduce((sum, power, k) => sum + power * factors[k]!, 0);
  const miss_V = (i: number) => volts[i]! - drawn_V(i);
  const noise_V = Math.sqrt(rows.reduce((sum, i) => sum + square(miss_V(i)), 0) / rows.length);
  return { drawn_V, miss_V, noise_V };
}

/** Whether a voltage comes down to half of what it is without rising above it again. */
function isFallingFrom(volts: Float64Array, row: number): boolean {
  const here_V = volts[row]!;
  for (let i = row + 1; i < volts.length; i++) {
    if (volts[i]! > here_V * 1.005) return false;
    if (volts[i]! < here_V / 2) return true;
  }
  return false;
}

/** Rows from one to before another, some thousands of them at most. */
function spread(from: number, to: number): number[] {
  const step = Math.max(1, (to - from) / MOST_POINTS);
  return Array.from(
    { length: Math.max(0, Math.floor((to - from) / step)) },
    (_, k) => from + Math.floor(k * step),
  );
}

/**
 * The share of the charge that comes late: least squares of the charge that is gone over capacitance, its rise and two
 * delayed halves, each following the voltage inside at its own pace, from the start to the end of the recovery.
 */
function delayedShare(
  curve: DischargeCurve,
  start: number,
  series_ohm: number,
  capacitance_F: number,
): number | undefined {
  const { volts, time_s } = curve;
  let lowest = start;
  for (let i = start; i < volts.length; i++) if (volts[i]! < volts[lowest]!) lowest = i;
  const end = volts.length - 1;
  const rise_V = volts[end]! - volts[lowest]!;
  if (time_s[end]! - time_s[lowest]! < LEAST_RECOVERY_S || rise_V < 0.005 * curve.rated_V) return undefined;
  const rows: number[][] = [];
  const gone_C: number[] = [];
  const late_V = DELAYED_S.map(() => volts[start]!);
  let charge_C = 0;
  for (let i = start + 1; i <= end; i++) {
    const step_s = time_s[i]! - time_s[i - 1]!;
    const amperes = i > lowest ? 0 : current_A(curve, volts[i]!);
    charge_C += amperes * step_s;
    const inside_V = volts[i]! + amperes * series_ohm;
    DELAYED_S.forEach((tau_s, k) => {
      late_V[k] = inside_V + (late_V[k]! - inside_V) * exp(-step_s / tau_s);
    });
    const begun_V = volts[start]!;
    const late = late_V.reduce((sum, value) => sum + (begun_V - value) / DELAYED_S.length, 0);
    rows.push([begun_V - inside_V, (square(begun_V) - square(inside_V)) / 2, late]);
    gone_C.push(charge_C);
  }
  const some = spread(0, rows.length);
  const factors = closestSum(
    some.map((i) => rows[i]!),
    some.map((i) => gone_C[i]!),
  );
  return Math.max(0, factors[2]! / capacitance_F);
}

/** The factors of a few terms whose sums come closest to what was measured. in: rows, the terms of each measurement */
function closestSum(rows: number[][], measured: number[]): number[] {
  const { Matrix, solve } = matrices();
  return solve(new Matrix(rows), Matrix.columnVector(measured), true).to1DArray();
}
