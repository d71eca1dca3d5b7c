import { exp } from '../common/elementary/exp.ts';
import type { LampParams } from '../lamp/params.ts';
import { ChargingCurve } from './ChargingCurve.ts';
import { HOUR_COLUMNS } from './circuitHours.ts';
import { ParasiticLoads } from './ParasiticLoads.ts';

/** The cell's best point in each hour; 0 in the dark. */
interface BestPoints {
  /** Most power, and the cell's voltage there. */
  bestPower_W: Float64Array;
  best_V: Float64Array;
}

/** What the cell could do in each hour, whatever the capacitor's voltage; 0 in the dark. */
export interface HourLimits extends BestPoints {
  /** Capacitor voltage at which what the cell gives equals leakage and standby. */
  reachable_V: Float64Array;
}

/** What Newton leaves of a change is its square, and power is flat at its best point. */
const BEST_V = 5e-3;

/**
 * The limits of all hours of a record.
 *
 * in: lamp; hours, as `circuitHours` makes them
 * valid: power to 1e-7 of itself; the reachable voltage to microvolts
 * source: DeSoto2006, Shockley1949
 */
export function hourLimits(lamp: LampParams, hours: Float64Array): HourLimits {
  const reachable = new Float64Array(hours.length / HOUR_COLUMNS);
  const curve = new ChargingCurve(lamp);
  const drains = new ParasiticLoads(lamp);
  for (let hour = 0; hour < reachable.length; hour++) {
    curve.setHour(hours, hour);
    if (curve.photocurrent_A === 0) continue;
    drains.warming = curve.warming;
    reachable[hour] = reachable_V(curve, drains, lamp.driver.standby_A);
  }
  const best = made.get(hours) ?? bestPoints(curve, lamp.cell.series_ohm, hours);
  made.set(hours, best);
  return { bestPower_W: best.bestPower_W, best_V: best.best_V, reachable_V: reachable };
}

/** The cell's best points, by the hours that are made for its light. */
const made = new WeakMap<Float64Array, BestPoints>();

function bestPoints(curve: ChargingCurve, series_ohm: number, hours: Float64Array): BestPoints {
  const length = hours.length / HOUR_COLUMNS;
  const best = { bestPower_W: new Float64Array(length), best_V: new Float64Array(length) };
  // What the last light had in proportion is near.
  let share = 0.85;
  for (let hour = 0; hour < length; hour++) {
    curve.setHour(hours, hour);
    if (curve.photocurrent_A === 0) continue;
    const open_V = curve.highest_V;
    const u = bestJunction_V(curve, open_V, series_ohm, share * open_V);
    share = u / open_V;
    const current_A = cellCurrent_A(curve, u);
    best.best_V[hour] = u - series_ohm * current_A;
    best.bestPower_W[hour] = current_A * best.best_V[hour]!;
  }
  return best;
}

function cellCurrent_A(
  { photocurrent_A, cellSaturation_A, cellThermal_V, shunt_S }: ChargingCurve,
  u: number,
) {
  return photocurrent_A + cellSaturation_A - cellSaturation_A * exp(u / cellThermal_V) - shunt_S * u;
}

/**
 * Voltage of the cell's junction at its best point: where f is the current and f' its slope there, power (u - f rs) f is
 * greatest at f + f' (u - 2 f rs) = 0.
 */
function bestJunction_V(curve: ChargingCurve, open_V: number, rs: number, guess_V: number): number {
  const { photocurrent_A, cellSaturation_A, cellThermal_V: a, shunt_S } = curve;
  let low = 0;
  let high = open_V;
  let u = guess_V;
  for (let round = 0; round < 60; round++) {
    const M = cellSaturation_A * exp(u / a);
    const current = photocurrent_A + cellSaturation_A - M - shunt_S * u;
    const fall = -(M / a + shunt_S);
    const lever = u - 2 * current * rs;
    const slope = current + fall * lever;
    // Power rises to its one best point and falls after it: a step that leaves the bracket is halved instead.
    if (slope > 0) low = u;
    else high = u;
    const next = u - slope / (2 * fall - 2 * fall * fall * rs - (M / (a * a)) * lever);
    const change = (next > low && next < high ? next : 0.5 * (low + high)) - u;
    u += change;
    if (change < BEST_V && change > -BEST_V) break;
  }
  return u;
}

/** The leakage there is part of what holds the voltage down; two rounds settle it to microvolts. */
function reachable_V(curve: ChargingCurve, drains: ParasiticLoads, standby_A: number): number {
  const { photocurrent_A, cellThermal_V, shunt_S, ohm, highest_V: open_V } = curve;
  let found_V = open_V;
  for (let round = 0; round < 2; round++) {
    drains.main_V = found_V;
    drains.read();
    const drain_A = drains.leak_A + standby_A;
    if (photocurrent_A <= drain_A) return 0;
    const fall = (photocurrent_A - shunt_S * open_V) / cellThermal_V + shunt_S;
    curve.law_A = drain_A;
    curve.lawCell_V = Math.max(open_V - drain_A / fall, 0.5 * open_V);
    curve.readCellLaw();
    curve.lawDiode_V = curve.junction_V;
    curve.readDiodeLaw();
    found_V = Math.max(0, curve.lawCell_V - curve.lawDiode_V - ohm * drain_A);
  }
  return found_V;
}
