import type { DriverLaw } from '../lamp/driver/params.ts';
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
  const driver = { ...lamp.driver, law: timesLaw(lamp.driver.law, draw) };
  const { step_V, within } = lamp.load;
  return {
    ...lamp,
    capacitor,
    driver,
    load: loadTable(driver, lamp.led, step_V * (within.led_A.length - 1)),
  };
}

function timesLaw(law: DriverLaw, draw: number): DriverLaw {
  switch (law.kind) {
    case 'power':
      return { ...law, power_W: law.power_W * draw };
    case 'current':
      return { ...law, current_A: law.current_A * draw };
    case 'conductance':
      return { ...law, conductance_S: law.conductance_S * draw };
    case 'table':
      return { ...law, current_A: law.current_A.map((current_A) => current_A * draw) };
    case 'boost':
      return { ...law, inductor_S: law.inductor_S * draw, limit_A: law.limit_A * draw };
  }
}
