import { beforeAll, describe, expect, it } from 'vitest';
import { terminalRun } from '../../sim/output/terminalRun.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { loadWeather } from '../../sim/trial/loadWeather.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import type { RunResult } from '../../sim/trial/Trial.ts';

const HOUR_MS = 3_600_000;
const DEEP_M = 0.2;

/** The demo's lamp of two capacitors, which keeps every night, in a year with a snowfall that lies from one date to another. */
async function runInSnow(from: string, to: string, onLid = true): Promise<RunResult> {
  const scenario = loadScenario('scenarios/invented-garden.yaml');
  const dry = (await loadWeather(scenario))!;
  const depth_m = dry.air_degC.map((_, i) => {
    const at_ms = dry.start_ms + i * HOUR_MS;
    return at_ms >= Date.parse(from) && at_ms < Date.parse(to) ? DEEP_M : 0;
  });
  // Below freezing while it lies, so that nothing melts.
  const air_degC = dry.air_degC.map((air, i) => (depth_m[i]! > 0 ? Math.min(air, -1) : air));
  scenario.lamps = scenario.lamps.filter(({ name }) => name === 'double');
  scenario.spots = scenario.spots.filter(({ name }) => name === 'lawn');
  for (const { params, section } of scenario.spots) {
    section.snow = { on_lid: onLid, ground_albedo: 0.6 };
    params.snow = section.snow;
  }
  return runAll(scenario, { weather: { ...dry, air_degC, snowDepth_m: depth_m } });
}

let run: RunResult;
beforeAll(async () => {
  run = await runInSnow('2025-01-20T00:00Z', '2025-02-05T00:00Z');
});

describe('snow on the lid', () => {
  it('is the cause of a night that failed and is kept with the lid brushed', async () => {
    const { nights, snow, statistics } = run.trials[0]!;
    const failed = nights.filter(({ outcome }) => outcome === 'failed');
    expect(failed.length).toBeGreaterThan(3);
    expect(failed.every(({ cause }) => cause === 'snow')).toBe(true);
    expect(statistics.winters[0]!.causes).toEqual({ snow: failed.length });
    expect(snow).toEqual({ failedNights: failed.length, bySnow: failed.length, brushedFailedNights: 0 });
    const brushed = (await runInSnow('2025-01-20T00:00Z', '2025-02-05T00:00Z', false)).trials[0]!;
    expect(brushed.statistics.verdict).toBe('kept');
    expect(brushed.snow).toBeUndefined();
  });

  it('is named in the verdict and among the changes, with what brushing would do', () => {
    const { failedNights } = run.trials[0]!.snow!;
    const text = terminalRun(run, {}).replace(/\s+/g, ' ');
    expect(text).toContain(
      `Snow on the lid: ${failedNights} of ${failedNights} failed nights; brushed off: none.`,
    );
    expect(run.trials[0]!.changes.find(({ change }) => change === 'the lid brushed')).toMatchObject({
      failedNights: 0,
      effect: 'mends',
    });
  });

  it('is counted by the night, whole days of it', () => {
    const { nights } = run.trials[0]!;
    const on = (night: string) => nights.find((row) => row.night === night)!.snowOnLid_h;
    expect(on('2025-01-25')).toBe(24);
    expect(on('2025-02-08')).toBe(0);
    expect(on('2025-07-01')).toBe(0);
  });

  it('is no cause where none lay, nor a change to try, and where it is asked for without a column the run says so', async () => {
    const scenario = loadScenario('scenarios/invented-garden.yaml');
    scenario.spots[0]!.section.snow = { on_lid: true, ground_albedo: 0.6 };
    const { trials } = await runAll(scenario);
    expect(trials.every(({ snow }) => snow === undefined)).toBe(true);
    expect(trials.some(({ changes }) => changes.some(({ change }) => /brushed/.test(change)))).toBe(false);
    expect(trials[0]!.flags.join()).toContain(
      'snow is asked for, but the weather has neither snow depth nor rain',
    );
    expect(trials[2]!.flags.join()).not.toContain('snow is asked for');
  });
});
