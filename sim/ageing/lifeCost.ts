import { partsList } from '../lamp/partsList.ts';
import type { LampSection } from '../lamp/schema.ts';
import type { CoverSection } from '../spot/cover/schema.ts';
import type { WornPart } from './LampWear.ts';
import type { LampLife } from './lampLife.ts';
import { lightLoss } from './lightLoss.ts';
import type { CheapLamp, LifeTotal } from './ScenarioLives.ts';

/** A lamp from a shop, thrown away after some winters. */
export interface CheapChoice {
  price: number;
  winters: number;
}

/** From memory: five euros or dollars, and two winters of its battery. */
export const USUAL_CHEAP: CheapChoice = { price: 5, winters: 2 };

/** Light that a lamp gives in its life. in: life; price, of the lamp */
export function lifeTotal({ law, winters, breaks }: LampLife, price: number | undefined): LifeTotal {
  const sum = (until: number) =>
    winters.reduce((light, { winter, light_lm_h }) => light + (winter < until ? light_lm_h / 1000 : 0), 0);
  const untilBreak_klm_h = sum(breaks ?? Number.POSITIVE_INFINITY);
  const costs = price !== undefined && untilBreak_klm_h > 0;
  return {
    law,
    untilBreak_klm_h,
    overAll_klm_h: sum(Number.POSITIVE_INFINITY),
    cost_per_klm_h: costs ? price / untilBreak_klm_h : undefined,
  };
}

/**
 * What a part made new costs: all of its kind, in the scenario's currency.
 *
 * in: lamp, its parts merged in; cover; part
 * out: 0 of a cover that does not yellow and is only to be cleaned, the jar's price of one that does; undefined without a price
 */
export function partCost(lamp: LampSection, cover: CoverSection, part: WornPart): number | undefined {
  if (part === 'cover' && lightLoss(lamp.cell, cover).yellowing === 0) return 0;
  const line = partsList(lamp).find((each) => each.part === (part === 'cover' ? 'jar' : part))!;
  return line.price === undefined ? undefined : line.price * line.count;
}

/** A cheap lamp over as many years. in: life, whose first winter's light it gives every winter; choice */
export function cheapLamp({ winters }: LampLife, choice: CheapChoice = USUAL_CHEAP): CheapLamp | undefined {
  const klm_h = (winters[0]!.light_lm_h / 1000) * winters.length;
  if (!(klm_h > 0)) return undefined;
  const cost = choice.price * Math.ceil(winters.length / choice.winters);
  return { ...choice, klm_h, cost, cost_per_klm_h: cost / klm_h };
}
