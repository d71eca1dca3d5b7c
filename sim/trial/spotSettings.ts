import { readScenarioFile } from '../scenario/scenarioFile.ts';
import { openSky } from '../spot/sky/skyColumns.ts';
import { type SkyPicture, skyPicture } from '../spot/skyPicture.ts';
import { type SpotLight, spotLight } from '../spot/spotLight.ts';
import { openSpot, type SpotParams } from '../spot/spotParams.ts';
import type { RunResult } from './Trial.ts';

/** What a spot is held against, and what is seen from it. */
export interface SpotSetting {
  spot: string;
  /**
   * Light on the same cell with nothing around it, tilted alike but towards the noon sun; undefined where the light was
   * logged on the cell.
   */
  openLight: SpotLight | undefined;
  /** Sky from the spot; undefined where its surroundings are not known. */
  picture: SkyPicture | undefined;
  /** Whether anything stands around it that the picture would show. */
  hasSurroundings: boolean;
}

/**
 * The setting of every spot of a run, in the order of its scenario. Spots whose cells lie alike share their open light.
 *
 * in: run
 * throws: the codes of files, SPOT_PROFILE
 */
export function spotSettings({ scenario, record: weather }: RunResult): SpotSetting[] {
  const { site } = scenario;
  const open = weather === undefined ? undefined : openSky(weather, site);
  const read = (file: string) => readScenarioFile(scenario, file).bytes;
  const lights = new Map<string, SpotLight>();
  const openLightOf = (params: SpotParams) => {
    if (weather === undefined || params.loggedLight !== undefined) return undefined;
    const bare = { ...openSpot(params), cellBearing_deg: site.latitude_deg < 0 ? 0 : 180 };
    const key = JSON.stringify(bare);
    const light = lights.get(key) ?? spotLight(weather, site, bare, read, open);
    lights.set(key, light);
    return light;
  };
  return scenario.spots.map(({ name, params }) => ({
    spot: name,
    openLight: openLightOf(params),
    picture: open === undefined ? undefined : skyPicture(params, site, open.sun, read),
    hasSurroundings: params.obstacles.length > 0 || params.horizon !== undefined,
  }));
}
