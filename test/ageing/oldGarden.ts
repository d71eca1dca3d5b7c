import { LIFE_LAWS } from '../../sim/ageing/capacitorWear.ts';
import type { LampWear } from '../../sim/ageing/LampWear.ts';
import { LifeRun, type LifeTerms } from '../../sim/ageing/LifeRun.ts';
import { type LampLife, lifeOf } from '../../sim/ageing/lampLife.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import { loadWeather } from '../../sim/trial/loadWeather.ts';
import { scenarioLights } from '../../sim/trial/scenarioLights.ts';

/** A scenario whose lamps can be followed through the years one by one. */
export interface OldGarden {
  scenario: Scenario;
  life: (
    spot: string,
    lamp: string,
    terms: Pick<LifeTerms, 'years'> & Partial<Pick<LifeTerms, 'exact' | 'cleaned'>> & { law?: 0 | 1 | 2 },
  ) => { run: LifeRun; life: LampLife; worn: LampWear[] };
}

export async function oldGarden(file: string): Promise<OldGarden> {
  const scenario = loadScenario(file);
  const { site, promise, start, seed } = scenario;
  const lights = scenarioLights(scenario, await loadWeather(scenario));
  return {
    scenario,
    life: (spotName, lampName, { law = 0, cleaned = true, ...terms }) => {
      const spot = scenario.spots.find(({ name }) => name === spotName)!;
      const lamp = scenario.lamps.find(({ name }) => name === lampName)!;
      const trial = { spot: spotName, lamp: lampName, site, promise, start, seed };
      const all = { ...trial, ...terms, cleaned, law: LIFE_LAWS[law]! };
      const run = new LifeRun(lamp, spot, [lights.of(spot.params)], all);
      return { run, ...lifeOf(run, lamp) };
    },
  };
}

/** How far two lives of one lamp are from each other, at most in any winter: share of the capacitance, failed nights. */
export function apart(one: LampLife, other: LampLife): { capacitance: number; nights: number } {
  const most = (of: (winter: number) => number) => Math.max(...one.winters.map((_, k) => Math.abs(of(k))));
  return {
    capacitance: most(
      (k) => one.winters[k]!.age.capacitor.capacitance / other.winters[k]!.age.capacitor.capacitance - 1,
    ),
    nights: most((k) => one.winters[k]!.failedNights - other.winters[k]!.failedNights),
  };
}
