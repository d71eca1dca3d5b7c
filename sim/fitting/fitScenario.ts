import { InputProblem } from '../common/InputProblem.ts';
import type { LampSection } from '../lamp/schema.ts';
import type { LampFits } from '../lamp/settleLamp.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { FitReport, NextReading, PartReport } from './FitReport.ts';
import { nextCapacitorReading } from './nextCapacitorReading.ts';
import { nextCellReading } from './nextCellReading.ts';

/**
 * What the bench readings of a scenario's lamps gave, part by part, with the most useful next reading of each.
 *
 * in: scenario, loaded (so that its readings drew no problem)
 * out: lamps with readings, in the order of the scenario
 * throws: SCENARIO_MISSING_KEY where no part has readings
 */
export function fitScenario(scenario: Scenario): FitReport {
  const lamps = scenario.lamps.flatMap(({ name, section, fits }) => {
    const parts = partsOf(section, fits);
    return parts.length === 0 ? [] : [{ lamp: name, parts }];
  });
  if (lamps.length === 0) {
    throw new InputProblem({
      code: 'SCENARIO_MISSING_KEY',
      file: scenario.file,
      field: 'lamps',
      got: 'no readings in any part of any lamp',
      expected:
        'readings under at least one part, as in cell: { cells_in_series: 4, readings: { lights: [...] } }',
      fix: 'see scenarios/bench-readings.yaml.',
    });
  }
  return { scenario: scenario.name, lamps };
}

function partsOf(section: LampSection, fits: LampFits): PartReport[] {
  const { cell, diode, capacitor, driver, led, jar } = fits;
  const found: (PartReport | undefined)[] = [
    cell && { part: 'cell', fit: cell, next: nextCellReading(section.cell, cell) },
    diode && { part: 'diode', fit: diode, next: nextDiode(section) },
    capacitor && {
      part: 'capacitor',
      fit: capacitor,
      next: nextCapacitorReading(section.capacitor, capacitor),
    },
    driver && { part: 'driver', fit: driver, next: nextDriver(section) },
    led && { part: 'led', fit: led, next: nextLed(section) },
    jar && { part: 'jar', fit: jar, next: nextJar(section) },
  ];
  return found
    .filter((part) => part !== undefined)
    .map(({ part, fit, next }) => ({
      part,
      fit: { estimates: fit.estimates, readings: fit.readings, notes: fit.notes, keys: fit.keys },
      next,
    }));
}

function nextDiode({ diode }: LampSection): NextReading | undefined {
  const currents = diode.readings!.forward.map(({ current_mA }) => current_mA);
  const least = Math.min(...currents);
  if (least > 3)
    return {
      read: `the forward drop at about ${Math.max(1, Math.round(least / 10))} mA: winter light drives no more`,
    };
  if (currents.length < 2)
    return { read: 'the forward drop at ten times that current: it settles the ideality' };
  return currents.length < 3
    ? { read: 'the forward drop at the full-sun current: it settles the series resistance' }
    : undefined;
}

function nextDriver({ driver }: LampSection): NextReading | undefined {
  const { rows, cutoff_V, restarts_V, standby_uA } = driver.readings!;
  if (cutoff_V === undefined)
    return { read: 'the capacitor voltage at which it stops, on a slowly falling capacitor' };
  if (rows.length < 3)
    return { read: 'the current drawn at the highest, a middle and the lowest capacitor voltage' };
  if (standby_uA === undefined)
    return { read: 'the current drawn with the LED switched off: it drains the capacitor all day' };
  if (restarts_V === undefined)
    return { read: 'the capacitor voltage at which it starts again, on a slowly rising capacitor' };
  return undefined;
}

function nextLed({ led }: LampSection): NextReading | undefined {
  return led.readings!.points.length < 3
    ? {
        read: 'lux and forward voltage at a tenth and at a third of the usual current, the meter where it was',
      }
    : undefined;
}

function nextJar({ jar }: LampSection): NextReading | undefined {
  const most = Math.max(...jar.readings!.points.map(({ light_W_m2 }) => light_W_m2));
  return most < 600 ? { read: 'inside and outside again in full sun, after an hour of it' } : undefined;
}
