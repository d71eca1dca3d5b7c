import type { Scenario, ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';

/** Which trials of a scenario are meant: every spot and every lamp unless named. */
export interface TrialNames {
  spot?: string | undefined;
  lamp?: string | undefined;
}

/** The trials of a scenario that are meant, spots in its order, the lamps within each. */
export function namedTrials(
  { spots, lamps }: Scenario,
  names: TrialNames,
): { spot: ScenarioSpot; lamp: ScenarioLamp }[] {
  const isMeant = (name: string, wanted: string | undefined) => wanted === undefined || name === wanted;
  return spots
    .filter(({ name }) => isMeant(name, names.spot))
    .flatMap((spot) => lamps.filter(({ name }) => isMeant(name, names.lamp)).map((lamp) => ({ spot, lamp })));
}
