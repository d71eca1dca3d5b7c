import type { Report } from '../common/InputProblem.ts';
import { type CapacitorParams, capacitorParams } from './capacitor/params.ts';
import { type CellParams, cellParams } from './cell/params.ts';
import { type DiodeParams, diodeParams } from './diode/params.ts';
import { type DriverParams, driverParams } from './driver/params.ts';
import { type JarParams, jarParams } from './jar/params.ts';
import { type LedParams, ledParams } from './led/params.ts';
import { type LoadTable, loadTable } from './loadTable.ts';
import type { ScheduleSection } from './schedule/schema.ts';
import type { LampSection } from './schema.ts';

/** A whole lamp, SI units, ready to run. */
export interface LampParams {
  cell: CellParams;
  diode: DiodeParams;
  capacitor: CapacitorParams;
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
 * in: section, one lamp of the scenario with its library parts merged in; report, takes what cannot be
 * out: the lamp, or undefined after problems
 */
export function lampParams(section: LampSection, report: Report): LampParams | undefined {
  const below =
    (part: string): Report =>
    (problem) =>
      report({ ...problem, path: [part, ...problem.path] });
  const cell = cellParams(section.cell, below('cell'));
  const diode = diodeParams(section.diode, below('diode'));
  const capacitor = capacitorParams(section.capacitor, below('capacitor'));
  const driver = driverParams(section.driver, below('driver'));
  const led = ledParams(section.led, below('led'));
  if (!cell || !diode || !capacitor || !driver || !led) return undefined;
  const highest_V = Math.max(capacitor.rated_V, cell.openCircuit_V, driver.cutoff_V) * 1.4 + 0.2;
  const load = loadTable(driver, led, highest_V);
  return {
    cell,
    diode,
    capacitor,
    driver,
    led,
    jar: jarParams(section.jar),
    load,
    schedule: section.schedule,
  };
}
