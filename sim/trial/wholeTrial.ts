import type { ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { brushedSpot, type SpotParams } from '../spot/spotParams.ts';
import { runTimes, runTrial, type TrialTerms } from './runTrial.ts';
import type { SpotLights } from './SpotLights.ts';
import type { HourlyTrial, TimedTrial } from './Trial.ts';

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
  const { light, brushed } = lightAndBrushed(spot.params, lights);
  const trial = runTrial(lamp.params, light, terms, brushed);
  return { ...trial, flags: [...lamp.flags, ...noSnow(spot, light), ...trial.flags] };
}

/** What of the same trial can be told and drawn without its energy, in half of the time. in, throws: as `wholeTrial` */
export function timedTrial({ lamp, spot, lights, terms }: TrialGrounds): TimedTrial {
  const { light, brushed } = lightAndBrushed(spot.params, lights);
  return runTimes(lamp.params, light, terms, brushed);
}

/** The light of a spot, and of the same with its lid brushed where snow lies on it. throws: as `SpotLights.of` */
export function lightAndBrushed(
  spot: SpotParams,
  lights: Pick<SpotLights, 'of'>,
): { light: SpotLight; brushed?: SpotLight } {
  const light = lights.of(spot);
  const snowy = light.snow !== undefined && light.snow.lid_h > 0;
  return snowy ? { light, brushed: lights.of(brushedSpot(spot)) } : { light };
}

/** Snow that a scenario asks for and its weather cannot tell of. */
function noSnow({ section }: TrialGrounds['spot'], light: SpotLight): string[] {
  if (section.snow === undefined || light.snow !== undefined || light.place === undefined) return [];
  return [
    'snow is asked for, but the weather has neither snow depth nor rain to tell it by: none lies in this run',
  ];
}
