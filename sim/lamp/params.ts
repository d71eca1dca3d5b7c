import { type Report, reportBelow } from '../common/InputProblem.ts';
import { type CapacitorParams, capacitorParams } from './capacitor/params.ts';
import { type CellParams, cellParams } from './cell/params.ts';
import { type DiodeParams, diodeParams } from './diode/params.ts';
import { type DriverParams, driverParams } from './driver/params.ts';
import { type JarParams, jarParams } from './jar/params.ts';
import { type LedParams, ledParams } from './led/params.ts';
import { type LoadTable, loadTable } from './loadTable.ts';
import type { ScheduleSection } from './schedule/schema.ts';
import type { SettledSection } from './schema.ts';

/** Parameters of a lamp's parts, SI units. */
export interface PartParams {
  cell: CellParams | undefined;
  diode: DiodeParams | undefined;
  capacitor: CapacitorParams | undefined;
  driver: DriverParams | undefined;
  led: LedParams | undefined;
  jar: JarParams | undefined;
}

/** A whole lamp, SI units, ready to run. */
export type LampParams = { [Part in keyof PartParams]: NonNullable<PartParams[Part]> } & {
  /** Driver and LED together, tabulated once. */
  load: LoadTable;
  schedule: ScheduleSection;
};

/**
 * Parameters of a whole lamp.
 *
 * in: section, one lamp with its library parts merged in and its readings settled; report, takes what cannot be
 * out: the lamp, or undefined after problems
 */
export function lampParams(section: SettledSection, report: Report): LampParams | undefined {
  return wholeLamp(partParams(section, report), section.schedule);
}

/** The lamp that parts make; undefined where one is missing. */
export function wholeLamp(parts: PartParams, schedule: ScheduleSection): LampParams | undefined {
  const { cell, diode, capacitor, driver, led, jar } = parts;
  if (!cell || !diode || !capacitor || !driver || !led || !jar) return undefined;
  const highest_V = Math.max(capacitor.rated_V, cell.openCircuit_V, driver.cutoff_V) * 1.4 + 0.2;
  const load = loadTable(driver, led, highest_V);
  return { cell, diode, capacitor, driver, led, jar, load, schedule };
}

/** Parameters of those parts of a lamp that are there; undefined after problems. */
export function partParams(section: Partial<SettledSection>, report: Report): PartParams {
  const { cell, diode, capacitor, driver, led, jar } = section;
  return {
    cell: cell && cellParams(cell, reportBelow(report, 'cell')),
    diode: diode && diodeParams(diode, reportBelow(report, 'diode')),
    capacitor: capacitor && capacitorParams(capacitor, reportBelow(report, 'capacitor')),
    driver: driver && driverParams(driver, reportBelow(report, 'driver')),
    led: led && ledParams(led, reportBelow(report, 'led')),
    jar: jar && jarParams(jar),
  };
}
