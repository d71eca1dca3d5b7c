import { compensatedSum } from '../common/numeric.ts';
import { HOUR_MS } from '../common/time.ts';
import type { SpotLight } from './spotLight.ts';

/** What a spot leaves of the light in the two darkest months, to be put into a sentence. Shares are 0 to 1. */
export interface SpotLimits {
  /** The months looked at, 1 to 12. */
  months: readonly number[];
  /**
   * Light that the unshaded cell takes through its cover and front, over what it would take without either. Times
   * `lightShare` it is what is left of all light there is.
   */
  coverShare: number;
  /** Light on the cell over the unshaded. */
  lightShare: number;
  /** Light from the sky over the unshaded. */
  skyShare: number;
  /** Light of the beam over the unshaded; NaN where the open gets none. */
  beamShare: number;
  /** Hours of unshaded sunshine, and how many of them reach the spot. */
  sunshine_h: number;
  beam_h: number;
  /** Share of the light that snow on the lid takes; 0 where none lies there. */
  snowShare: number;
  /** Share of the spot's light that ground and obstacles reflect. */
  reflectedShare: number;
  /** Which loss takes most of what is missing: beam or sky; neither where less than a tenth is missing. */
  mostLost: 'beam' | 'sky' | 'neither';
}

/**
 * What limits a spot in December and January (June and July south of the equator): shares of sky and beam that are
 * left of the same cell's unshaded, what cover and front pass of that, hours of sunshine, and what comes back from walls
 * and ground.
 *
 * in: light of the spot; openLight of `openSpot` and bareLight of `bareSpot` under the same weather; southern, whether
 *   the site lies south of the equator
 * out: limits; NaN where a share has nothing to be a share of
 * throws: Error where they are of different hours
 * source: WMO2018 for sunshine: more than 120 W/m2 of direct normal light
 */
export function spotLimits(
  light: SpotLight,
  openLight: SpotLight,
  bareLight: SpotLight,
  southern: boolean,
): SpotLimits {
  for (const { start_ms, count } of [openLight, bareLight]) {
    if (light.start_ms !== start_ms || light.count !== count) {
      throw new Error('a spot is held against the open of other hours');
    }
  }
  const chosen = darkestHours(light, southern);
  const total = (column: Float64Array) => compensatedSum(chosen.map((i) => column[i]!));
  const totals = (of: SpotLight) => ({
    all: total(of.planeOfArray_W_m2),
    sky: total(of.sky_W_m2),
    beam: total(of.beam_W_m2),
  });
  const [here, open] = [totals(light), totals(openLight)];
  let sunshine_h = 0;
  let beam_h = 0;
  for (const i of chosen) {
    if (!(openLight.dni_W_m2[i]! > SUNSHINE_W_M2) || !(openLight.beam_W_m2[i]! > 0)) continue;
    sunshine_h += 1;
    beam_h += Math.min(light.beam_W_m2[i]! / openLight.beam_W_m2[i]!, 1);
  }
  const mostLost = open.beam - here.beam > open.sky - here.sky ? 'beam' : 'sky';
  return {
    months: darkestMonths(southern),
    coverShare: open.all / total(bareLight.planeOfArray_W_m2),
    lightShare: here.all / open.all,
    skyShare: here.sky / open.sky,
    beamShare: here.beam / open.beam,
    sunshine_h,
    beam_h,
    snowShare: snowShare(light, chosen),
    reflectedShare: total(light.reflected_W_m2) / here.all,
    mostLost: open.all - here.all < 0.1 * open.all ? 'neither' : mostLost,
  };
}

function snowShare({ planeOfArray_W_m2, snow }: SpotLight, chosen: readonly number[]): number {
  const total = (column: Float64Array) => compensatedSum(chosen.map((i) => column[i]!));
  const brushed = snow?.lid === undefined ? 0 : total(snow.lid.brushed_W_m2);
  return brushed > 0 ? 1 - total(planeOfArray_W_m2) / brushed : 0;
}

const SUNSHINE_W_M2 = 120;

const darkestMonths = (southern: boolean) => (southern ? [6, 7] : [12, 1]);

/** The hours of a record that lie in the two darkest calendar months, in UTC: their places in its columns. */
export function darkestHours(
  { start_ms, count }: Pick<SpotLight, 'start_ms' | 'count'>,
  southern: boolean,
): number[] {
  const months = darkestMonths(southern);
  const all = Array.from({ length: count }, (_, i) => i);
  return all.filter((i) => months.includes(new Date(start_ms + i * HOUR_MS).getUTCMonth() + 1));
}
