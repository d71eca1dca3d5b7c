import { beforeAll, describe, expect, it } from 'vitest';
import type { PartFit } from '../../sim/common/Estimate.ts';
import { fitLamp, type LampFits } from '../../sim/lamp/fitLamp.ts';
import { lampParams } from '../../sim/lamp/params.ts';
import type { LampSection } from '../../sim/lamp/schema.ts';
import { settledLamp } from '../../sim/lamp/settledLamp.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { lampDraws } from '../../sim/trial/lampDraws.ts';
import type { RunResult } from '../../sim/trial/RunResult.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import { runTrial } from '../../sim/trial/runTrial.ts';
import { spread } from '../../sim/trial/spread.ts';

let run: RunResult;
let section: LampSection;

beforeAll(() => {
  const scenario = loadScenario('scenarios/bench-readings.yaml');
  run = runAll(scenario, { withChanges: false });
  section = scenario.lamps[0]!.section;
});

/** The same run, its lamp with the readings of one part only, the others settled at what theirs gave. */
function withReadingsOf(part: keyof LampFits): RunResult {
  const only: LampSection = { ...settledLamp(section), [part]: section[part] };
  const { scenario } = run;
  return { ...run, scenario: { ...scenario, lamps: [{ ...scenario.lamps[0]!, section: only }] } };
}

const spreadOf = (some: RunResult, draws: number) => spread(some, { draws }).trials[0]!.spread!;

describe('spread', () => {
  it('is the same for the same seed, and another for another', () => {
    const other = { ...run, scenario: { ...run.scenario, seed: 2 } };
    const first = spreadOf(run, 5);
    expect(spreadOf(run, 5)).toEqual(first);
    expect(spreadOf(other, 5)).not.toEqual(first);
  });

  it('leaves the trial itself as it was', () => {
    const { spread: added, ...rest } = spread(run, { draws: 2 }).trials[0]!;
    expect(added!.draws).toBe(2);
    expect(rest).toEqual(run.trials[0]);
  });

  it('is what running a drawn lamp gives', () => {
    const { seed, site, promise, start } = run.scenario;
    const drawn = lampDraws(section, seed, 1)[0]!.section!;
    const lamp = lampParams(drawn, (problem) => expect.fail(problem.got))!;
    const { light } = run.trials[0]!;
    const again = runTrial(lamp, light, { spot: 'lawn', lamp: 'measured', site, promise, start });
    const nights = again.statistics.winters.reduce((sum, winter) => sum + winter.failedNights, 0);
    expect(spreadOf(run, 1)).toMatchObject({
      ran: 1,
      failedNights: { lowest: nights, median: nights, highest: nights },
    });
  });

  it('counts every draw, and puts the median between the lowest and the highest', () => {
    const seen: number[] = [];
    const { spread: found } = spread(run, { draws: 6, onDraw: (done, all) => seen.push(done / all) })
      .trials[0]!;
    expect(seen).toEqual([1, 2, 3, 4, 5, 6].map((done) => done / 6));
    const { lowest, median, highest } = found!.failedNights;
    expect(lowest).toBeLessThanOrEqual(median);
    expect(median).toBeLessThanOrEqual(highest);
    expect(highest).toBeGreaterThan(lowest);
    expect(found!.verdictStands).toBeLessThanOrEqual(found!.ran);
  });

  it('names the efficacy of the LED, more of it less dark, where only the LED is open', () => {
    const { mostly, parameters } = spreadOf(withReadingsOf('led'), 12);
    expect(parameters.map(({ key }) => key)).toEqual(['led.efficacy_lm_W']);
    expect(mostly!.key).toBe('led.efficacy_lm_W');
    // Not -1: of draws bright enough, several may fail in the same hours.
    expect(mostly!.rankCorrelation).toBeLessThan(-0.95);
  });

  it('gives fewer short hours for more capacitance, where only a discharge of the capacitor was read', () => {
    const { rest: _, ...readings } = section.capacitor.readings!;
    const only: LampSection = { ...settledLamp(section), capacitor: { ...section.capacitor, readings } };
    const { scenario } = run;
    const lamps = [{ ...scenario.lamps[0]!, section: only }];
    const { mostly, parameters } = spreadOf({ ...run, scenario: { ...scenario, lamps } }, 12);
    expect(parameters.map(({ key }) => key)).toEqual(['capacitor.capacitance_F']);
    expect(mostly!.rankCorrelation).toBeLessThan(-0.95);
  });

  it('has nothing to draw without readings, or with readings that give no interval', () => {
    const settled = settledLamp(section);
    expect(lampDraws(settled, 1, 5)).toEqual([]);
    const plain: LampSection = {
      ...settled,
      driver: { ...settled.driver, readings: { ...section.driver.readings!, rows: [] } },
    };
    expect(lampDraws(plain, 1, 5)).toEqual([]);
    const { scenario } = run;
    const none = { ...run, scenario: { ...scenario, lamps: [{ ...scenario.lamps[0]!, section: settled }] } };
    expect(spreadOf(none, 5)).toMatchObject({ draws: 0, ran: 0, verdictStands: 0, parameters: [] });
  });

  it('counts drawn lamps that cannot run apart', () => {
    const high: LampSection = { ...section, schedule: section.schedule };
    const { readings: _read, ...driver } = settledLamp(section).driver;
    // A cut-off that no cell can reach: every drawn lamp is refused.
    high.driver = { ...driver, cutoff_V: 9, restart_V: 9.5 } as LampSection['driver'];
    const { scenario } = run;
    const never = { ...run, scenario: { ...scenario, lamps: [{ ...scenario.lamps[0]!, section: high }] } };
    const found = spreadOf(never, 3);
    expect(found).toMatchObject({ draws: 3, ran: 0 });
    expect(found.failedNights.median).toBeNaN();
  });
});

describe('lampDraws', () => {
  it('fall inside the 90 percent intervals of the fit in 9 of 10', () => {
    const draws = lampDraws(section, 1, 400);
    const fits = fitLamp(section, () => {});
    const shares = Object.entries(fits as Record<string, PartFit>).flatMap(([part, fit]) =>
      fit.estimates.flatMap(({ key, low, high }) => {
        const drawn = draws.map(({ sizes }) => sizes[`${part}.${key}`]!);
        if (!(high > low) || drawn[0] === undefined) return [];
        return [
          [`${part}.${key}`, drawn.filter((size) => size >= low && size <= high).length / 400] as const,
        ];
      }),
    );
    expect(shares.length).toBeGreaterThan(9);
    // 400 draws of a share of 0.9 have a standard deviation of 0.015; four of them. The leakage is cut off at 0,
    // which takes a little from below.
    for (const [key, share] of shares) {
      expect(share, key).toBeGreaterThan(0.84);
      expect(share, key).toBeLessThan(0.96);
    }
  });

  it('move the rows of one table together', () => {
    for (const { section: drawn } of lampDraws(section, 3, 4)) {
      const factors = drawn!.led.table!.map(
        (row, i) => row.efficacy_lm_W / settledLamp(section).led.table![i]!.efficacy_lm_W,
      );
      // Intervals of the rows differ by the rounding of the lux meter alone.
      for (const factor of factors) expect(Math.abs(factor / factors[0]! - 1)).toBeLessThan(0.02);
    }
  });

  it('draw a part alike whatever the other parts', () => {
    const alone: LampSection = { ...settledLamp(section), jar: section.jar };
    const drawn = (some: LampSection) =>
      lampDraws(some, 1, 3).map(({ sizes }) => sizes['jar.rise_K_full_sun']);
    expect(drawn(alone)).toEqual(drawn(section));
  });
});
