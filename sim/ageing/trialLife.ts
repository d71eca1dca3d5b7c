import { power } from '../common/elementary/power.ts';
import { lampPrice } from '../lamp/partsList.ts';
import type { ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import { LIFE_LAWS, lifeRating } from './capacitorWear.ts';
import type { LampLife } from './lampLife.ts';
import { type CheapChoice, cheapLamp, lifeTotal, partCost } from './lifeCost.ts';
import type { LifeEnd } from './lifeEnd.ts';
import { lifeFacts } from './lifeFacts.ts';
import type { TrialLife } from './ScenarioLives.ts';

/** A life by one law, and what ends it. */
export interface EndedLife {
  life: LampLife;
  end: LifeEnd | undefined;
}

/** Chance that a seal fails in a year where nothing is stated, percent; an assumption without source. */
export const SEAL_FAILS_PERCENT = 2;

/**
 * One trial through the years, by every law.
 *
 * in: lamp; spot; lives, by every law; cheap, the lamp that it is held against
 */
export function trialLife(
  { name, section }: ScenarioLamp,
  spot: ScenarioSpot,
  lives: readonly EndedLife[],
  cheap?: CheapChoice,
): TrialLife {
  const bands = lives.map(({ life }) => life);
  const price = lampPrice(section);
  const dryShare = 1 - (section.jar.seal_fails_percent_year ?? SEAL_FAILS_PERCENT) / 100;
  return {
    spot: spot.name,
    lamp: name,
    bands,
    ends: lives.map(({ end }) => end),
    price,
    totals: bands.map((life) => lifeTotal(life, price)),
    renewal: lives.flatMap(({ life: { law }, end }) => {
      if (end?.by === undefined || end.renewed?.keeps !== true) return [];
      const { by: part, winter, renewed } = end;
      return [
        { law, part, winter, cost: partCost(section, spot.section.cover, part), breaks: renewed.breaks },
      ];
    }),
    cheapLamp: cheapLamp(bands[0]!, cheap),
    dry: bands[0]!.winters.map(({ winter }) => power(dryShare, winter - 1)),
    facts: lives.flatMap(({ life }, k) => lifeFacts(life, lifeRating(section.capacitor), LIFE_LAWS[k]!)),
  };
}
