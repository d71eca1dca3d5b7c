import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { JobsOptions } from '../../sim/trial/jobPool.ts';
import { scenarioOdds } from '../../sim/trial/scenarioOdds.ts';
import { inventedRecord } from '../climate/inventedRecord.ts';

const folder = mkdtempSync(join(tmpdir(), 'winters-'));
afterAll(() => rmSync(folder, { recursive: true }));

const file = join(folder, 'one.yaml');
const MEANS = [1, 1, 4, 8, 12, 15, 17, 17, 14, 10, 6, 2];
writeFileSync(
  file,
  `format: 1
site: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20, time_zone: Europe/Berlin }
weather: { climate: { clearness: [${MEANS.map(() => 0.4)}], air_degC: [${MEANS}] } }
promise: { from: dusk, hours: 5, least_lumen: 0.5 }
spots:
  lawn: {}
lamps:
  one:
    cell: { part: small-cell }
    diode: { part: small-schottky }
    capacitor: { part: medium-capacitor }
    driver: { part: inductor-driver }
    led: { part: white-led }
    schedule: { on: dusk, hours: 5 }
`,
);

/** As the build makes it: of sources a test's own thread would take packages as they are, which round as the engine does. */
const built = (await import(
  new URL('../../dist/index.js', import.meta.url).href
)) as typeof import('../../sim/index.ts');

const oddsWith = (winters: number, options: JobsOptions) => {
  const scenario = built.loadScenario(file);
  const basis = { record: inventedRecord(5), site: scenario.site, seed: 1 };
  return built.scenarioOdds(scenario, basis, { winters }, options);
};

describe('odds on several threads', () => {
  it('are the same on one thread, on two, and on that of the program', async () => {
    const two = await oddsWith(20, { threads: 2 });
    expect(await oddsWith(20, { threads: 1 })).toEqual(two);
    expect(await oddsWith(20, { threads: 0 })).toEqual(two);
    expect(two?.trials[0]?.winters).toBe(20);
    expect(two?.asked).toBeUndefined();
    expect(two?.trials[0]?.failedNights.mean).toBeGreaterThan(0);
  });

  it('say what is wrong with an input as it was said, whichever thread finds it', async () => {
    const scenario = loadScenario(file);
    const written = new TextEncoder().encode('format: 1\nspots: 7\n');
    const basis = { record: inventedRecord(5), site: scenario.site, seed: 1 };
    const odds = scenarioOdds({ ...scenario, written, file: 'mine.yaml' }, basis, { winters: 20 });
    await expect(odds).rejects.toThrow(InputProblem);
    await expect(odds).rejects.toThrow(/^SCENARIO_WRONG_TYPE {2}mine.yaml:2/m);
  });

  it('are given of what there is where they are broken off', async () => {
    const controller = new AbortController();
    const odds = await oddsWith(5000, {
      threads: 2,
      signal: controller.signal,
      onProgress: (done) => {
        if (done === 2) controller.abort();
      },
    });
    // The job in hand is not waited for.
    expect(odds?.asked).toBe(5000);
    expect(odds?.trials[0]?.winters).toBeGreaterThan(10);
    expect(odds?.trials[0]?.winters).toBeLessThan(1000);
  });
});
