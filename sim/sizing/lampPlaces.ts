import type { Scenario } from '../scenario/Scenario.ts';
import { type LeanOutcome, LeanTrials } from '../trial/LeanTrials.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { leastAssignment } from './leastAssignment.ts';

/** A lamp of the scenario tried in a spot of it. */
export interface PlacedLamp extends LeanOutcome {
  spot: string;
  lamp: string;
}

/** Which lamp goes where. */
export interface LampPlaces {
  /** How they were found, in words. */
  method: string;
  /** Spots that get a lamp, in the order of the scenario. */
  places: PlacedLamp[];
  /** Lamps that stay in the drawer, and spots that stay without one. */
  drawer: string[];
  empty: string[];
  /** How many of the places keep their promise, and what all of them come to. */
  kept: number;
  failedNights: number;
  short_h: number;
  /** What each lamp comes to in each spot: spots in their order, the lamps within each. */
  trials: PlacedLamp[];
}

const METHOD =
  'Linear assignment, exact: most promises kept, of these fewest failed nights, of these fewest short hours';

/**
 * Which of the lamps of a scenario goes into which of its spots: most promises kept, then fewest failed nights, then
 * fewest short hours, all places together. As many lamps get a spot as there are both.
 *
 * in: scenario; weather, undefined where the light is logged on every cell; onTried, told of every trial
 * throws: InputProblem as `runNights`
 */
export function lampPlaces(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  onTried: (done: number, all: number) => void = () => {},
): LampPlaces {
  const { spots, lamps } = scenario;
  const lean = new LeanTrials(scenario, weather);
  const trials = spots.flatMap((spot, s) =>
    lamps.map((lamp, l): PlacedLamp => {
      const outcome = lean.asStated(spot, lamp);
      onTried(s * lamps.length + l + 1, spots.length * lamps.length);
      return { spot: spot.name, lamp: lamp.name, ...outcome };
    }),
  );
  const places = placesAmong(spots.map((_, s) => trials.slice(s * lamps.length, (s + 1) * lamps.length)));
  const without = (named: readonly { name: string }[], key: 'spot' | 'lamp') =>
    named.flatMap(({ name }) => (places.some((place) => place[key] === name) ? [] : [name]));
  return {
    method: METHOD,
    places,
    drawer: without(lamps, 'lamp'),
    empty: without(spots, 'spot'),
    kept: places.filter(({ failedNights }) => failedNights === 0).length,
    failedNights: places.reduce((sum, place) => sum + place.failedNights, 0),
    short_h: places.reduce((sum, place) => sum + place.short_h, 0),
    trials,
  };
}

/** The best of the ways to fill the spots. in: bySpot, each lamp in each spot */
function placesAmong(bySpot: readonly (readonly PlacedLamp[])[]): PlacedLamp[] {
  const lamps = bySpot[0]?.length ?? 0;
  const costs = bySpot.map((row) => row.map(costOf));
  if (bySpot.length <= lamps) return leastAssignment(costs).map((lamp, spot) => bySpot[spot]![lamp]!);
  const turned = Array.from({ length: lamps }, (_, lamp) => costs.map((row) => row[lamp]!));
  const spots = leastAssignment(turned);
  return bySpot.flatMap((row, spot) => row.filter((_, lamp) => spots[lamp] === spot));
}

/** More than the failed nights, and than the short seconds, of any number of places. */
const NIGHTS = 10n ** 10n;
const SECONDS = 10n ** 14n;

/** One number that no failed night of another lamp outweighs a broken promise in, and no short second a failed night. */
function costOf({ failedNights, short_h }: LeanOutcome): bigint {
  const broken = failedNights > 0 ? NIGHTS : 0n;
  return (broken + BigInt(failedNights)) * SECONDS + BigInt(Math.round(short_h * 3600));
}
