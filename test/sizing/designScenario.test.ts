import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { lampParams } from '../../sim/lamp/params.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import type { Design } from '../../sim/sizing/Design.ts';
import { designSpace, presentDesign } from '../../sim/sizing/DesignSpace.ts';
import { designAt } from '../../sim/sizing/designAt.ts';
import { designScenario } from '../../sim/sizing/designScenario.ts';
import { loadWeather } from '../../sim/trial/loadWeather.ts';
import { runNights } from '../../sim/trial/runTrial.ts';
import { scenarioLights } from '../../sim/trial/scenarioLights.ts';
import type { WeatherRecord } from '../../sim/weather/WeatherRecord.ts';

const GARDEN = readFileSync(new URL('../../scenarios/invented-garden.yaml', import.meta.url), 'utf8');
const DATA = fileURLToPath(new URL('../../data-samples', import.meta.url));
const CHOICES = `
choices:
  spot: [lawn, north-side]
  stand: { cell_tilt_deg: [10, 60], cell_bearing_deg: [180, SE] }
  cell: { part: [small-cell, good-cell], parallel: [1, 2] }
  capacitor: { capacitance_F: [100, 470], limiter: [none, { at_V: 2.4 }] }
  driver: { inductance_uH: [330, 680] }
  jar: { fixed_degC: [none, 5] }
  schedule: { until: ["22:30", dawn] }
`;

const folder = mkdtempSync(join(tmpdir(), 'longnight-design-'));

/** The garden as a file in a folder beside its data. */
function gardenIn(name: string, text: string): Scenario {
  mkdirSync(join(folder, name), { recursive: true });
  const path = join(folder, name, 'garden.yaml');
  writeFileSync(path, text.replaceAll('../data-samples', DATA));
  return loadScenario(path);
}

/** The nights of a design as a search runs it: its own parts, under the scenario's names. */
function nightsOf(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  { settled, spot }: Pick<Design, 'settled' | 'spot'>,
  lamp: string,
) {
  const light = scenarioLights(scenario, weather).of(spot.params);
  const { site, promise, start, seed } = scenario;
  const params = lampParams(settled, () => {});
  return runNights(params!, light, { spot: spot.name, lamp, site, promise, start, seed }).nights;
}

it('designScenario writes what runs to the same nights, to the bit, from another folder', async () => {
  const scenario = gardenIn('own', GARDEN + CHOICES);
  const space = designSpace(scenario, { lamp: 'double' });
  expect(space.count).toBe(2 * 4 * 4 * 4 * 2 * 2 * 2);
  const weather = await loadWeather(scenario);
  const designs = [presentDesign(space, 'north-side'), ...[77, 538, 1023].map((k) => designAt(space, k))];
  for (const [k, design] of designs.entries()) {
    const to = join(folder, 'elsewhere', `deep-${k}`);
    mkdirSync(to, { recursive: true });
    const text = designScenario(space, design, { folder: to, name: `design-${k}` });
    expect(text).not.toContain(folder);
    expect(text).not.toMatch(/^choices:/m);
    writeFileSync(join(to, 'design.yaml'), text);
    const again = loadScenario(join(to, 'design.yaml'));
    expect(again.name).toBe(`design-${k}`);
    const [spot, lamp] = [again.spots[0]!, again.lamps[0]!];
    expect([again.spots.length, again.lamps.length, spot.name, lamp.name]).toEqual([
      1,
      1,
      design.spot.name,
      'double',
    ]);
    expect(lamp.section).toEqual(design.section);
    expect(lamp.settled).toEqual(design.settled);
    expect(spot.params.cellTilt_deg).toBe(design.spot.params.cellTilt_deg);
    expect(spot.params.cellBearing_deg).toBe(design.spot.params.cellBearing_deg);
    const spotVariant = { ...spot, chosen: [], changed: [] };
    expect(again.weather?.path).toBe(scenario.weather?.path);
    expect(nightsOf(again, weather, { settled: lamp.settled, spot: spotVariant }, lamp.name)).toEqual(
      nightsOf(scenario, weather, design, 'double'),
    );
  }
});

it('designScenario keeps what the maker wrote of the rest, and says what was chosen', () => {
  const space = designSpace(gardenIn('words', GARDEN + CHOICES));
  const text = designScenario(space, designAt(space, space.count - 1), { folder, name: 'chosen' });
  expect(text.split('\n').slice(0, 13)).toEqual([
    '# Made by size from garden.yaml:',
    '#   spot north-side',
    '#   stand.cell_tilt_deg 60 deg',
    '#   stand.cell_bearing_deg SE',
    '#   cell.part good-cell',
    '#   cell.parallel 2',
    '#   capacitor.capacitance_F 470 F',
    '#   capacitor.limiter {"at_V":2.4}',
    '#   driver.inductance_uH 680 uH',
    '#   jar.fixed_degC 5 degC',
    '#   schedule.until dawn',
    '',
    expect.stringMatching(/^# Everything in here is invented/),
  ]);
  expect(text).toContain('# Four metres north of a two-storey house');
  expect(text).not.toContain('# An open lawn');
  expect(text).not.toContain('# Twice of each');
  expect(text).toContain('cell: { part: good-cell, parallel: 2 }');
  expect(text).toContain('capacitor: { part: medium-capacitor, capacitance_F: 470, limiter: { at_V: 2.4 } }');
  expect(text).toContain('schedule: { on: dusk, until: dawn }');
});

it('designScenario writes out what a scenario says by an anchor, and needs its file no more', () => {
  const text = GARDEN.replace('single:\n    cell: {', 'single: &one\n    cell: {').replace(
    / {2}double:[\s\S]*$/,
    '  double: *one\n',
  );
  const scenario = gardenIn('anchors', `${text}choices: { cell: { parallel: [1, 2] } }\n`);
  const space = designSpace(scenario, { lamp: 'double', spot: 'lawn' });
  const to = join(folder, 'anchors');
  const path = join(to, 'design.yaml');
  writeFileSync(path, designScenario(space, designAt(space, 1), { folder: to, name: 'two' }));
  expect(loadScenario(path).lamps).toMatchObject([{ name: 'double', section: { cell: { parallel: 2 } } }]);
  rmSync(join(to, 'garden.yaml'));
  expect(designScenario(space, designAt(space, 1), { folder: to, name: 'two' })).toBe(
    readFileSync(path, 'utf8'),
  );
});
