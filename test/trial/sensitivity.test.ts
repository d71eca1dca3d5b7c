import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keyWords } from '../../sim/output/keyWords.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import { overWinters } from '../../sim/statistics/overWinters.ts';
import { loadWeather } from '../../sim/trial/loadWeather.ts';
import { type PartEnds, partEnds } from '../../sim/trial/partEnds.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import { type MovedBy, type Sensitivity, sensitivity } from '../../sim/trial/sensitivity.ts';
import { trialAssumptions } from '../../sim/trial/trialAssumptions.ts';

const DEMO = 'scenarios/invented-garden.yaml';
const folder = mkdtempSync(join(tmpdir(), 'longnight-sensitivity-'));
const CHANGED = join(folder, 'changed.yaml');
const text = readFileSync(DEMO, 'utf8').replaceAll('../data-samples/', `${resolve('data-samples')}/`);

let scenario: Scenario;
let found: Sensitivity;

beforeAll(async () => {
  scenario = loadScenario(DEMO);
  found = sensitivity(scenario, await loadWeather(scenario), { spot: 'north-side', lamp: 'single' });
});
afterAll(() => rmSync(folder, { recursive: true }));

const movedBy = (key: string): MovedBy => found.assumptions.find((moved) => moved.key === key)!;

/** Failed nights and short hours of the lamp with one capacitor, on the north side, in the demo with a piece changed. */
async function runWith(from: string | RegExp, to: string) {
  expect(text).toMatch(from);
  writeFileSync(CHANGED, text.replaceAll(from as string, to));
  const { trials } = await runAll(loadScenario(CHANGED), { withChanges: false });
  const trial = trials.find(({ spot, lamp }) => spot === 'north-side' && lamp === 'single')!;
  const { failedNights, short_h } = overWinters(trial.statistics.winters);
  return { failedNights, short_h };
}

describe('sensitivity', () => {
  it.each([
    ['cell.shunt_V', 'part: small-cell', 'part: small-cell, shunt_V: 50'],
    ['led.table', 'part: white-led', 'part: poor-led'],
    ['cover.dirt_loss', 'part: flat-lid', 'part: flat-lid, dirt_loss: 0.1'],
    ['capacitor.leakage_law', 'part: medium-capacitor', 'part: medium-capacitor, leakage_law: resistance'],
  ])('of %s is what a scenario that states the worse end gives when it is run', async (key, from, to) => {
    const { failedNights, short_h } = movedBy(key);
    const run = await runWith(from, to);
    expect(failedNights.worse).toBe(run.failedNights);
    expect(short_h.worse).toBeCloseTo(run.short_h, 1);
  });

  it('of what stands around is what a horizon profile five degrees higher gives', async () => {
    const profile = readFileSync('data-samples/house.csv', 'utf8').replace(
      /^([\d.]+),([\d.]+)/gm,
      (_, bearing, elevation) => `${bearing},${Math.min(90, Number(elevation) + 5)}`,
    );
    writeFileSync(join(folder, 'higher.csv'), profile);
    const run = await runWith(resolve('data-samples/house.csv'), 'higher.csv');
    const { failedNights, short_h } = movedBy('skyline_deg');
    expect(failedNights.worse).toBe(run.failedNights);
    expect(short_h.worse).toBeCloseTo(run.short_h, 1);
  });

  it('puts first what moves most, the worse end before the better', () => {
    const reach = ({ failedNights: { worse, assumed, better } }: MovedBy) =>
      Math.max(worse, assumed, better) - Math.min(worse, assumed, better);
    const reaches = found.assumptions.map(reach);
    expect(reaches).toEqual(reaches.toSorted((one, other) => other - one));
    expect(reaches[0]).toBeGreaterThan(20);
    for (const { failedNights, short_h } of found.assumptions) {
      expect(failedNights.worse).toBeGreaterThanOrEqual(failedNights.better);
      expect(failedNights.assumed).toBe(found.trials[0]!.failedNights);
      expect(short_h.assumed).toBe(found.trials[0]!.short_h);
    }
  });

  it('asks about all that was assumed of spot, weather and lamp, and about nothing stated', () => {
    const keys = found.assumptions.map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys).toEqual(
      expect.arrayContaining([
        'skyline_deg',
        'diffuse_share',
        'sky_model',
        'cover.dirt_loss',
        'cell.short_circuit_mA',
        'cell.shunt_V',
        'diode.forward_drop',
        'capacitor.capacitance_F',
        'capacitor.leakage_uA',
        'capacitor.leakage_law',
        'capacitor.leakage_doubling_K',
        'capacitor.delayed_share',
        'driver.efficiency',
        'driver.cutoff_V',
        'driver.standby_uA',
        'led.table',
        'jar.rise_K_full_sun',
      ]),
    );
    // The demo states it.
    expect(keys).not.toContain('albedo');
  });

  it('says of everything how to know it, and what a reading of the bench sheet would show', () => {
    for (const { key, know } of found.assumptions) {
      expect(know, key).toBeDefined();
      expect(keyWords(key), key).not.toBe(key);
    }
    const { shows } = movedBy('driver.standby_uA').know!;
    expect(shows!.unit).toBe('uA');
    expect([shows!.worse, shows!.assumed, shows!.better].map(Math.round)).toEqual([30, 5, 1]);
    const capacity = movedBy('capacitor.capacitance_F').know!;
    expect(capacity.what).toMatch(/^discharge from/);
    expect(capacity.shows!.worse / capacity.shows!.assumed).toBeCloseTo(320 / 360, 2);
  });

  it('counts the same part in several lamps once, over every trial', () => {
    const assumptions = trialAssumptions(scenario, undefined);
    const capacity = assumptions.filter(({ key }) => key === 'capacitor.capacitance_F');
    expect(capacity).toHaveLength(1);
    expect([...capacity[0]!.lamps!]).toEqual(['single', 'double']);
  });

  it('moves nothing it has no business with', async () => {
    const lean = sensitivity(scenario, await loadWeather(scenario), { spot: 'lawn', lamp: 'single' });
    const lawn = lean.assumptions.find(({ key }) => key === 'skyline_deg')!;
    // Nothing stands around the lawn: it cannot stand lower.
    expect(lawn.failedNights.better).toBe(lawn.failedNights.assumed);
    expect(lawn.short_h.better).toBe(lawn.short_h.assumed);
    expect(lawn.short_h.worse).toBeGreaterThan(lawn.short_h.assumed);
  });
});

