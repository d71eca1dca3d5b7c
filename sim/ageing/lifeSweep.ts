import { maxIndex } from 'd3-array';
import type { Scenario, ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { JobsOptions } from '../trial/jobPool.ts';
import { LIFE_LAWS } from './capacitorWear.ts';
import type { ChangedLamp } from './changedLamp.ts';
import type { LawLife, LifePremises } from './LifeTrials.ts';
import { lifeTotal } from './lifeCost.ts';
import { runLives } from './runLives.ts';
import type { LifeSweep, LifeVariant } from './ScenarioLives.ts';

/** Values of one kind that are tried. */
export interface SweepWish {
  what: LifeSweep['what'];
  values: readonly number[];
}

/** How a value is said. */
const SAID: Record<LifeSweep['what'], { unit: string; label: (value: number) => string }> = {
  limit: { unit: 'V', label: (value) => `${value} V` },
  'led-current': { unit: 'times', label: (value) => `${value} times the current` },
  capacitors: { unit: 'parts', label: (value) => `${value} in parallel` },
};

const MIDDLE = 1;

/**
 * What other values of a lamp do tonight and in the long run, of every trial and wish.
 *
 * in: scenario; pairs, the trials; premises, that their lives are run with; wishes; options
 * out: sweeps of each trial in turn; a trial that was not complete where it was stopped is left out
 * throws: InputProblem as `runLives`
 * valid: what a limiter draws is in the energy ledger; light that the capacitor has no room for is heat of the cell with
 *   a limiter or without, so that the jar is no warmer by it
 */
export async function lifeSweeps(
  scenario: Scenario,
  pairs: readonly { spot: ScenarioSpot; lamp: ScenarioLamp }[],
  premises: LifePremises,
  wishes: readonly SweepWish[],
  options: JobsOptions = {},
): Promise<LifeSweep[]> {
  const variants = pairs.flatMap(({ spot, lamp }) =>
    wishes.flatMap(({ what, values }) =>
      values.map((value) => ({ spot: spot.name, lamp: lamp.name, changed: { what, value } })),
    ),
  );
  const jobs = variants.flatMap((variant) => LIFE_LAWS.map(({ name: law }) => ({ ...variant, law })));
  const lives = await runLives(scenario, premises, jobs, options);
  let next = 0;
  return pairs.flatMap(({ spot, lamp }) =>
    wishes.flatMap(({ what, values }): LifeSweep[] => {
      const of = values.map((value) => {
        const laws = lives.slice(next, next + LIFE_LAWS.length);
        next += LIFE_LAWS.length;
        return laws.every((life) => life !== undefined) ? variantOf({ what, value }, laws) : undefined;
      });
      if (!of.every((variant) => variant !== undefined)) return [];
      return [{ what, spot: spot.name, lamp: lamp.name, variants: of, best: bestOf(of) }];
    }),
  );
}

function variantOf({ what, value }: ChangedLamp, laws: readonly LawLife[]): LifeVariant {
  const { unit, label } = SAID[what];
  const named = { label: label(value), value, unit };
  const cannot = laws.find((life) => 'cannotBe' in life);
  if (cannot !== undefined)
    return {
      ...named,
      bands: [],
      tonight: { failedNights: Number.NaN, light_lm_h: Number.NaN },
      untilBreak_klm_h: [],
      cannotBe: cannot.cannotBe,
    };
  const bands = laws.flatMap((life) => ('life' in life ? [life.life] : []));
  const { failedNights, light_lm_h } = bands[0]!.winters[0]!;
  return {
    ...named,
    bands,
    tonight: { failedNights, light_lm_h },
    untilBreak_klm_h: bands.map((life) => lifeTotal(life, undefined).untilBreak_klm_h),
  };
}

function bestOf(variants: readonly LifeVariant[]): number | undefined {
  const best = maxIndex(variants, ({ untilBreak_klm_h }) => untilBreak_klm_h[MIDDLE]);
  return best >= 0 && variants[best]!.untilBreak_klm_h[MIDDLE]! > 0 ? best : undefined;
}
