import { loadTable } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';

/**
 * A lamp whose leakage and driver draw are so many times what they were.
 *
 * in: lamp; leakage and draw, factors; 0 or more, and above 0
 */
export function changedLamp(lamp: LampParams, leakage: number, draw: number): LampParams {
  const capacitor = { ...lamp.capacitor, leakage_A: lamp.capacitor.leakage_A * leakage };
  if (draw === 1) return { ...lamp, capacitor };
  const driver = { ...lamp.driver, law: lamp.driver.law.times(draw) };
  return { ...lamp, capacitor, driver, load: loadTable(driver, lamp.led, lamp.load.highest_V) };
}
