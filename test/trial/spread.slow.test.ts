import { beforeAll, describe, expect, it } from 'vitest';
import type { PartFit } from '../../sim/common/Estimate.ts';
import { lampParams } from '../../sim/lamp/params.ts';
import type { SettledSection } from '../../sim/lamp/schema.ts';
import { type LampFits, settleLamp } from '../../sim/lamp/settleLamp.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { ScenarioLamp } from '../../sim/scenario/Scenario.ts';
import { lampSamples } from '../../sim/trial/lampSamples.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import { runTrial } from '../../sim/trial/runTrial.ts';
import { spreader } from '../../sim/trial/spread.ts';
import type { RunResult } from '../../sim/trial/Trial.ts';

let run: RunResult;
let lamp: ScenarioLamp;

beforeAll(async () => {
  const scenario = loadScenario('scenarios/bench-readings.yaml');
  run = await runAll(scenario, { withChanges: false });
  lamp = scenario.lamps[0]!;
});

/** The lamp with the readings of one part only, the others settled at what theirs gave. */
function readOnly(part: keyof LampFits): ScenarioLamp {
  const none = { cell: undefined, diode: undefined, capacitor: undefined };
  const fits = { ...none, driver: undefined, led: undefined, jar: undefined, [part]: lamp.fits[part] };
  return { ...lamp, fits };
}

/** The same run with another lamp. */
function withLamp(other: ScenarioLamp): RunResult {
  return { ...run, scenario: { ...run.scenario, lamps: [other] } };
}

const spreadOf = (some: RunResult, samples: number) =>
  spreader(some.scenario, samples)(some.trials[0]!).spread!;

describe('spread', () => {
  it('is the same for the same seed, and another for another', () => {
    const other = { ...run, scenario: { ...run.scenario, seed: 2 } };
    const first = spreadOf(run, 5);
    expect(spreadOf(run, 5)).toEqual(first);
    expect(spreadOf(other, 5)).not.toEqual(first);
  });

  it('leaves the trial itself as it was', () => {
    const { spread: added, ...rest } = spreader(run.scenario, 2)(run.trials[0]!);
    expect(added!.samples).toBe(2);
    expect(rest).toEqual(run.trials[0]);
  });

  it('is what running a drawn lamp gives', () => {
    const { seed, site, promise, start } = run.scenario;
    const drawn = lampSamples(lamp, seed, 1)[0]!.settled!;
    const params = lampParams(drawn, (problem) => expect.fail(problem.got))!;
    const { light } = run.trials[0]!;
    const again = runTrial(params, light, { spot: 'lawn', lamp: 'measured', seed, site, promise, start });
    const nights = again.statistics.winters.reduce((sum, winter) => sum + winter.failedNights, 0);
    expect(spreadOf(run, 1)).toMatchObject({
      ran: 1,
      failedNights: { lowest: nights, median: nights, highest: nights },
    });
  });

  it('counts every draw, and puts the median between the lowest and the highest', () => {
    const found = spreadOf(run, 6);
    expect(found.samples).toBe(6);
    const { lowest, median, highest } = found.failedNights;
    expect(lowest).toBeLessThanOrEqual(median);
    expect(median).toBeLessThanOrEqual(highest);
    expect(highest).toBeGreaterThan(lowest);
    expect(found.verdictStands).toBeLessThanOrEqual(found.ran);
  });

  it('names the efficacy of the LED, more of it less dark, where only the LED is open', () => {
    const { mostly, parameters } = spreadOf(withLamp(readOnly('led')), 12);
    expect(parameters.map(({ key }) => key)).toEqual(['led.efficacy_lm_W']);
    expect(mostly!.key).toBe('led.efficacy_lm_W');
    // Not -1: of samples bright enough, several may fail in the same hours.
    expect(mostly!.rankCorrelation).toBeLessThan(-0.95);
  });

  it('gives fewer short hours for more capacitance, where only a discharge of the capacitor was read', () => {
    const { rest: _, ...readings } = lamp.section.capacitor.readings!;
    const section = { ...lamp.settled, capacitor: { ...lamp.section.capacitor, readings } };
    const only = { ...lamp, section, ...settleLamp(section, ({ got }) => expect.fail(got))! };
    const { mostly, parameters } = spreadOf(withLamp(only), 12);
    expect(parameters.map(({ key }) => key)).toEqual(['capacitor.capacitance_F']);
    expect(mostly!.rankCorrelation).toBeLessThan(-0.95);
  });

  it('names the photocurrent, more of it less dark, where only the cell is open', () => {
    // -0.97 to -0.98 with 40 samples of three seeds; the cell's other parameters stay below 0.3.
    const { mostly } = spreadOf(withLamp(readOnly('cell')), 20);
    expect(mostly!.key).toBe('cell.photocurrent_A');
    expect(mostly!.rankCorrelation).toBeLessThan(-0.9);
  });

  it('gives more short hours for more leakage, everything else alike', () => {
    const { low, high } = lamp.fits.capacitor!.estimates.find(({ key }) => key === 'leakage_uA')!;
    const { seed, site, promise, start } = run.scenario;
    const shortHours = (settled: SettledSection, leakage_uA: number) => {
      const changed = { ...settled, capacitor: { ...settled.capacitor, leakage_uA } };
      const params = lampParams(changed, (problem) => expect.fail(problem.got))!;
      const terms = { spot: 'lawn', lamp: 'measured', seed, site, promise, start };
      const { winters } = runTrial(params, run.trials[0]!.light, terms).statistics;
      return winters.reduce((sum, winter) => sum + winter.short_h, 0);
    };
    const samples = lampSamples(lamp, 1, 4).map(({ settled }) => settled!);
    const more_h = samples.map((settled) => shortHours(settled, high) - shortHours(settled, low));
    for (const hours of more_h) expect(hours).toBeGreaterThanOrEqual(0);
    expect(Math.max(...more_h)).toBeGreaterThan(0);
  });

  it('has nothing to draw without readings, or with readings that give no interval', () => {
    const settledAgain = { ...lamp, ...settleLamp(lamp.settled, () => {})! };
    expect(lampSamples(settledAgain, 1, 5)).toEqual([]);
    const readings = { ...lamp.section.driver.readings!, rows: [] };
    const plain = { ...lamp.settled, driver: { ...lamp.settled.driver, readings } };
    expect(lampSamples({ ...lamp, ...settleLamp(plain, () => {})! }, 1, 5)).toEqual([]);
    const none = withLamp(settledAgain);
    expect(spreadOf(none, 5)).toMatchObject({ samples: 0, ran: 0, verdictStands: 0, parameters: [] });
  });

  it('counts sampled lamps that cannot run apart', () => {
    // A cut-off that no cell can reach: every drawn lamp is refused.
    const driver = { ...lamp.settled.driver, cutoff_V: 9, restart_V: 9.5 };
    const fits = { ...lamp.fits, driver: undefined };
    const never = withLamp({ ...lamp, settled: { ...lamp.settled, driver }, fits });
    const found = spreadOf(never, 3);
    expect(found).toMatchObject({ samples: 3, ran: 0 });
    expect(found.failedNights.median).toBeNaN();
  });
});

