import { median } from 'simple-statistics';
import { FULL_SUN_W_M2, STANDARD_TEMPERATURE_DEG_C } from '../common/constants.ts';
import { capacitorCharge_C, capacitorEnergy_J } from '../lamp/capacitor/step.ts';
import { fullSunReachable } from '../lamp/checkLamp.ts';
import type { LampParams } from '../lamp/params.ts';
import type { NightRow } from '../night/nightLedger.ts';

/** A capacitor counts as fully charged from this share of its full energy. */
export const FULLY_CHARGED = 0.9;

/** Evenings of one calendar month, over all years of the record. */
export interface ClaimMonth {
  month: number;
  evenings: number;
  /** Evenings on which the capacitor was fully charged at dusk. */
  full: number;
  /** Energy above the cut-off at dusk over that of the full capacitor, on the middle evening; NaN without evenings. */
  medianShare: number;
}

/** How often a capacitor is fully charged at dusk. */
export interface ChargeClaim {
  /** Where full sun of 1000 W/m2 on a day of 25 degC fills the capacitor to. */
  full_V: number;
  /** Energy above the cut-off there. */
  full_J: number;
  /** Hours of full sun from the cut-off to full, at the current the cut-off takes: small where the cell is large for the capacitor. */
  fill_h: number;
  months: ClaimMonth[];
  /** The three dark months together: December to February, or June to August. */
  winter: Omit<ClaimMonth, 'month'>;
  year: Omit<ClaimMonth, 'month'>;
  /** Whether the capacitor is fully charged on at least half of the evenings of every dark month, of some, or of none. */
  inWinter: 'holds' | 'in-part' | 'fails' | 'unknown';
  /** Calendar months in which it is on at least half of the evenings, and those the record has evenings of. */
  monthsHeld: number;
  monthsKnown: number;
}

/**
 * Tests the claim that a cell charges its capacitor fully on an ordinary day, even in winter: counts the evenings on which
 * the capacitor's energy above the cut-off is at dusk at least 90 percent of that of a capacitor which full sun has filled to
 * the end, on a day of 25 degC and with the jar as warm as that sun makes it. An ordinary day is the middle one of a
 * month.
 *
 * in: lamp; nights, the ledger (those held only in part do not count); southern, whether the site lies south of the
 *   equator
 * out: counts by calendar month, and what they come to; 'unknown' where the record has no night of a dark month
 * source: common practice, no source (the claim)
 */
export function chargeClaim(lamp: LampParams, nights: readonly NightRow[], southern: boolean): ChargeClaim {
  const { capacitor, driver } = lamp;
  const warm_degC = STANDARD_TEMPERATURE_DEG_C + lamp.jar.rise_K_per_W_m2 * FULL_SUN_W_M2;
  const { reachable_V, atCutoff_A } = fullSunReachable(
    lamp,
    Number.isNaN(lamp.jar.fixed_degC) ? warm_degC : lamp.jar.fixed_degC,
  );
  const atCutoff_J = capacitorEnergy_J(capacitor, driver.cutoff_V);
  const full_J = capacitorEnergy_J(capacitor, reachable_V) - atCutoff_J;
  const known = nights.filter((night) => night.complete && !Number.isNaN(night.capacitorDusk_V));
  const counted = (months: readonly number[]) => {
    const shares = known
      .filter(({ night }) => months.includes(Number(night.slice(5, 7))))
      .map(({ capacitorDusk_V }) => (capacitorEnergy_J(capacitor, capacitorDusk_V) - atCutoff_J) / full_J);
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
    full_V: reachable_V,
    full_J,
    fill_h:
      (capacitorCharge_C(capacitor, reachable_V) - capacitorCharge_C(capacitor, driver.cutoff_V)) /
      atCutoff_A /
      3600,
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
