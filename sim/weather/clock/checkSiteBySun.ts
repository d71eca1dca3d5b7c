import { min, minIndex, range } from 'd3-array';
import { InputProblem } from '../../common/InputProblem.ts';
import { Kept } from '../../common/Kept.ts';
import { estimateClockOffset } from './estimateClockOffset.ts';
import { everyDay, type FoldedSeries, foldAt } from './foldSeries.ts';
import { FIRST_LOOK, negativeLogLikelihood, sumOfDays, wrapped } from './negativeLogLikelihood.ts';

export interface Place {
  latitude_deg: number;
  longitude_deg: number;
}

/** A slip of the pen that would bring a claimed place to where the sun says the series was taken. */
export interface PlaceSlip extends Place {
  slip: 'sign of longitude' | 'sign of latitude' | 'both signs' | 'swapped' | 'swapped and sign wrong';
  /** Stamp minus middle of the interval if the place were this one, minutes. */
  offset_min: number;
  /** How much better than the claimed latitude the lengths of the days fit, in units of log-likelihood. */
  betterBy: number;
}

/** What the lengths of the days through the seasons say about the claimed place. */
export interface SiteReading {
  /** Of the latitude alone: longitude and clock look the same to the sun. */
  verdict: 'fits' | 'cannot be right' | 'undecided';
  /** Latitude that fits the lengths of the days best, to about 5 degrees; NaN where nothing is known. */
  latitudeSeen_deg: number;
  /** All slips that fit the lengths of the days as well as any does, the claimed place left out. */
  slips: PlaceSlip[];
}

/** Days looked at. */
const DAYS = 60;
/** Log-likelihood by which another latitude must be better before the claimed one is doubted. */
const LEAST_BETTER = 20;
/** Mean cost is divided by this; see estimateClockOffset. */
const VARIANCE_INFLATION = 2;
const LATITUDES_DEG: readonly number[] = range(-65, 66, 10);
const HALF_STEP_DEG = 5;
/** A latitude seen this near to the claimed one is no ground for doubt, degrees. */
const NEAR_DEG = 17;

/**
 * Asks the lengths of the days whether the claimed place can be right, and whether a changed sign or swapped
 * coordinates would make it so; with the offset (minutes) that each such place would give the stamps. A wrong
 * longitude alone moves the offset by 4 minutes a degree and is seen only there.
 *
 * in: all, folded at the claimed place; claimed
 * out: verdict on the latitude, the latitude seen, the slips that fit
 * valid: latitudes -65 to 65; 'undecided' where the days have nearly one length at every latitude (around an equinox)
 */
export function checkSiteBySun(all: FoldedSeries, claimed: Place): SiteReading {
  const count = all.days.length;
  if (count < 3) return { verdict: 'undecided', latitudeSeen_deg: Number.NaN, slips: [] };
  const some = everyDay(all, Math.floor(count / DAYS));
  const costs = new Kept<number>();
  const costAt = (latitude_deg: number): number =>
    costs.of([latitude_deg], () => leastCost(foldAt(some, latitude_deg)));
  const offsets = new Kept<number>();
  const offsetAt = (latitude_deg: number): number =>
    offsets.of([latitude_deg], () => estimateClockOffset(foldAt(some, latitude_deg)).offset_min);
  const here = costAt(claimed.latitude_deg);
  const scan = LATITUDES_DEG.map(costAt);
  const near = LATITUDES_DEG[minIndex(scan)]!;
  const finer = [near - HALF_STEP_DEG, near, near + HALF_STEP_DEG];
  const seen = finer[minIndex(finer.map(costAt))]!;
  const slips = possibleSlips(claimed).filter((slip) => Math.abs(slip.latitude_deg) <= 66.5);
  const best = Math.min(here, costAt(seen), ...slips.map((slip) => costAt(slip.latitude_deg)));
  const doubted = here - best > LEAST_BETTER && Math.abs(seen - claimed.latitude_deg) > NEAR_DEG;
  const flat = Math.max(...scan) - Math.min(...scan) < LEAST_BETTER;
  return {
    verdict: doubted ? 'cannot be right' : flat ? 'undecided' : 'fits',
    latitudeSeen_deg: seen,
    slips: slips
      .map((slip) => ({ ...slip, betterBy: here - costAt(slip.latitude_deg) }))
      .filter(({ betterBy }) => here - betterBy - best <= LEAST_BETTER * (doubted ? 4 : 1))
      .filter(({ betterBy }) => !doubted || betterBy > LEAST_BETTER)
      .map((slip) => ({
        ...slip,
        offset_min: wrapped(offsetAt(slip.latitude_deg) + (slip.longitude_deg - claimed.longitude_deg) * 4),
      })),
  };
}

/** Cost at the best offset, every two hours first and then to a quarter of an hour. */
function leastCost(folded: FoldedSeries): number {
  const costsAt = (offsets_min: readonly number[]) => sumOfDays(negativeLogLikelihood(folded, offsets_min));
  const wide = FIRST_LOOK.filter((_, j) => j % 8 === 0);
  const near = wide[minIndex(costsAt(wide))]!;
  return min(costsAt(range(near - 60, near + 61, 15)))! / VARIANCE_INFLATION;
}

function possibleSlips({
  latitude_deg: a,
  longitude_deg: o,
}: Place): (Place & { slip: PlaceSlip['slip'] })[] {
  return [
    { slip: 'sign of longitude', latitude_deg: a, longitude_deg: -o },
    { slip: 'sign of latitude', latitude_deg: -a, longitude_deg: o },
    { slip: 'both signs', latitude_deg: -a, longitude_deg: -o },
    { slip: 'swapped', latitude_deg: o, longitude_deg: a },
    { slip: 'swapped and sign wrong', latitude_deg: o, longitude_deg: -a },
    { slip: 'swapped and sign wrong', latitude_deg: -o, longitude_deg: a },
    { slip: 'swapped and sign wrong', latitude_deg: -o, longitude_deg: -a },
  ];
}

/**
 * Refuses a place whose days have other lengths than the light shows.
 *
 * in: file, name for messages; site, what the sun says of the place
 * throws: WEATHER_CLOCK with the places it may be
 */
export function refusePlace(file: string, { verdict, slips, latitudeSeen_deg }: SiteReading): void {
  if (verdict !== 'cannot be right') return;
  const place = slips.map(slipText).join(', or ');
  throw new InputProblem({
    code: 'WEATHER_CLOCK',
    file,
    field: 'site.latitude_deg',
    got: `a place whose days have other lengths than the light shows (that of about ${latitudeSeen_deg} degrees)`,
    expected: 'the place the light was measured at',
    typed: slips.map(placeTyped),
    fix: place === '' ? 'state the place, as --place 54,10 (in a scenario, site).' : `is it ${place}?`,
  });
}

/** A place as it is typed. */
export function placeTyped({ latitude_deg, longitude_deg }: Place): string {
  return `--place ${latitude_deg},${longitude_deg}`;
}

/** A slip, and the place it would be, as it is typed. */
export function slipText(slip: PlaceSlip): string {
  return `${slip.slip}: ${placeTyped(slip)}`;
}
