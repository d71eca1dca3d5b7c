import { max } from 'd3-array';
import { compensatedSum } from '../common/numeric.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import { type SpotPlace, spotPlace } from '../spot/SpotPlace.ts';
import { type OpenSky, openSky } from '../spot/sky/skyColumns.ts';
import { skyPicture } from '../spot/skyPicture.ts';
import { lightInSpot, type SpotLight } from '../spot/spotLight.ts';
import { darkestHours, type SpotLimits, spotLimits } from '../spot/spotLimits.ts';
import { bareSpot, openSpot, type SpotParams } from '../spot/spotParams.ts';
import type { ComparedSpot, ComparedTrial, LampInSpot, LimitedBy } from './Comparison.ts';
import { monthlyLight } from './monthlyLight.ts';
import { hasSurroundings } from './spotSkies.ts';
import type { RunResult } from './Trial.ts';

/**
 * The spots of a run as they stand beside others, in the order of its scenario: light, sky, and what limits each. Spots
 * whose cells lie alike share their open light: that of the same cell with nothing around it, tilted alike but towards
 * the noon sun.
 *
 * in: run; trials, compared, of this run and perhaps of others; months, calendar months in the order wanted
 */
export function compareSpots(
  run: RunResult,
  trials: readonly ComparedTrial[],
  months: readonly number[],
): ComparedSpot[] {
  const { scenario, record: weather } = run;
  const { site } = scenario;
  const southern = site.latitude_deg < 0;
  const lights = new Map<string, SpotLight>();
  let sky: OpenSky | undefined;
  /** Light on a cell of an open spot, tilted alike but towards the noon sun. */
  const openLightOf = (open: SpotParams, { calendar }: SpotPlace) => {
    if (weather === undefined) return undefined;
    const turned = { ...open, cellBearing_deg: southern ? 0 : 180 };
    const key = JSON.stringify(turned);
    sky ??= openSky(weather, calendar);
    const light = lights.get(key) ?? lightInSpot(spotPlace(turned, calendar), sky);
    lights.set(key, light);
    return light;
  };
  return scenario.spots.map(({ name, params }): ComparedSpot => {
    const trial = run.trials.find((one) => one.spot === name);
    if (trial === undefined) throw new Error(`the run of ${scenario.name} has no trial on ${name}`);
    const { place } = trial.light;
    const openLight = place && openLightOf(openSpot(params), place);
    const bareLight = place && openLightOf(bareSpot(params), place);
    const limits = openLight && bareLight && spotLimits(trial.light, openLight, bareLight, southern);
    const dullShare = openLight === undefined ? Number.NaN : dullDayShare(trial.light, openLight, southern);
    const here = trials.filter((one) => one.scenario === scenario.name && one.spot === name);
    return {
      scenario: scenario.name,
      spot: name,
      cover: params.cover === 'none' ? 'none' : params.cover.kind,
      months: monthlyLight(trial, site.timeZone, months),
      limits,
      dullShare,
      limitedBy: limitedBy(
        limits,
        dullShare,
        here.map((one) => one.inSpot),
      ),
      picture: place && skyPicture(place),
      hasSurroundings: hasSurroundings(params),
    };
  });
}

/**
 * Share of the unshaded light that a spot keeps on the duller half of the days (UTC) of December and January (June
 * and July south of the equator). On such days nearly all light is the sky's, and they decide which nights fail.
 *
 * in: light of the spot; openLight under the same weather; southern
 * out: 0 or more; a wall that returns light can lift it above 1
 * NaN when: the record has no such day with light
 */
export function dullDayShare(light: SpotLight, openLight: SpotLight, southern: boolean): number {
  const days = new Map<number, { cell: number; open: number }>();
  for (const i of darkestHours(light, southern)) {
    const day = Math.floor((light.start_ms + i * HOUR_MS) / DAY_MS);
    const sums = days.get(day) ?? { cell: 0, open: 0 };
    sums.cell += light.planeOfArray_W_m2[i]!;
    sums.open += openLight.planeOfArray_W_m2[i]!;
    days.set(day, sums);
  }
  const dull = [...days.values()].sort((a, b) => a.open - b.open).slice(0, Math.ceil(days.size / 2));
  return compensatedSum(dull.map((day) => day.cell)) / compensatedSum(dull.map((day) => day.open));
}

/** What takes less than this share does not count as what limits. */
const A_TENTH = 0.1;

/**
 * What holds a spot back most in the darkest months: the greatest of the shares that are lost one after the other to
 * its surroundings (beam or sky, whichever is more; sky too where dull days lose more than all days do), to snow, to
 * cover and cell front, to dim light on its lamps, and to leakage; 'season' where none of them reaches a tenth. Of
 * several lamps the one that loses most
 * counts.
 *
 * in: limits of the spot, undefined where its surroundings are not known; dullShare, of light left on dull days; lamps
 *   in it
 * out: 'unknown' where the record has none of these months, or where the surroundings are not known and the lamps lose
 *   little
 */
export function limitedBy(
  limits: SpotLimits | undefined,
  dullShare: number,
  lamps: readonly LampInSpot[],
): LimitedBy {
  const most = (values: number[]) => max(values.filter((value) => !Number.isNaN(value))) ?? Number.NaN;
  const surroundings = limits === undefined || limits.mostLost === 'neither' ? 'sky' : limits.mostLost;
  const lost: [LimitedBy, number][] = [
    [surroundings, limits === undefined ? Number.NaN : 1 - limits.lightShare],
    ['sky', 1 - dullShare],
    ['cover', limits === undefined ? Number.NaN : 1 - limits.coverShare],
    ['snow', limits === undefined ? Number.NaN : limits.snowShare],
    ['dim-light', most(lamps.map((lamp) => lamp.unharvestedShare))],
    ['leakage', most(lamps.map((lamp) => lamp.leakageShare))],
  ];
  const known = lost.filter(([, share]) => !Number.isNaN(share));
  if (known.length === 0) return 'unknown';
  const [name, share] = known.reduce((greatest, one) => (one[1] > greatest[1] ? one : greatest));
  if (share >= A_TENTH) return name;
  return limits === undefined ? 'unknown' : 'season';
}
