import type { CapacitorParams } from '../lamp/capacitor/params.ts';
import { capacitorCharge_C, capacitorVoltage_V } from '../lamp/capacitor/step.ts';
import type { LampParams } from '../lamp/params.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { ChargingCurve } from '../year/ChargingCurve.ts';
import { keptHours } from '../year/circuitHours.ts';
import type { NightStretch } from '../year/simulateYear.ts';
import type { LitNights } from './LitNights.ts';

const HOUR_S = 3600;
/** Of each night, from noon to noon: half of them before its middle. */
export const PARTS = 4;
/** From 0 V to the highest voltage. */
const LEVELS = 40;
/** How near to a level the curve is read, volts: the rest is its slope. */
const NEAR_V = 1e-3;
const MOST_LOOKS = 6;
/** Above rounding to 32 bits and what reading near a level leaves. */
const SURE = 1 + 1e-5;

/** What a cell behind its diode charges in parts of days into a capacitor that is held at a voltage, at most. */
export interface DayCharges {
  /** Voltage that nothing charged by it exceeds, and its most current. */
  highest_V: number;
  most_A: number;
  /** Most current of 1 W/m2. */
  most_A_W_m2: number;
  step_V: number;
  /** By night, part and level: coulombs at the level, and what they change by to the next, coulombs a volt, 0 or less. */
  charge_C: Float32Array;
  slope_F: Float32Array;
}

/**
 * The charge tables of a cell and its diode in the light of a spot.
 *
 * The current falls with the voltage, bent downwards at first, upwards where the diode closes: between two levels it lies
 * below the greater of its tangent at the lower one and its chord.
 *
 * in: lamp, of which only cell, diode and jar count; light, the spot's; nights; stretch of them that tables are made of,
 *   while the most is that of all
 */
export function dayCharges(
  lamp: LampParams,
  light: SpotLight,
  nights: Pick<LitNights, 'count' | 'noon_s'>,
  { first, end }: NightStretch,
): DayCharges {
  const { planeOfArray_W_m2, count } = light;
  const curve = new ChargingCurve(lamp);
  const { hours } = keptHours(lamp, light);
  const most = { highest_V: 0, most_A: 0, most_A_W_m2: 0 };
  for (let hour = 0; hour < count; hour++) {
    if (!(planeOfArray_W_m2[hour]! > 0)) continue;
    curve.setHour(hours, hour);
    most.highest_V = Math.max(most.highest_V, curve.highest_V);
    most.most_A = Math.max(most.most_A, curve.photocurrent_A);
    most.most_A_W_m2 = Math.max(most.most_A_W_m2, curve.photocurrent_A / planeOfArray_W_m2[hour]!);
  }
  const step_V = most.highest_V / (LEVELS - 1);
  const charge_C = new Float32Array(nights.count * PARTS * LEVELS);
  const slope_F = new Float32Array(nights.count * PARTS * LEVELS);
  const levels = new HourLevels(curve, step_V);
  for (let night = first; night < end; night++) {
    for (const { hour, lasts_s, part } of litHours(nights, night, planeOfArray_W_m2)) {
      levels.read(hours, hour);
      const row = (night * PARTS + part) * LEVELS;
      for (let k = 0; k < levels.charging; k++) {
        charge_C[row + k]! += SURE * lasts_s * levels.current_A[k]!;
        slope_F[row + k]! += (lasts_s * levels.slope_S[k]!) / SURE;
      }
    }
  }
  return { ...most, step_V, charge_C, slope_F };
}

/** Hours with light of a night from noon to noon, and of which part they are: the parts of each half have as many hours. */
function litHours({ noon_s }: Pick<LitNights, 'noon_s'>, night: number, light_W_m2: Float64Array) {
  const middle_s = (noon_s[night]! + noon_s[night + 1]!) / 2;
  const lit: { hour: number; lasts_s: number; part: number }[] = [];
  let evening = 0;
  for (let at_s = noon_s[night]!; at_s < noon_s[night + 1]!; ) {
    const number = Math.floor(at_s / HOUR_S + 1e-12);
    const until_s = Math.min((number + 1) * HOUR_S, noon_s[night + 1]!);
    const hour = number % light_W_m2.length;
    if (light_W_m2[hour]! > 0) {
      lit.push({ hour, lasts_s: until_s - at_s, part: 0 });
      if (at_s < middle_s) evening++;
    }
    at_s = until_s;
  }
  for (let k = 0; k < lit.length; k++) {
    const share = k < evening ? k / evening : 1 + (k - evening) / (lit.length - evening);
    lit[k]!.part = Math.floor((PARTS / 2) * share);
  }
  return lit;
}

/** The current of one hour at each level, and the slope of a line above it up to the next. */
class HourLevels {
  readonly current_A = new Float64Array(LEVELS);
  readonly slope_S = new Float64Array(LEVELS);
  /** Levels from 0 V up into which it gives something. */
  charging = 0;
  private readonly curve: ChargingCurve;
  private readonly step_V: number;

  constructor(curve: ChargingCurve, step_V: number) {
    this.curve = curve;
    this.step_V = step_V;
  }

  read(hours: Float64Array, hour: number): void {
    const { curve, current_A, slope_S, step_V } = this;
    curve.setHour(hours, hour);
    curve.in_A = curve.photocurrent_A;
    curve.junction_V = 0.2;
    let k = 0;
    for (; k < LEVELS && k * step_V < curve.highest_V; k++) {
      current_A[k] = this.at(k * step_V);
      if (!(current_A[k]! > 0)) break;
      slope_S[k] = curve.slope;
    }
    this.charging = k;
    current_A.fill(0, k);
    for (k = 0; k < Math.min(this.charging, LEVELS - 1); k++)
      slope_S[k] = Math.max(slope_S[k]!, (current_A[k + 1]! - current_A[k]!) / step_V);
  }

  /** Current at a level, a little more for what the curve is read beside it; its slope is the curve's. */
  private at(level_V: number): number {
    const { curve } = this;
    curve.target_V = level_V;
    curve.near_V = NEAR_V;
    for (let looks = 0; looks < MOST_LOOKS; looks++) {
      curve.look();
      if (Math.abs(curve.at_V - level_V) <= NEAR_V) break;
    }
    const off_V = level_V - curve.at_V;
    return Math.max(0, curve.in_A + curve.slope * off_V);
  }
}

/**
 * Highest voltage to which a part of a day can bring a capacitor.
 *
 * However the light of the part follows, no more is charged than brings the capacitor to some level, and what all of the
 * part gives at that level.
 *
 * in: charges; part, its number among all; from_V; capacitor, whose delayed branches take nothing
 * out: volts
 */
export function chargedTo(
  charges: DayCharges,
  part: number,
  from_V: number,
  capacitor: CapacitorParams,
): number {
  const { highest_V, step_V, charge_C, slope_F } = charges;
  if (from_V >= highest_V) return from_V;
  const row = part * LEVELS;
  if (charge_C[row] === 0) return from_V;
  const level = Math.floor(from_V / step_V);
  const over_V = from_V - level * step_V;
  const from_C = capacitorCharge_C(capacitor, from_V);
  let most_C = from_C + Math.max(0, charge_C[row + level]! + slope_F[row + level]! * over_V);
  for (let k = level + 1; k < LEVELS; k++) {
    const level_C = capacitorCharge_C(capacitor, k * step_V);
    if (level_C >= most_C) break;
    most_C = Math.min(most_C, level_C + charge_C[row + k]!);
  }
  return Math.min(capacitorVoltage_V(capacitor, most_C), highest_V);
}
