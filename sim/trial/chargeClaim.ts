import { median } from 'simple-statistics';
import { FULL_SUN_W_M2, STANDARD_TEMPERATURE_DEG_C } from '../common/constants.ts';
import { fullSunCeiling } from '../lamp/fullSunCeiling.ts';
import type { LampParams } from '../lamp/params.ts';
import { storeCharge_C, storeEnergy_J } from '../lamp/store/step.ts';
import type { NightRow } from '../night/NightRow.ts';

/** A store counts as fully charged from this share of its full energy. */
export const FULLY_CHARGED = 0.9;

/** Evenings of one calendar month, over all years of the record. */
export interface ClaimMonth {
  month: number;
  evenings: number;
  /** Evenings on which the store was fully charged at dusk. */
  full: number;
  /** Energy above the floor at dusk over that of the full store, on the middle evening; NaN without evenings. */
  medianShare: number;
}

/** How often a store is fully charged at dusk. */
export interface ChargeClaim {
  /** Where full sun of 1000 W/m2 on a day of 25 degC fills the store to. */
  full_V: number;
  /** Energy above the floor there. */
  full_J: number;
  /** Hours of full sun from the floor to full, at the current the floor takes: small where the cell is large for the store. */
  fill_h: number;
  months: ClaimMonth[];
  /** The three dark months together: December to February, or June to August. */
  winter: Omit<ClaimMonth, 'month'>;
  year: Omit<ClaimMonth, 'month'>;
  /** Whether the store is fully charged on at least half of the evenings of every dark month, of some, or of none. */
  inWinter: 'holds' | 'in-part' | 'fails' | 'unknown';
  /** Calendar months in which it is on at least half of the evenings, and those the record has evenings of. */
  monthsHeld: number;
  monthsKnown: number;
}

/**
 * Tests the claim that a cell charges its store fully on an ordinary day, even in winter: counts the evenings on which
 * the store's energy above the floor is at dusk at least 90 percent of that of a store which full sun has filled to
 * the end, on a day of 25 degC and with the jar as warm as that sun makes it. An ordinary day is the middle one of a
 * month.
 *
 * in: lamp; nights, the ledger (those held only in part do not count); southern, whether the site lies south of the
 *   equator
 * out: counts by calendar month, and what they come to; 'unknown' where the record has no night of a dark month
 * source: common practice, no source (the claim)
 */
export function chargeClaim(lamp: LampParams, nights: readonly NightRow[], southern: boolean): ChargeClaim {
  const { store, driver } = lamp;
  const warm_degC = STANDARD_TEMPERATURE_DEG_C + lamp.jar.rise_K_per_W_m2 * FULL_SUN_W_M2;
  const { ceiling_V, atFloor_A } = fullSunCeiling(
    lamp,
    Number.isNaN(lamp.jar.fixed_degC) ? warm_degC : lamp.jar.fixed_degC,
  );
  const atFloor_J = storeEnergy_J(store, driver.floor_V);
  const full_J = storeEnergy_J(store, ceiling_V) - atFloor_J;
  const known = nights.filter((night) => night.complete && !Number.isNaN(night.storeDusk_V));
  const counted = (months: readonly number[]) => {
    const shares = known
      .filter(({ night }) => months.includes(Number(night.slice(5, 7))))
      .map(({ storeDusk_V }) => (storeEnergy_J(store, storeDusk_V) - atFloor_J) / full_J);
    return {
      evenings: shares.length,
      full: shares.filter((share) => share >= FULLY_CHARGED).length,
      medianShare: shares.length === 0 ? Number.NaN : median(shares),
    };
  };
  const all = Array.from({ length: 12 }, (_, k) => k + 1);
  const dark = southern ? [6, 7, 8] : [12, 1, 2];
  const months = all.map((month) => ({ month, ...counted([month]) }));
  const holds = (month: ClaimMonth) => month.evenings > 0 && month.full >= month.evenings / 2;
  const darkMonths = months.filter(({ month, evenings }) => dark.includes(month) && evenings > 0);
  const held = darkMonths.filter(holds).length;
  return {
    full_V: ceiling_V,
    full_J,
    fill_h: (storeCharge_C(store, ceiling_V) - storeCharge_C(store, driver.floor_V)) / atFloor_A / 3600,
    months,
    winter: counted(dark),
    year: counted(all),
    inWinter:
      darkMonths.length === 0
        ? 'unknown'
        : held === darkMonths.length
          ? 'holds'
          : held === 0
            ? 'fails'
            : 'in-part',
    monthsHeld: months.filter(holds).length,
    monthsKnown: months.filter(({ evenings }) => evenings > 0).length,
  };
}
