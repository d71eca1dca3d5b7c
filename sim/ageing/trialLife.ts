import { lampPrice } from '../lamp/partsList.ts';
import type { ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { LIFE_LAWS, lifeRating } from './capacitorWear.ts';
import { LifeRun, type LifeTerms } from './LifeRun.ts';
import { type LampLife, lifeOf } from './lampLife.ts';
import { type CheapChoice, cheapLamp, lifeTotal, partCost } from './lifeCost.ts';
import { type LifeEnd, lifeEnd } from './lifeEnd.ts';
import { lifeFacts } from './lifeFacts.ts';
import type { TrialLife } from './ScenarioLives.ts';

/** A life by one law, and what ends it. */
export interface LawLife {
  life: LampLife;
  end: LifeEnd | undefined;
}

/** Chance that a seal fails in a year where nothing is stated, percent; an assumption without source. */
const SEAL_FAILS = 2;

/**
 * One trial through the years, by every law.
 *
 * in: lamp; spot; lights, as `lampLife` takes them; terms; cheap, the lamp that it is held against
 * throws: as `runTrial`
 */
export function trialLife(
  lamp: ScenarioLamp,
  spot: ScenarioSpot,
  lights: readonly [SpotLight, ...SpotLight[]],
  terms: Omit<LifeTerms, 'law'>,
  cheap?: CheapChoice,
): TrialLife {
  const lives = LIFE_LAWS.map((law): LawLife => {
    const run = new LifeRun(lamp, spot, lights, { ...terms, law });
    const { life, worn } = lifeOf(run, lamp);
    return { life, end: lifeEnd(run, life, worn) };
  });
  return joinedLife(lamp, spot, lives, cheap);
}

/** The lives of one trial by all laws, put together. */
export function joinedLife(
  { name, section }: ScenarioLamp,
  spot: ScenarioSpot,
  lives: readonly LawLife[],
  cheap?: CheapChoice,
): TrialLife {
  const bands = lives.map(({ life }) => life);
  const price = lampPrice(section);
  const dryShare = 1 - (section.jar.seal_fails_percent_year ?? SEAL_FAILS) / 100;
  return {
    spot: spot.name,
    lamp: name,
    bands,
    ends: lives.map(({ end }) => end),
    price,
    totals: bands.map((life) => lifeTotal(life, price)),
    renewal: lives.flatMap(({ life: { law }, end }) =>
      end?.by === undefined || !end.renewed?.keeps
        ? []
        : [
            {
              law,
              part: end.by,
              winter: end.winter,
              cost: partCost(section, spot.section.cover, end.by),
              breaks: end.renewed.breaks,
            },
          ],
    ),
    cheapLamp: cheapLamp(bands[0]!, cheap),
    dry: bands[0]!.winters.map(({ winter }) => dryShare ** (winter - 1)),
    facts: lives.flatMap(({ life }, k) => lifeFacts(life, lifeRating(section.capacitor), LIFE_LAWS[k]!)),
  };
}
