import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';

const folder = fileURLToPath(new URL('../../scenarios/', import.meta.url));
const files = readdirSync(folder).filter((name) => name.endsWith('.yaml'));

describe('the scenarios of scenarios/', () => {
  it.each(files)('%s loads, without a flag, under its own name', (file) => {
    const { name, lamps, spots } = loadScenario(`${folder}${file}`);
    expect(`${name}.yaml`).toBe(file);
    // What readings say beside a datasheet is no fault of a scenario.
    const flags = lamps.flatMap((lamp) => lamp.flags).filter((flag) => !flag.startsWith('Readings of'));
    expect(flags).toEqual([]);
    expect(spots.length).toBeGreaterThan(0);
  });

  it.each(files)('%s says that it is invented', (file) => {
    expect(readFileSync(`${folder}${file}`, 'utf8')).toMatch(/^# Everything in here is invented/);
  });

  it('show the same garden and parts, whether for hours or until dawn', () => {
    const [some, all] = ['invented-garden', 'dusk-to-dawn'].map((name) =>
      loadScenario(`${folder}${name}.yaml`),
    );
    expect(all!.resolved.spots).toEqual(some!.resolved.spots);
    expect(all!.resolved.weather).toEqual(some!.resolved.weather);
    expect(all!.promise).toMatchObject({ from: 'dusk', until: 'dawn' });
  });

  it('have one whose parts are all raw and whose second-order effects are off', () => {
    const { lamps, spots, weather } = loadScenario(`${folder}raw-parameters.yaml`);
    expect(weather).toBeUndefined();
    expect(spots[0]!.params.loggedLight).toBeDefined();
    const { cell, diode, capacitor, driver, led, jar } = lamps[0]!.section;
    for (const part of [cell, diode, capacitor, led]) expect(part.raw).toBeDefined();
    expect(capacitor.raw).toMatchObject({ rise_F_V: 0, delayed_branches: [] });
    expect(lamps[0]!.params.capacitor.leakageDoubling_K).toBe(Number.POSITIVE_INFINITY);
    expect(diode.barrier_eV).toBe(0);
    expect(jar.fixed_degC).toBe(25);
    expect(driver).toMatchObject({ kind: 'power', standby_uA: 0, below_cutoff_uA: 0 });
  });
});