describe('the low and the high values of the generic parts', () => {
  let ends: PartEnds[];
  beforeAll(async () => {
    ends = partEnds(scenario, await loadWeather(scenario));
  });

  it('give the verdict of the siblings at that end', async () => {
    const poor = text
      .replaceAll('small-cell', 'poor-cell')
      .replaceAll('small-schottky', 'poor-diode')
      .replaceAll('medium-capacitor', 'poor-capacitor')
      .replaceAll('inductor-driver', 'poor-driver')
      .replaceAll('white-led', 'poor-led')
      .replaceAll('part: small-jar', 'part: small-jar, rise_K_full_sun: 30')
      .replaceAll('part: flat-lid', 'part: flat-lid, absorption_per_m: 32');
    writeFileSync(CHANGED, poor);
    const { trials } = await runAll(loadScenario(CHANGED), { withChanges: false });
    expect(ends.map((trial) => trial.poor!.failedNights)).toEqual(
      trials.map(({ statistics }) => overWinters(statistics.winters).failedNights),
    );
  });

  it('lie on either side of what is assumed, which is what a run gives', async () => {
    const { trials } = await runAll(scenario, { withChanges: false });
    for (const [k, { assumed, poor, good }] of ends.entries()) {
      const run = overWinters(trials[k]!.statistics.winters);
      expect(assumed.failedNights).toBe(run.failedNights);
      expect(assumed.nights).toBe(365);
      expect(poor!.failedNights).toBeGreaterThan(assumed.failedNights);
      expect(good!.failedNights).toBeLessThanOrEqual(assumed.failedNights);
    }
  });

  it('are not told of a lamp without generic parts', () => {
    const [raw] = partEnds(loadScenario('scenarios/raw-parameters.yaml'), undefined);
    expect(raw!.poor).toBeUndefined();
    expect(raw!.assumed.nights).toBeGreaterThan(0);
  });
});