describe('lampSamples', () => {
  it('fall inside the 90 percent intervals of the fit in 9 of 10', () => {
    const samples = lampSamples(lamp, 1, 400);
    const shares = Object.entries<PartFit | undefined>({ ...lamp.fits }).flatMap(([part, fit]) =>
      fit!.estimates.flatMap(({ key, low, high }) => {
        const drawn = samples.map(({ sizes }) => sizes[`${part}.${key}`]!);
        if (!(high > low) || drawn[0] === undefined) return [];
        return [
          [`${part}.${key}`, drawn.filter((size) => size >= low && size <= high).length / 400] as const,
        ];
      }),
    );
    expect(shares.length).toBeGreaterThan(9);
    // 400 samples of a share of 0.9 have a standard deviation of 0.015; four of them. The leakage is cut off at 0,
    // which takes a little from below.
    for (const [key, share] of shares) {
      expect(share, key).toBeGreaterThan(0.84);
      expect(share, key).toBeLessThan(0.96);
    }
  });

  it('move the rows of one table together', () => {
    for (const { settled: drawn } of lampSamples(lamp, 3, 4)) {
      const factors = drawn!.led.table!.map(
        (row, i) => row.efficacy_lm_W / lamp.settled.led.table![i]!.efficacy_lm_W,
      );
      // Intervals of the rows differ by the rounding of the lux meter alone.
      for (const factor of factors) expect(Math.abs(factor / factors[0]! - 1)).toBeLessThan(0.02);
    }
  });

  it('draw a part alike whatever the other parts', () => {
    const drawn = (some: ScenarioLamp) =>
      lampSamples(some, 1, 3).map(({ sizes }) => sizes['jar.rise_K_full_sun']);
    expect(drawn(readOnly('jar'))).toEqual(drawn(lamp));
  });
});
