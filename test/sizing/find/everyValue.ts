import type { DriverSection } from '../../../sim/lamp/driver/schema.ts';
import type { Scenario } from '../../../sim/scenario/Scenario.ts';
import { percentSteps } from '../../../sim/sizing/find/answerOf.ts';
import type { FindWord, Found } from '../../../sim/sizing/find/Found.ts';
import { LeanTrials, type Premises } from '../../../sim/trial/LeanTrials.ts';
import type { WeatherRecord } from '../../../sim/weather/WeatherRecord.ts';

/** Ranges that are looked over, as shares of what is stated. */
const SHARES: Record<Exclude<FindWord, 'promise'>, [number, number]> = {
  capacitance: [1 / 16, 16],
  shade: [0.02, 5],
  light: [1 / 1000, 100],
  inductor: [1 / 16, 16],
};

export interface Trialled {
  scenario: Scenario;
  weather: WeatherRecord | undefined;
  spot: string;
  lamp: string;
}

/**
 * Failed nights with each value of a question, by running them all: what a search is held against.
 *
 * in: word; trial; only, the places along the values that are run
 */
export function everyValue(
  word: FindWord,
  { scenario, weather, ...names }: Trialled,
  only: (place: number, value: number) => boolean = () => true,
): { place: number; value: number; failedNights: number }[] {
  const lean = new LeanTrials(scenario, weather);
  const spot = scenario.spots.find(({ name }) => name === names.spot)!;
  const lamp = scenario.lamps.find(({ name }) => name === names.lamp)!;
  const asStated = lean.premises(spot, lamp);
  const { driver, capacitor } = lamp.settled;
  const [stated, changed] = changes[word]({ asStated, driver, capacitor });
  const values =
    word === 'promise'
      ? Array.from({ length: 144 }, (_, k) => (k + 1) / 6)
      : percentSteps(stated, ...SHARES[word]);
  return values.flatMap((value, place) => {
    if (!only(place, value)) return [];
    const outcome = lean.outcome({ ...asStated, ...changed(value) });
    return [{ place, value, failedNights: outcome?.failedNights ?? Number.POSITIVE_INFINITY }];
  });
}

interface Parts {
  asStated: Premises;
  driver: DriverSection;
  capacitor: Premises['lamp']['capacitor'];
}

/** What is stated, and the premises that each value changes, written anew here. */
const changes: Record<FindWord, (parts: Parts) => [number, (value: number) => Partial<Premises>]> = {
  capacitance: ({ asStated: { lamp }, capacitor }) => [
    capacitor.capacitance_F!,
    (capacitance_F) => ({ lamp: { ...lamp, capacitor: { ...capacitor, capacitance_F } } }),
  ],
  promise: ({ asStated: { lamp, promise } }) => [
    promise.hours!,
    (hours) => ({
      promise: {
        ...promise,
        hours,
        tolerance_h: promise.tolerance_h * Math.min(1, (hours * 60) / (promise.hours! * 60)),
      },
      lamp: { ...lamp, schedule: { ...lamp.schedule, hours } },
    }),
  ],
  shade: () => [1, (lightShare) => ({ lightShare })],
  light: ({ asStated: { promise } }) => [
    promise.least_lumen,
    (least_lumen) => ({ promise: { ...promise, least_lumen } }),
  ],
  inductor: ({ asStated: { lamp }, driver }) => {
    const key = driver.kind === 'boost' ? 'inductance_uH' : 'power_mW';
    const stated = (driver as unknown as Record<string, number>)[key]!;
    return [
      stated,
      (value) => ({ lamp: { ...lamp, driver: { ...driver, [key]: value } as Premises['lamp']['driver'] } }),
    ];
  },
};

/** What every value says of an answer: the value, the one beside it, and where keeping turns. */
export function answerAmong(
  values: ReturnType<typeof everyValue>,
  end: Found['end'],
): Pick<Found, 'value' | 'neighbour' | 'turns'> {
  const away = end === 'least' ? values : values.toReversed();
  const kept = away.map(({ failedNights }) => failedNights === 0);
  const first = kept.indexOf(true);
  const turns = away.flatMap(({ value }, k) => {
    const before = k > first && kept[k] && !kept[k - 1];
    const after = k >= first && kept[k] && k < away.length - 1 && !kept[k + 1];
    return [...(before ? [value] : []), ...(after ? [value] : [])];
  });
  return { value: away[first]?.value, neighbour: first < 0 ? undefined : away[first - 1]?.value, turns };
}
