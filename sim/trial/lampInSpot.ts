import { compensatedSum } from '../common/compensatedSum.ts';
import type { LampParams } from '../lamp/params.ts';
import { storeEnergy_J } from '../lamp/store/step.ts';
import { type ChargeClaim, FULLY_CHARGED } from './chargeClaim.ts';
import type { Trial } from './Trial.ts';

/** What a lamp makes of the light of its spot in the two darkest months. Shares are 0 to 1. */
export interface LampInSpot {
  /** Hours with at least 1 W/m2 on the cell. */
  daylight_h: number;
  /** Of these: the ceiling stayed below the driver's floor. */
  ceilingBelowFloor_h: number;
  /** Of these: the store stood above the ceiling all hour, so that nothing could flow in, and was not fully charged. */
  ceilingBelowStore_h: number;
  /**
   * Of the energy the cell could give at its best point: what stayed untaken because the store stood too high for the
   * light, in hours so dim that they could not have filled it however long they lasted.
   */
  untakenDimShare: number;
  /** Of the energy that came from the cell: what leaked away. */
  leakageShare: number;
}

const HOUR_MS = 3_600_000;
const LEAST_LIGHT_W_M2 = 1;

/**
 * How far dim light and leakage limit a lamp in December and January (June and July south of the equator).
 *
 * in: trial; lamp, its parameters; claim, for when its store is fully charged; southern
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
  const { store, driver } = lamp;
  const months = southern ? [6, 7] : [12, 1];
  const hours: number[] = [];
  for (let i = 0; i < light.count; i++) {
    if (months.includes(new Date(light.start_ms + i * HOUR_MS).getUTCMonth() + 1)) hours.push(i);
  }
  const atFloor_J = storeEnergy_J(store, driver.floor_V);
  const isShort = (volts: number) => storeEnergy_J(store, volts) - atFloor_J < FULLY_CHARGED * claim.full_J;
  const short = (i: number) => isShort(columns.storeEnd_V[i]!);
  const dim = (i: number) => isShort(columns.ceiling_V[i]!) && short(i);
  const lit = hours.filter((i) => light.onCell_W_m2[i]! >= LEAST_LIGHT_W_M2);
  const sum = (column: Float64Array, over: readonly number[]) => compensatedSum(over.map((i) => column[i]!));
  const none = hours.length === 0;
  return {
    daylight_h: none ? Number.NaN : lit.length,
    ceilingBelowFloor_h: none ? Number.NaN : lit.filter((i) => columns.ceiling_V[i]! < driver.floor_V).length,
    ceilingBelowStore_h: none
      ? Number.NaN
      : lit.filter((i) => columns.ceiling_V[i]! < columns.storeLowest_V[i]! && short(i)).length,
    untakenDimShare: sum(columns.untakenHigh_J, hours.filter(dim)) / sum(columns.cellBest_J, hours),
    leakageShare: sum(columns.leakage_J, hours) / sum(columns.cell_J, hours),
  };
}
