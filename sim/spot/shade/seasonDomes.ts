import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import type { Site } from '../../sun/Site.ts';
import { heldPart } from '../SpotFiles.ts';
import type { SpotParams } from '../spotParams.ts';
import { type HorizonProfile, horizonScreen } from './horizonScreen.ts';
import { type LitFace, litFaces } from './litFaces.ts';
import { type Obstacle, SPOT } from './Obstacle.ts';
import { obstacleScreens } from './obstacleScreens.ts';
import { type Screen, type SkyDome, screenDome } from './SkyDome.ts';

/** The sky over a spot through the year: one dome for each state of the leaves. */
export interface SeasonDomes {
  seasons: { dome: SkyDome; faces: Map<string, LitFace> }[];
  /** Season of each hour. */
  ofHour: Uint8Array;
}

/** What stands around a spot. */
export interface Surroundings {
  obstacles: readonly Obstacle[];
  /** A horizon profile's screen. */
  far: readonly Screen[];
  /** Height of the cell above the ground. */
  cellHeight_m: number;
  /** See `SpotParams`. */
  skylineOff_deg?: number | undefined;
}

/**
 * The sky over a spot through a stretch of hours, obstacles and horizon together.
 *
 * in: around; start_ms and count, the hours; site
 * out: as many domes as there are states of the leaves
 */
export function seasonDomes(
  around: Surroundings,
  start_ms: number,
  count: number,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): SeasonDomes {
  const { states, ofHour } = leafStates(around.obstacles, start_ms, count, site);
  const seasons = states.map((inLeaf) => ({
    dome: screenDome(screensAround(around, (k) => inLeaf[k]!)),
    faces: litFaces(around.obstacles, inLeaf, around.far),
  }));
  return { seasons, ofHour };
}

/** What stands around as the cell sees it; inLeaf, whether the leaves of obstacle k are on. */
export function screensAround(around: Surroundings, inLeaf: (k: number) => boolean): Screen[] {
  const { obstacles, far, cellHeight_m, skylineOff_deg: off_deg = 0 } = around;
  const eye = { ...SPOT, height_m: cellHeight_m };
  const screens = [...obstacles.flatMap((obstacle, k) => obstacleScreens(obstacle, eye, inLeaf(k))), ...far];
  if (off_deg === 0) return screens;
  const shifted = screens.map((screen) => shiftedScreen(screen, off_deg));
  return off_deg < 0 ? shifted : [...shifted, levelScreen(off_deg)];
}

/** The same with its upper edge so many degrees higher. */
function shiftedScreen(screen: Screen, off_deg: number): Screen {
  return {
    ...screen,
    span: (bearing_deg) => {
      const span = screen.span(bearing_deg);
      const to_deg = Math.min(90, (span?.to_deg ?? 0) + off_deg);
      return span === undefined || to_deg <= span.from_deg ? undefined : { ...span, to_deg };
    },
  };
}

/** An even skyline all round. */
function levelScreen(elevation_deg: number): Screen {
  const bearing_deg = Float64Array.of(0, 120, 240);
  return horizonScreen({ bearing_deg, elevation_deg: bearing_deg.map(() => elevation_deg) });
}

/** Nothing around. */
export const OPEN_SURROUNDINGS: Surroundings = { obstacles: [], far: [], cellHeight_m: 0 };

/**
 * What stands around a spot: its obstacles, and its horizon profile.
 *
 * in: spot; profile, what the file says that the spot names, where it does
 * out: surroundings as `seasonDomes` takes them
 */
export function surroundings(
  spot: Pick<SpotParams, 'obstacles' | 'horizon' | 'cellHeight_m' | 'skylineOff_deg'>,
  profile: HorizonProfile | undefined,
): Surroundings {
  const { obstacles, horizon, cellHeight_m, skylineOff_deg } = spot;
  const far = horizon === undefined ? [] : [horizonScreen(heldPart(profile, horizon), horizon.reflectance)];
  return { obstacles, far, cellHeight_m, skylineOff_deg };
}

/** Which obstacles are in leaf at which hours. */
export interface LeafStates {
  /** For each state, whether each obstacle is in leaf. */
  states: boolean[][];
  /** State of each hour. */
  ofHour: Uint8Array;
}

/**
 * States of the leaves over a stretch of hours: for each obstacle in leaf from one day of the year to another, by the
 * date at the site's mean solar time.
 *
 * in: obstacles; start_ms, start of the first hour, UTC milliseconds; count, hours; site
 * out: at least one state; obstacles that pass the same with and without leaves count as always in leaf
 */
export function leafStates(
  obstacles: readonly Obstacle[],
  start_ms: number,
  count: number,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): LeafStates {
  const ofHour = new Uint8Array(count);
  const states: boolean[][] = [];
  const [usualOn, usualOff] = site.latitude_deg < 0 ? ['10-25', '05-05'] : ['04-25', '11-05'];
  const ahead_ms = (site.longitude_deg / 360) * DAY_MS;
  let day = Number.NaN;
  let state = 0;
  for (let i = 0; i < count; i++) {
    const local_ms = start_ms + i * HOUR_MS + ahead_ms;
    const thisDay = Math.floor(local_ms / DAY_MS);
    if (thisDay !== day) {
      day = thisDay;
      const date = new Date(local_ms).toISOString().slice(5, 10);
      const inLeaf = obstacles.map(({ leaves }) => {
        if (leaves.transmittance === leaves.bareTransmittance) return true;
        const on = leaves.on ?? usualOn!;
        const off = leaves.off ?? usualOff!;
        return on < off ? date >= on && date < off : date >= on || date < off;
      });
      state = states.findIndex((known) => known.join() === inLeaf.join());
      if (state < 0) state = states.push(inLeaf) - 1;
    }
    ofHour[i] = state;
  }
  return { states, ofHour };
}
