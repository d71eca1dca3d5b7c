import type { Json, Origin, Scenario } from './Scenario.ts';

/** What is told of a checked scenario, as plain JSON. */
export interface ScenarioData {
  name: string;
  sha256: string;
  resolved: { readonly [key: string]: Json };
  origins: readonly Origin[];
  assumptions: readonly string[];
  /** Sentences a maker must see, with the lamp's name before them. */
  flags: readonly string[];
}

/** A checked scenario as plain JSON: every value with its defaults filled in, and where each came from. */
export function scenarioData(scenario: Scenario): ScenarioData {
  const { name, sha256, resolved, origins, assumptions, lamps } = scenario;
  const flags = lamps.flatMap((lamp) => lamp.flags.map((flag) => `${lamp.name}: ${flag}`));
  return { name, sha256, resolved, origins, assumptions, flags };
}
