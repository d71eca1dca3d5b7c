import type { PartFit } from '../common/Estimate.ts';
import type { Report } from '../common/InputProblem.ts';
import { type CapacitorFit, capacitorFromReadings } from './capacitor/readings.ts';
import { type CellFit, cellFromReadings } from './cell/readings.ts';
import { type DiodeFit, diodeFromReadings } from './diode/readings.ts';
import { driverFromReadings } from './driver/readings.ts';
import { jarFromReadings } from './jar/readings.ts';
import { ledFromReadings } from './led/readings.ts';
import type { LampSection } from './schema.ts';

/** What the readings of a lamp's parts gave, in the order of the lamp; parts without readings are left out. */
export interface LampFits {
  cell?: CellFit;
  diode?: DiodeFit;
  capacitor?: CapacitorFit;
  driver?: PartFit;
  led?: PartFit;
  jar?: PartFit;
}

/**
 * What the bench readings of a lamp's parts gave.
 *
 * in: section, one lamp of the scenario with its library parts merged in; report, takes readings that cannot be
 * out: a fit for each part that has readings, but for those that drew a problem
 */
export function fitLamp(section: LampSection, report: Report): LampFits {
  const below =
    (part: string): Report =>
    (problem) =>
      report({ ...problem, path: [part, ...problem.path] });
  const { cell, diode, capacitor, driver, led, jar } = section;
  const ledRows = led.table;
  const fits = {
    cell: cell.readings && cellFromReadings(cell, cell.readings, below('cell')),
    diode: diode.readings && diodeFromReadings(diode, diode.readings, below('diode')),
    capacitor: capacitor.readings && capacitorFromReadings(capacitor, capacitor.readings, below('capacitor')),
    driver: driver.readings && driverFromReadings(driver, driver.readings, below('driver')),
    led: led.readings && ledRows && ledFromReadings(ledRows, led.readings, below('led')),
    jar: jar.readings && jarFromReadings(jar, jar.readings),
  };
  return Object.fromEntries(Object.entries(fits).filter(([, fit]) => fit !== undefined));
}
