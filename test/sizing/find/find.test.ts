import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { preferredNumbers } from '../../../sim/common/preferredNumbers.ts';
import { loadScenario } from '../../../sim/scenario/loadScenario.ts';
import { FIND_WORDS, type FindWord } from '../../../sim/sizing/find/Found.ts';
import { find } from '../../../sim/sizing/find/find.ts';
import { overWinters } from '../../../sim/statistics/overWinters.ts';
import { loadWeather } from '../../../sim/trial/loadWeather.ts';
import { runAll } from '../../../sim/trial/runAll.ts';
import { answerAmong, everyValue } from './everyValue.ts';

const folder = mkdtempSync(join(tmpdir(), 'longnight-find-'));
afterAll(() => rmSync(folder, { recursive: true }));

const text = readFileSync('scenarios/invented-garden.yaml', 'utf8').replaceAll(
  '../data-samples/',
  `${resolve('data-samples')}/`,
);
const weather = await loadWeather(loadScenario('scenarios/invented-garden.yaml'));

/** The demo with pieces changed. */
function demoWith(...changes: [string | RegExp, string][]) {
  const file = join(folder, 'changed.yaml');
  for (const [from] of changes) expect(text).toMatch(from);
  writeFileSync(
    file,
    changes.reduce((written, [from, to]) => written.replaceAll(from as string, to), text),
  );
  return loadScenario(file);
}

const demo = demoWith();
const NORTH = { spot: 'north-side', lamp: 'double' };
const LAWN = { spot: 'lawn', lamp: 'single' };

/** Failed nights by a whole run of a changed demo, as `run` does it. */
async function failedIn(names: typeof NORTH, ...changes: [string | RegExp, string][]): Promise<number> {
  const { trials } = await runAll(demoWith(...changes), { weather, withChanges: false });
  const trial = trials.find(({ spot, lamp }) => spot === names.spot && lamp === names.lamp)!;
  return overWinters(trial.statistics.winters).failedNights;
}

