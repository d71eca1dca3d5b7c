import type { KeyPath } from '../common/document.ts';
import type { Report } from '../common/InputProblem.ts';
import { capacitorParams } from '../lamp/capacitor/params.ts';
import { doubtfulCell } from '../lamp/cell/doubtfulCell.ts';
import { cellParams } from '../lamp/cell/params.ts';
import { checkLamp } from '../lamp/checkLamp.ts';
import { diodeParams } from '../lamp/diode/params.ts';
import { driverParams } from '../lamp/driver/params.ts';
import { ledParams } from '../lamp/led/params.ts';
import { lampParams } from '../lamp/params.ts';
import { readingFlags } from '../lamp/readingFlags.ts';
import { lampSchema } from '../lamp/schema.ts';
import { isMap, valueAt } from './paths.ts';
import type { ScenarioLamp } from './Scenario.ts';

const { cell, diode, capacitor, driver, led } = lampSchema.shape;

/** Of each part, what its own values have against each other. */
const PART_CHECKS: Readonly<Record<string, (section: unknown, report: Report) => unknown>> = {
  cell: (section, report) => cellParams(cell.parse(section), report),
  diode: (section, report) => diodeParams(diode.parse(section), report),
  capacitor: (section, report) => capacitorParams(capacitor.parse(section), report),
  driver: (section, report) => driverParams(driver.parse(section), report),
  led: (section, report) => ledParams(led.parse(section), report),
};

/**
 * The lamps of a scenario that can be made, with problems about the others.
 *
 * in: value, the scenario with its parts merged in; isSound, whether the schema found nothing at or below a path
 */
export function lampsOf(
  value: Record<string, unknown>,
  isSound: (section: KeyPath) => boolean,
  report: Report,
): ScenarioLamp[] {
  if (!isMap(value.lamps)) return [];
  const startCapacitor_V = valueAt(value, ['start', 'capacitor_V']);
  return Object.entries(value.lamps).flatMap(([name, given]) => {
    const path = ['lamps', name];
    const below =
      (above: KeyPath): Report =>
      (problem) =>
        report({ ...problem, path: [...above, ...problem.path] });
    if (!isSound(path)) {
      for (const [part, check] of Object.entries(PART_CHECKS)) {
        const at = [...path, part];
        if (isSound(at) && isMap(valueAt(given, [part]))) check(valueAt(given, [part]), below(at));
      }
      return [];
    }
    const section = lampSchema.parse(given);
    const params = lampParams(section, below(path));
    if (params === undefined) return [];
    const flags = checkLamp(
      params,
      below(path),
      typeof startCapacitor_V === 'number' ? startCapacitor_V : undefined,
    );
    return [
      { name, section, params, flags: [...doubtfulCell(section.cell), ...flags, ...readingFlags(section)] },
    ];
  });
}
