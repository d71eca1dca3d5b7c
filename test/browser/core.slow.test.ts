/// <reference lib="dom" />
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { expect, it } from 'vitest';
import type * as core from '../../sim/core.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { loadWeather } from '../../sim/trial/loadWeather.ts';
import { browserPath, openFile, startBrowser } from './browser.ts';
import { builtTrial } from './builtTrial.ts';

const chromium = browserPath();

it.skipIf(chromium === undefined)('a year runs in a browser, to the same nights to the bit', async () => {
  const scenario = loadScenario('scenarios/invented-garden.yaml');
  const weather = (await loadWeather(scenario))!;
  const { start_ms, step_s, count, ghi_W_m2, air_degC, mark, origin } = weather;
  const columns = { ghi_W_m2: [...ghi_W_m2], air_degC: [...air_degC], mark: [...mark] };
  const given = JSON.stringify({
    record: { start_ms, step_s, count, origin },
    columns,
    scenario: {
      site: scenario.site,
      promise: scenario.promise,
      start: scenario.start,
      seed: scenario.seed,
    },
    spot: scenario.spots[0]!.section,
    lamp: scenario.lamps[0]!.settled,
  });
  const { outputFiles } = await build({
    entryPoints: ['dist/core.js'],
    bundle: true,
    format: 'iife',
    globalName: 'core',
    charset: 'utf8',
    write: false,
  });
  const folder = mkdtempSync(join(tmpdir(), 'core-'));
  const file = join(folder, 'page.html');
  writeFileSync(
    file,
    `<!DOCTYPE html><meta charset="utf-8"><script>${outputFiles[0]!.text.replaceAll('</script', '<\\/script')}</script>`,
  );
  const browser = await startBrowser(chromium!);
  try {
    const { page, problems, requests } = await openFile(browser, file);
    const nights = await page.evaluate(runInPage, given);
    expect({ problems, requests }).toEqual({ problems: [], requests: [] });
    expect(nights).toBe(JSON.stringify(builtTrial(0).nights));
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true });
  }
});

/** Runs in the page: a trial from plain data. */
function runInPage(given: string): string {
  const { lampParams, runTrial, SpotLights, spotParams } = (window as unknown as { core: typeof core }).core;
  const { record, columns, scenario, spot, lamp } = JSON.parse(given);
  const weather = {
    ...record,
    ghi_W_m2: Float64Array.from(columns.ghi_W_m2),
    air_degC: Float64Array.from(columns.air_degC),
    mark: Uint8Array.from(columns.mark),
  };
  const fail = (problem: unknown): never => {
    throw new Error(JSON.stringify(problem));
  };
  const lights = new SpotLights(scenario.site, weather, () => ({
    horizon: undefined,
    shading: undefined,
    measured: undefined,
    loggedLight: undefined,
  }));
  const light = lights.of(spotParams(spot, fail)!);
  const terms = { spot: 'lawn', lamp: 'single', ...scenario };
  return JSON.stringify(runTrial(lampParams(lamp, fail)!, light, terms).nights);
}
