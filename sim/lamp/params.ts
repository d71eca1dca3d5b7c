import type { Complain } from '../common/Complaint.ts';
import { type CellParams, cellParams } from './cell/params.ts';
import { type DiodeParams, diodeParams } from './diode/params.ts';
import { type DriverParams, driverParams } from './driver/params.ts';
import { type JarParams, jarParams } from './jar/params.ts';
import { type LedParams, ledParams } from './led/params.ts';
import { type LoadTable, loadTable } from './loadTable.ts';
import type { ScheduleSection } from './schedule/schema.ts';
import type { LampSection } from './schema.ts';
import { type StoreParams, storeParams } from './store/params.ts';

/** A whole lamp, SI units, ready to run. */
export interface LampParams {
  cell: CellParams;
  diode: DiodeParams;
  store: StoreParams;
  driver: DriverParams;
  led: LedParams;
  jar: JarParams;
  /** Driver and LED together, tabulated once. */
  load: LoadTable;
  schedule: ScheduleSection;
}

/**
 * Parameters of a whole lamp.
 *
 * in: section, one lamp of the scenario with its library parts merged in; complain, takes what cannot be
 * out: the lamp, or undefined after complaints
 */
export function lampParams(section: LampSection, complain: Complain): LampParams | undefined {
  const below =
    (part: string): Complain =>
    (complaint) =>
      complain({ ...complaint, path: [part, ...complaint.path] });
  const cell = cellParams(section.cell, below('cell'));
  const diode = diodeParams(section.diode, below('diode'));
  const store = storeParams(section.store, below('store'));
  const driver = driverParams(section.driver, below('driver'));
  const led = ledParams(section.led, below('led'));
  if (!cell || !diode || !store || !driver || !led) return undefined;
  const highest_V = Math.max(store.rated_V, cell.openCircuit_V, driver.floor_V) * 1.4 + 0.2;
  const load = loadTable(driver, led, highest_V);
  return { cell, diode, store, driver, led, jar: jarParams(section.jar), load, schedule: section.schedule };
}
