import { describe, expect, it } from 'vitest';
import { packedPlain } from '../../../sim/output/page/packedPlain.ts';
import { unpackedPlain } from '../../../sim/output/page/unpackedPlain.ts';
import { loadScenario } from '../../../sim/scenario/loadScenario.ts';
import type { LiveRun } from '../../../sim/trial/live/LiveRun.ts';
import { LiveTrials } from '../../../sim/trial/live/LiveTrials.ts';
import { liveRunOf } from '../../../sim/trial/live/liveRunOf.ts';
import { runAll } from '../../../sim/trial/runAll.ts';
import type { HourlyTrial } from '../../../sim/trial/Trial.ts';

/** A trial without what differs by how it was made, not by what it says. */
function told({ light: _, ...trial }: HourlyTrial) {
  return trial;
}

describe.each(['invented-garden', 'bench-readings', 'raw-parameters', 'dusk-to-dawn'])(
  '%s, run again',
  (name) => {
    it('gives every trial to the bit, changes too', async () => {
      const run = await runAll(loadScenario(`scenarios/${name}.yaml`));
      const live = new LiveTrials((await unpackedPlain(packedPlain(liveRunOf(run)))) as LiveRun);
      for (const trial of run.trials) {
        const again = live.trial(trial.spot, trial.lamp) as HourlyTrial;
        const changes = live.changes(trial.spot, trial.lamp);
        expect(told({ ...again, changes } as HourlyTrial)).toStrictEqual(told(trial));
        expect(again.light.planeOfArray_W_m2).toStrictEqual(trial.light.planeOfArray_W_m2);
      }
    });
  },
);
