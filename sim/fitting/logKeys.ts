import { driverLaw } from '../lamp/driver/step.ts';
import type { SettledSection } from '../lamp/schema.ts';
import type { ServiceFit } from './serviceLog.ts';

/** Keys to write into a scenario after a log: by part of the lamp, and of the spot. */
export interface LogKeys {
  lamp: Record<string, Record<string, unknown>>;
  spot: Record<string, unknown>;
}

/**
 * The scenario's keys that carry what a log gave.
 *
 * in: lamp, its readings settled; factor, of the spot's shading; fit
 * out: keys; a light share above 1 has none, since nothing adds light
 */
export function logKeys({ capacitor, driver }: SettledSection, factor: number, fit: ServiceFit): LogKeys {
  const times = (key: string) => {
    const estimate = fit.estimates.find((each) => each.key === key);
    return estimate === undefined ? 1 : estimate.value / (estimate.datasheet ?? 1);
  };
  const leakage = times('leakage_uA');
  const share = factor * times('light_share');
  const draw = times('draw');
  const lamp: LogKeys['lamp'] = {};
  if (capacitor.raw === undefined)
    lamp.capacitor = { leakage_uA: digits((capacitor.leakage_uA ?? 0) * leakage) };
  else if (capacitor.raw.leakage_ohm !== undefined && leakage > 0) {
    lamp.capacitor = { raw: { ...capacitor.raw, leakage_ohm: digits(capacitor.raw.leakage_ohm / leakage) } };
  }
  if (draw !== 1) lamp.driver = driverLaw(driver).times(draw).keys(digits);
  return { lamp, spot: share > 1 ? {} : { shading: { factor: digits(share) } } };
}

function digits(value: number): number {
  return Number(value.toPrecision(4));
}