describe('find', () => {
  it.each(FIND_WORDS)(
    'of the %s agrees with every value around the answer, and with some far from it',
    (word) => {
      const [found] = find(word, demo, weather, NORTH);
      const trial = { scenario: demo, weather, ...NORTH };
      let near = -1;
      everyValue(word, trial, (place, value) => {
        if (value === found!.value) near = place;
        return false;
      });
      expect(near).toBeGreaterThan(0);
      const values = everyValue(word, trial, (place) => Math.abs(place - near) < 8 || place % 41 === 0);
      const among = answerAmong(values, found!.end);
      expect(among.value).toBe(found!.value);
      expect(among.neighbour).toBe(found!.neighbour);
      expect(among.turns.length).toBe(found!.turns.length);
      expect(found!.runs).toBeLessThan(70);
    },
  );

  it('gives a capacitance that its own run keeps, the one a percent less not; and the next that is sold', async () => {
    const [found] = find('capacitance', demo, weather, LAWN);
    const { value, neighbour, preferred } = found!;
    const withSize = (size: number) =>
      failedIn(LAWN, ['part: medium-capacitor', `part: medium-capacitor, capacitance_F: ${size}`]);
    expect(value! / neighbour!).toBeCloseTo(1.01, 3);
    expect(await withSize(value!)).toBe(0);
    expect(await withSize(neighbour!)).toBeGreaterThan(0);
    for (const { series, value: size } of preferred) {
      expect(size).toBe(preferredNumbers(series as 'E6', value!, 10 * value!)[0]);
      expect(await withSize(size)).toBe(0);
    }
  });

  it('gives a share of the light that a shading factor of the spot bears out', async () => {
    const [found] = find('shade', demo, weather, NORTH);
    const shaded = (factor: number) =>
      failedIn(NORTH, ['cell_tilt_deg: 10', `cell_tilt_deg: 10\n    shading: { factor: ${factor} }`]);
    expect(found!.value).toBeLessThan(1);
    expect(await shaded(found!.value!)).toBe(0);
    expect(await shaded(found!.neighbour!)).toBeGreaterThan(0);
  });

  it('of a promise that is broken or kept gives the longest, its tolerance as stated or the same share', async () => {
    const hoursOf = (names: typeof NORTH) => find('promise', demo, weather, names)[0]!.value!;
    expect(hoursOf(LAWN)).toBeLessThan(6);
    const longer = hoursOf(NORTH);
    expect(longer).toBeGreaterThan(6);
    expect(await failedIn(NORTH, ['hours: 6', `hours: ${longer}`])).toBe(0);
    expect(await failedIn(NORTH, ['hours: 6', `hours: ${longer + 1 / 6}`])).toBeGreaterThan(0);
  });

  it('of an inductor takes hours of its own, and says where it gets too dim', async () => {
    const [found] = find('inductor', demo, weather, { ...NORTH, lit_h: 5 });
    const [asPromised] = find('inductor', demo, weather, NORTH);
    expect(found!.value).toBeLessThan(asPromised!.value!);
    const wound = (uH: number) => failedIn(NORTH, ['hours: 6', 'hours: 5'], ['330', `${uH}`]);
    expect(await wound(found!.value!)).toBe(0);
    expect(await wound(found!.neighbour!)).toBeGreaterThan(0);
    const [dimmest] = found!.turns;
    expect(await wound(dimmest!)).toBe(0);
    expect(await wound(dimmest! * 1.01)).toBeGreaterThan(0);
    // A full capacitor lasts longer than the one of the darkest night.
    expect(found!.closedForm!.value).toBeLessThan(found!.value!);
    expect(asPromised!.closedForm!.value / found!.closedForm!.value).toBeCloseTo(6 / 5, 2);
  });

  it('of other drivers finds the setting that they have, of a measured table a share of its current', () => {
    const power = demoWith(
      ['driver: { part: inductor-driver }', 'driver: { kind: power, power_mW: 8 }'],
      [
        'driver: { part: inductor-driver, inductance_uH: 330, current_limit_mA: 60 }',
        'driver: { kind: table, table: [{ capacitor_V: 0.9, current_mA: 9 }, { capacitor_V: 2.4, current_mA: 14 }] }',
      ],
    );
    const [single, double] = find('inductor', power, weather, { spot: 'lawn' });
    expect(single).toMatchObject({ key: 'driver.power_mW', unit: 'mW', end: 'greatest', stated: 8 });
    expect(double).toMatchObject({ key: undefined, end: 'greatest', stated: 1, closedForm: undefined });
    expect(double!.value).toBeGreaterThan(0.3);
  });

  it('reports where more is worse: a bank that begins low and is too large to be filled before the dark', async () => {
    const start: [string, string] = ['start: cyclic', 'start: { capacitor_V: 0.9 }'];
    const scenario = demoWith(start);
    const autumn = await loadWeather(scenario, {
      from_ms: Date.UTC(2025, 10, 5),
      to_ms: Date.UTC(2025, 11, 31),
    });
    const [found] = find('capacitance', scenario, autumn, { spot: 'lawn', lamp: 'double' });
    const values = everyValue('capacitance', { scenario, weather: autumn, spot: 'lawn', lamp: 'double' });
    expect(found).toMatchObject(answerAmong(values, 'least'));
    expect(found!.turns.length).toBeGreaterThan(0);
  });

  it('says what comes nearest where nothing keeps', () => {
    const bright = demoWith(['least_lumen: 0.65', 'least_lumen: 4']);
    const [found] = find('capacitance', bright, weather, LAWN);
    expect(found!.value).toBeUndefined();
    expect(found!.turns).toEqual([]);
    const all = everyValue('capacitance', { scenario: bright, weather, ...LAWN }, (place) => place % 9 === 0);
    const fewest = Math.min(...all.map(({ failedNights }) => failedNights));
    expect(found!.nearest!.failedNights).toBeLessThanOrEqual(fewest);
    expect(found!.nearest!.nights).toBe(365);
  });
});

describe('a question that cannot be asked', () => {
  const asked = (word: FindWord, ...changes: [string | RegExp, string][]) => {
    const scenario = demoWith(...changes);
    return () => find(word, scenario, weather, LAWN);
  };

  it('is refused with the place of what stands in the way', () => {
    const raw = 'capacitor: { raw: { capacitance_F: 300, leakage_ohm: 9000 }, rated_V: 2.7 }';
    expect(asked('capacitance', ['capacitor: { part: medium-capacitor }', raw])).toThrow(
      /SCENARIO_CONFLICT .*changed\.yaml:\d+:\d+, "lamps\.single\.capacitor\.raw"/,
    );
    const clock: [string, string] = ['from: dusk, hours: 6', 'from: dusk, until: "22:00"'];
    expect(asked('promise', clock)).toThrow(/SCENARIO_CONFLICT .*changed\.yaml:\d+:\d+, "promise\.until"/);
    expect(asked('inductor', clock)).toThrow(/promise\.until/);
    const dawn: [string, string] = ['from: dusk, hours: 6', 'from: dusk, until: dawn'];
    expect(asked('inductor', dawn)).toThrow(/--lit-hours 8/);
  });

  it('but hours of a promise until dawn can be said', () => {
    const [found] = asked('promise', ['from: dusk, hours: 6', 'from: dusk, until: dawn'])();
    expect(found!.stated).toBeUndefined();
    expect(found!.value).toBeGreaterThan(3);
  });
});
