import type { KeyPath } from '../common/document.ts';
import { type Report, reportBelow } from '../common/InputProblem.ts';
import { sheetFlags } from '../lamp/cell/sheetFlags.ts';
import { checkLamp } from '../lamp/checkLamp.ts';
import { lampSchema } from '../lamp/schema.ts';
import { readingFlags, settleLamp, settleParts } from '../lamp/settleLamp.ts';
import { entriesOf, isMap, valueAt } from './paths.ts';
import type { ScenarioLamp } from './Scenario.ts';

const { shape } = lampSchema;

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
  const startCapacitor_V = valueAt(value, ['start', 'capacitor_V']);
  return entriesOf(value.lamps).flatMap(([name, given]) => {
    const path = ['lamps', name];
    const below = reportBelow(report, ...path);
    if (!isSound(path)) {
      const parts = entriesOf(given).filter(
        ([part, value]) => part in shape && part !== 'schedule' && isMap(value) && isSound([...path, part]),
      );
      settleParts(
        Object.fromEntries(parts.map(([part, value]) => [part, shape[part as 'cell'].parse(value)])),
        below,
      );
      return [];
    }
    const section = lampSchema.parse(given);
    const lamp = settleLamp(section, below);
    if (lamp === undefined) return [];
    const start_V = Number.isFinite(startCapacitor_V) ? (startCapacitor_V as number) : undefined;
    const flags = [
      ...sheetFlags(section.cell),
      ...checkLamp(lamp.params, below, start_V),
      ...readingFlags(lamp.fits),
    ];
    return [{ name, section, ...lamp, flags }];
  });
}
