import type { Complain } from '../common/Complaint.ts';
import type { PartFit } from '../common/Estimate.ts';
import { type CellFit, fromReadings as cellFit } from './cell/fromReadings.ts';
import { type DiodeFit, fromReadings as diodeFit } from './diode/fromReadings.ts';
import { type DriverFit, fromReadings as driverFit } from './driver/fromReadings.ts';
import { fromReadings as jarFit } from './jar/fromReadings.ts';
import { fromReadings as ledFit } from './led/fromReadings.ts';
import type { LampSection } from './schema.ts';
import { type StoreFit, fromReadings as storeFit } from './store/fromReadings.ts';

/** What the readings of a lamp's parts gave, in the order of the lamp; parts without readings are left out. */
export interface LampFits {
  cell?: CellFit;
  diode?: DiodeFit;
  store?: StoreFit;
  driver?: DriverFit;
  led?: PartFit;
  jar?: PartFit;
}

/**
 * What the bench readings of a lamp's parts gave.
 *
 * in: section, one lamp of the scenario with its library parts merged in; complain, takes readings that cannot be
 * out: a fit for each part that has readings, but for those that drew a complaint
 */
export function fitLamp(section: LampSection, complain: Complain): LampFits {
  const below =
    (part: string): Complain =>
    (complaint) =>
      complain({ ...complaint, path: [part, ...complaint.path] });
  const { cell, diode, store, driver, led, jar } = section;
  const ledRows = led.table;
  const fits = {
    cell: cell.readings && cellFit(cell, cell.readings, below('cell')),
    diode: diode.readings && diodeFit(diode, diode.readings, below('diode')),
    store: store.readings && storeFit(store, store.readings, below('store')),
    driver: driver.readings && driverFit(driver, driver.readings, below('driver')),
    led: led.readings && ledRows && ledFit(ledRows, led.readings, below('led')),
    jar: jar.readings && jarFit(jar, jar.readings),
  };
  return Object.fromEntries(Object.entries(fits).filter(([, fit]) => fit !== undefined));
}
