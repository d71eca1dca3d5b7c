import { fileURLToPath } from 'node:url';
import { beforeAll, expect, it } from 'vitest';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { type LampPlaces, lampPlaces, type PlacedLamp } from '../../sim/sizing/lampPlaces.ts';
import { overWinters } from '../../sim/statistics/overWinters.ts';
import { loadWeather } from '../../sim/trial/loadWeather.ts';
import { runAll } from '../../sim/trial/runAll.ts';

const file = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
const garden = loadScenario(file, 'invented-garden.yaml');
let weather: Awaited<ReturnType<typeof loadWeather>>;
beforeAll(async () => {
  weather = await loadWeather(garden);
});

/** The demo with so many lamps of the first kind changed, and with some of its spots. */
function gardenOf(lamps: number, spots: number) {
  const [single, double] = garden.lamps;
  const all = [single!, double!, { ...single!, name: 'third' }];
  return { ...garden, lamps: all.slice(0, lamps), spots: garden.spots.slice(0, spots) };
}

/** Broken promises, failed nights and short seconds of a way to fill the spots, as one list to be ordered by. */
function worth(places: readonly PlacedLamp[]): [number, number, number] {
  const sum = (of: (place: PlacedLamp) => number) => places.reduce((total, place) => total + of(place), 0);
  return [
    sum(({ failedNights }) => Number(failedNights > 0)),
    sum(({ failedNights }) => failedNights),
    sum(({ short_h }) => Math.round(short_h * 3600)),
  ];
}

/** Every way to give spots different lamps, as many as can be. */
function everyWay(trials: readonly PlacedLamp[], wanted: number): PlacedLamp[][] {
  if (wanted === 0) return [[]];
  return trials.flatMap((trial, k) =>
    everyWay(
      trials.slice(k + 1).filter(({ spot, lamp }) => spot !== trial.spot && lamp !== trial.lamp),
      wanted - 1,
    ).map((others) => [trial, ...others]),
  );
}

function smallest(ways: readonly PlacedLamp[][]): [number, number, number] {
  return ways.map(worth).sort((a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2])[0]!;
}

function heldAgainstEveryWay(found: LampPlaces): void {
  expect(worth(found.places)).toEqual(smallest(everyWay(found.trials, found.places.length)));
}

it('lampPlaces finds the best of all ways, and its trials are those of the run', async () => {
  const found = lampPlaces(garden, weather);
  heldAgainstEveryWay(found);
  expect(found).toMatchObject({ drawer: [], empty: [] });
  expect(found.places.map(({ spot }) => spot)).toEqual(['lawn', 'north-side']);
  const { trials } = await runAll(garden, { weather, withChanges: false });
  for (const [k, { statistics, spot, lamp }] of trials.entries()) {
    const { failedNights, nights } = overWinters(statistics.winters);
    expect(found.trials[k]).toMatchObject({ spot, lamp, failedNights, nights });
  }
});

it('lampPlaces leaves lamps in the drawer where spots are few, and spots empty where lamps are', () => {
  const fewSpots = lampPlaces(gardenOf(3, 1), weather);
  heldAgainstEveryWay(fewSpots);
  expect(fewSpots.places.length).toBe(1);
  expect(fewSpots.drawer.length).toBe(2);
  const fewLamps = lampPlaces(gardenOf(1, 2), weather);
  heldAgainstEveryWay(fewLamps);
  expect(fewLamps.places.length).toBe(1);
  expect(fewLamps.empty.length).toBe(1);
});
