import { expect, it } from 'vitest';
import { loadScenario } from '../../../sim/scenario/loadScenario.ts';
import { FIND_WORDS, type FindWord } from '../../../sim/sizing/find/Found.ts';
import { find } from '../../../sim/sizing/find/find.ts';
import { loadWeather } from '../../../sim/trial/loadWeather.ts';
import { winterMaker } from '../../../sim/trial/WinterMaker.ts';
import type { WeatherRecord } from '../../../sim/weather/WeatherRecord.ts';
import { answerAmong, everyValue } from './everyValue.ts';

const YEAR = loadScenario('scenarios/invented-garden.yaml');
const MEANS = loadScenario('scenarios/invented-climate.yaml');

/** A winter made of the climate of MEANS, with so much of its sun, so many degrees warmer. */
function madeWinter(seed: number, sun: number, warmer_K: number): WeatherRecord {
  const { site, climate } = MEANS;
  const maker = winterMaker({ site, seed, climate: climate!.section });
  const winter = maker.weather(maker.ways[0]!, seed, 0);
  return {
    ...winter,
    ghi_W_m2: winter.ghi_W_m2.map((ghi) => sun * ghi),
    air_degC: winter.air_degC.map((air) => air + warmer_K),
  };
}

const CASES = [
  { name: 'the demo', scenario: YEAR, weather: await loadWeather(YEAR) },
  { name: 'a made winter', scenario: MEANS, weather: madeWinter(3, 1, 0) },
  { name: 'a dull and cold one', scenario: MEANS, weather: madeWinter(11, 0.7, -6) },
].flatMap((weathered, k) =>
  [...(k === 1 ? [] : [['lawn', 'single']]), ...(k === 2 ? [] : [['north-side', 'double']])].flatMap(
    ([spot, lamp]) =>
      FIND_WORDS.map((word): [FindWord, string, typeof weathered & { spot: string; lamp: string }] => [
        word,
        `${lamp} on ${spot} in ${weathered.name}`,
        { ...weathered, spot: spot!, lamp: lamp! },
      ]),
  ),
);

it.each(CASES)(
  'find %s of %s is what running every value says',
  (word, _, { scenario, weather, spot, lamp }) => {
    const [found] = find(word, scenario, weather, { spot, lamp });
    // What is promised moves nothing in the lamp: of more than a thousand values of light some are enough.
    const every = word === 'light' ? 9 : 1;
    const values = everyValue(
      word,
      { scenario, weather, spot, lamp },
      (place, value) => place % every === 0 || value === found!.value || value === found!.neighbour,
    );
    const { value, neighbour, turns } = answerAmong(values, found!.end);
    expect([found!.value, found!.neighbour, found!.turns]).toEqual([value, neighbour, turns]);
    if (value === undefined)
      expect(found!.nearest!.failedNights).toBe(Math.min(...values.map(({ failedNights }) => failedNights)));
  },
);
