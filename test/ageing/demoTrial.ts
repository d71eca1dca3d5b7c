import { fileURLToPath } from 'node:url';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { loadWeather } from '../../sim/trial/loadWeather.ts';
import { scenarioLights } from '../../sim/trial/scenarioLights.ts';

/** A lamp of the invented garden in one of its spots, with the light there and what a trial needs. */
export async function demoTrial(spotName: string, lampName: string) {
  const file = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
  const scenario = loadScenario(file);
  const spot = scenario.spots.find(({ name }) => name === spotName)!;
  const lamp = scenario.lamps.find(({ name }) => name === lampName)!;
  const light = scenarioLights(scenario, await loadWeather(scenario)).of(spot.params);
  const { site, promise, start, seed } = scenario;
  return {
    scenario,
    spot,
    lamp,
    light,
    terms: { spot: spotName, lamp: lampName, site, promise, start, seed },
  };
}
