import { afterAll, describe, expect, it } from 'vitest';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { comparedRuns, compareRuns, comparisonOf } from '../../sim/trial/compareRuns.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import { smallGarden } from '../cli/smallGarden.ts';

const garden = smallGarden();
afterAll(() => garden.remove());
const scenario = loadScenario(`${garden.folder}/small.yaml`);

/** Counts, and aborts after so many trials. */
function abortedAfter(count: number) {
  const controller = new AbortController();
  const told: string[] = [];
  const onProgress = (done: number, all: number) => {
    told.push(`${done} of ${all}`);
    if (done === count) controller.abort(new Error('enough'));
  };
  if (count === 0) controller.abort(new Error('enough'));
  return { options: { signal: controller.signal, onProgress }, told };
}

describe('runAll', () => {
  it('tells how far it is, and lets a timer in between two trials', async () => {
    let turns = 0;
    const timer = setInterval(() => turns++, 0);
    const { options, told } = abortedAfter(3);
    const run = await runAll(scenario, options);
    clearInterval(timer);
    expect(told).toEqual(['1 of 2', '2 of 2']);
    expect(turns).toBeGreaterThan(0);
    expect(run).not.toHaveProperty('partial');
  });

  it('gives what was complete when its signal was aborted, marked as a part', async () => {
    const { options, told } = abortedAfter(1);
    const { trials, partial } = await runAll(scenario, options);
    expect(told).toEqual(['1 of 2']);
    expect(trials).toHaveLength(1);
    expect(partial).toEqual({ completeTrials: 1, allTrials: 2 });
  });

  it('throws the reason where nothing was complete', async () => {
    await expect(runAll(scenario, abortedAfter(0).options)).rejects.toThrow('enough');
  });
});

describe('comparedRuns', () => {
  const given = async () => [{ scenario, weather: (await runAll(scenario)).record }];

  it('comes to the comparison of runs that are kept whole', async () => {
    const { options, told } = abortedAfter(3);
    const { runs, trials } = await comparedRuns(await given(), options);
    expect(told).toEqual(['1 of 2', '2 of 2']);
    const whole = await runAll(scenario, { withChanges: false });
    expect(comparisonOf(runs, trials, 'spot')).toEqual(compareRuns([whole], 'spot'));
  });

  it('throws the reason of its signal: half of a comparison says nothing', async () => {
    await expect(comparedRuns(await given(), abortedAfter(1).options)).rejects.toThrow('enough');
  });
});
