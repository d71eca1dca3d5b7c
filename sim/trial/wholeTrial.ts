import type { ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { brushedSpot } from '../spot/spotParams.ts';
import { runTrial, type TrialTerms } from './runTrial.ts';
import type { SpotLights } from './SpotLights.ts';
import type { HourlyTrial } from './Trial.ts';

/** A lamp in a spot, and what else its trial takes. */
interface TrialGrounds {
  lamp: Pick<ScenarioLamp, 'params' | 'flags'>;
  spot: Pick<ScenarioSpot, 'section' | 'params'>;
  lights: SpotLights;
  terms: TrialTerms;
}

/**
 * A trial with all that a maker must see of it, held against a brushed lid where snow lies on it; what single changes
 * would do is left to `changes`.
 *
 * in: lamp and spot, checked; lights, of the weather; terms
 * throws: as `runTrial`, and as `SpotLights.of`
 */
export function wholeTrial({ lamp, spot, lights, terms }: TrialGrounds): HourlyTrial {
  const light = lights.of(spot.params);
  const snowy = light.snow !== undefined && light.snow.lid_h > 0;
  const brushed = snowy ? lights.of(brushedSpot(spot.params)) : undefined;
  const trial = runTrial(lamp.params, light, terms, brushed);
  return { ...trial, flags: [...lamp.flags, ...noSnow(spot, light), ...trial.flags] };
}

/** Snow that a scenario asks for and its weather cannot tell of. */
function noSnow({ section }: TrialGrounds['spot'], light: SpotLight): string[] {
  if (section.snow === undefined || light.snow !== undefined || light.place === undefined) return [];
  return [
    'snow is asked for, but the weather has neither snow depth nor rain to tell it by: none lies in this run',
  ];
}
