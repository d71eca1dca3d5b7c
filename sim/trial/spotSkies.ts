import { readScenarioFile } from '../scenario/scenarioFile.ts';
import { type SkyPicture, skyPicture } from '../spot/skyPicture.ts';
import { sunColumns } from '../sun/sunColumns.ts';
import type { RunResult } from './Trial.ts';

/**
 * The sky as seen from the spots of a run that anything stands around, by the spot's name.
 *
 * in: run
 * out: pictures; no entry for a spot in the open, or one whose surroundings are not known
 * throws: the codes of files, SPOT_PROFILE
 */
export function spotSkies({ scenario, trials }: RunResult): Map<string, SkyPicture> {
  const skies = new Map<string, SkyPicture>();
  const light = trials[0]?.light;
  const around = scenario.spots.filter(
    ({ params }) => params.obstacles.length > 0 || params.horizon !== undefined,
  );
  if (light === undefined || around.length === 0) return skies;
  const sun = sunColumns(light.start_ms, light.count, scenario.site);
  const read = (file: string) => readScenarioFile(scenario, file).bytes;
  for (const { name, params } of around) {
    const picture = skyPicture(params, scenario.site, sun, read);
    if (picture !== undefined) skies.set(name, picture);
  }
  return skies;
}
