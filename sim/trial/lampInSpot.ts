import { compensatedSum } from '../common/numeric.ts';
import { HOUR_MS } from '../common/time.ts';
import { capacitorEnergy_J } from '../lamp/capacitor/step.ts';
import type { LampParams } from '../lamp/params.ts';
import { type ChargeClaim, FULLY_CHARGED } from './chargeClaim.ts';
import type { Trial } from './Trial.ts';

/** What a lamp makes of the light of its spot in the two darkest months. Shares are 0 to 1. */
export interface LampInSpot {
  /** Hours with at least 1 W/m2 on the cell. */
  daylight_h: number;
  /** Of these: the reachable voltage stayed below the driver's cut-off. */
  reachableBelowCutoff_h: number;
  /** Of these: the capacitor stood above the reachable voltage all hour, so that nothing could flow in, and was not fully charged. */
  reachableBelowCapacitor_h: number;
  /**
   * Of the energy the cell could give at its best point: what stayed unharvested because the capacitor stood too high for the
   * light, in hours so dim that they could not have filled it however long they lasted.
   */
  unharvestedShare: number;
  /** Of the energy that came from the cell: what leaked away. */
  leakageShare: number;
}

const LEAST_LIGHT_W_M2 = 1;

/**
 * How far dim light and leakage limit a lamp in December and January (June and July south of the equator).
 *
 * in: trial; lamp, its parameters; claim, for when its capacitor is fully charged; southern
 * out: hours and shares; NaN where the record has no such month or no light in it
 */
export function lampInSpot(
  trial: Trial,
  lamp: LampParams,
  claim: ChargeClaim,
  southern: boolean,
): LampInSpot {
  const { light, year } = trial;
  const { columns } = year;
  const { capacitor, driver } = lamp;
  const months = southern ? [6, 7] : [12, 1];
  const hours: number[] = [];
  for (let i = 0; i < light.count; i++) {
    if (months.includes(new Date(light.start_ms + i * HOUR_MS).getUTCMonth() + 1)) hours.push(i);
  }
  const atCutoff_J = capacitorEnergy_J(capacitor, driver.cutoff_V);
  const isShort = (volts: number) =>
    capacitorEnergy_J(capacitor, volts) - atCutoff_J < FULLY_CHARGED * claim.full_J;
  const short = (i: number) => isShort(columns.capacitorEnd_V[i]!);
  const dim = (i: number) => isShort(columns.reachable_V[i]!) && short(i);
  const lit = hours.filter((i) => light.planeOfArray_W_m2[i]! >= LEAST_LIGHT_W_M2);
  const sum = (column: Float64Array, over: readonly number[]) => compensatedSum(over.map((i) => column[i]!));
  const none = hours.length === 0;
  return {
    daylight_h: none ? Number.NaN : lit.length,
    reachableBelowCutoff_h: none
      ? Number.NaN
      : lit.filter((i) => columns.reachable_V[i]! < driver.cutoff_V).length,
    reachableBelowCapacitor_h: none
      ? Number.NaN
      : lit.filter((i) => columns.reachable_V[i]! < columns.capacitorLowest_V[i]! && short(i)).length,
    unharvestedShare: sum(columns.unharvestedHigh_J, hours.filter(dim)) / sum(columns.cellBest_J, hours),
    leakageShare: sum(columns.leakage_J, hours) / sum(columns.cell_J, hours),
  };
}
