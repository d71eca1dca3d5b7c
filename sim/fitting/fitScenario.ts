import type { PartFit } from '../common/Estimate.ts';
import { InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { CAUTIONS } from '../trial/cautions.ts';
import { type NextReading, nextReading } from './nextReading.ts';

/** What the readings of one part gave. */
export interface PartReport {
  part: string;
  fit: Pick<PartFit, 'estimates' | 'readings' | 'notes' | 'keys'>;
  /** undefined where nothing at the bench would narrow it further. */
  next: NextReading | undefined;
}

/** What the readings of one lamp gave. */
export interface LampReport {
  lamp: string;
  parts: PartReport[];
}

/** What `fit` finds in the bench readings of a scenario. */
export interface FitReport {
  scenario: string;
  lamps: LampReport[];
  cautions: readonly string[];
}

/**
 * What the bench readings of a scenario's lamps gave, part by part, with the most useful next reading of each.
 *
 * in: scenario, loaded (so that its readings drew no problem)
 * out: lamps with readings, in the order of the scenario
 * throws: SCENARIO_MISSING_KEY where no part has readings
 */
export function fitScenario(scenario: Scenario): FitReport {
  const lamps = scenario.lamps.flatMap(({ name, section, fits }) => {
    const parts = Object.entries(fits).flatMap(([part, fit]: [string, PartFit | undefined]): PartReport[] => {
      if (fit === undefined) return [];
      const { estimates, readings, notes, keys } = fit;
      return [{ part, fit: { estimates, readings, notes, keys }, next: nextReading(part, section, fits) }];
    });
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
  return { scenario: scenario.name, lamps, cautions: CAUTIONS };
}
