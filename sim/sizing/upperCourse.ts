import type { LampParams } from '../lamp/params.ts';
import type { NightStretch } from '../year/simulateYear.ts';
import { chargedTo, type DayCharges, PARTS } from './DayCharges.ts';
import { Discharge, type FullDischarge } from './fullDischarge.ts';
import type { LitNights } from './LitNights.ts';

/** What no run of a lamp exceeds in light, and the nights that every run fails. */
export interface UpperCourse {
  light_lm_h: number;
  /** 1 of a night that fails. */
  fails: Uint8Array;
}

interface Limits extends NightStretch {
  enough_s: number;
  allowed_s: number;
  highest_V: number;
}

/**
 * The course of a capacitor from day to day that stands, at each dusk and each dawn, at least as high as that of the lamp
 * in any run: charged by day as in `chargedTo`, drained by night as in `fullDischarge`, never by itself.
 *
 * in: lamp; nights; charges of its cell; full, its discharge; enough_s, seconds at full light after which a full lamp gives
 *   too little; allowed_s, that a night may be short without failing for sure; highest_V, that it begins with; first night
 *   and end of those looked at
 */
export function upperCourse(
  { capacitor, driver }: LampParams,
  nights: LitNights,
  charges: DayCharges,
  full: FullDischarge,
  { enough_s, allowed_s, highest_V, first, end }: Limits,
): UpperCourse {
  const { count, winter, dark_s, light_s, light_J_m2, promised_s, leastShare } = nights;
  const discharge = new Discharge(full);
  const fails = new Uint8Array(count);
  let light_lm_s = 0;
  let volts = highest_V;
  for (let night = first; night < end; night++) {
    for (let part = 0; part < PARTS / 2; part++)
      volts = Math.min(chargedTo(charges, night * PARTS + part, volts, capacitor), highest_V);
    if (light_J_m2[night]! > 0) {
      const whileLit_C = charges.most_A_W_m2 * light_J_m2[night]!;
      volts = Math.min(volts + whileLit_C / capacitor.capacitance_F, highest_V);
    }
    const dusk_V = volts;
    discharge.from(dusk_V);
    const lasts_s = (Math.max(0, enough_s - discharge.now_s) + light_s[night]!) / leastShare;
    const given_lm_s = discharge.light(dark_s[night]!) + full.most_lm * light_s[night]!;
    if (dusk_V > driver.cutoff_V) volts = Math.min(discharge.volts, dusk_V);
    // A lamp that had stopped before would have waited below its restart.
    volts = Math.max(volts, Math.min(dusk_V, driver.restart_V));
    if (winter[night]! >= 0) {
      light_lm_s += given_lm_s;
      fails[night] = Number(promised_s[night]! - lasts_s > allowed_s);
    }
    for (let part = PARTS / 2; part < PARTS; part++)
      volts = Math.min(chargedTo(charges, night * PARTS + part, volts, capacitor), highest_V);
  }
  return { light_lm_h: light_lm_s / 3600, fails };
}
