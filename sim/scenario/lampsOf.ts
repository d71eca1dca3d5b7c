import type { Complain } from '../common/Complaint.ts';
import type { KeyPath } from '../common/document.ts';
import { doubtfulCell } from '../lamp/cell/doubtfulCell.ts';
import { cellParams } from '../lamp/cell/params.ts';
import { checkLamp } from '../lamp/checkLamp.ts';
import { diodeParams } from '../lamp/diode/params.ts';
import { driverParams } from '../lamp/driver/params.ts';
import { ledParams } from '../lamp/led/params.ts';
import { lampParams } from '../lamp/params.ts';
import { readingFlags } from '../lamp/readingFlags.ts';
import { lampSchema } from '../lamp/schema.ts';
import { storeParams } from '../lamp/store/params.ts';
import { isMap, valueAt } from './paths.ts';
import type { ScenarioLamp } from './Scenario.ts';

const { cell, diode, store, driver, led } = lampSchema.shape;

/** Of each part, what its own values have against each other. */
const PART_CHECKS: Readonly<Record<string, (section: unknown, complain: Complain) => unknown>> = {
  cell: (section, complain) => cellParams(cell.parse(section), complain),
  diode: (section, complain) => diodeParams(diode.parse(section), complain),
  store: (section, complain) => storeParams(store.parse(section), complain),
  driver: (section, complain) => driverParams(driver.parse(section), complain),
  led: (section, complain) => ledParams(led.parse(section), complain),
};

/**
 * The lamps of a scenario that can be made, with complaints about the others.
 *
 * in: value, the scenario with its parts merged in; isSound, whether the schema found nothing at or below a path
 */
export function lampsOf(
  value: Record<string, unknown>,
  isSound: (section: KeyPath) => boolean,
  complain: Complain,
): ScenarioLamp[] {
  if (!isMap(value.lamps)) return [];
  const startStore_V = valueAt(value, ['start', 'store_V']);
  return Object.entries(value.lamps).flatMap(([name, given]) => {
    const path = ['lamps', name];
    const below =
      (above: KeyPath): Complain =>
      (complaint) =>
        complain({ ...complaint, path: [...above, ...complaint.path] });
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
    const flags = checkLamp(params, below(path), typeof startStore_V === 'number' ? startStore_V : undefined);
    return [
      { name, section, params, flags: [...doubtfulCell(section.cell), ...flags, ...readingFlags(section)] },
    ];
  });
}
