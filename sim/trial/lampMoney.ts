import { lampPrice, unpriced } from '../lamp/partsList.ts';
import type { Scenario, ScenarioLamp } from '../scenario/Scenario.ts';
import { overWinters } from '../statistics/overWinters.ts';
import type { NightTrial } from './Trial.ts';

/** What the parts of a lamp cost in money of the scenario, and the light that this buys in a spot. */
export interface LampMoney {
  currency: string | undefined;
  /** Of those that are not at hand; undefined where one of them has no price. */
  price: number | undefined;
  /** Parts without a price. */
  unpriced: string[];
  /** Lumen-hours that a mean winter's year gives for each unit of money; undefined where nothing is paid, or no price is known. */
  lightForUnit_lm_h: number | undefined;
}

/**
 * What the lamp of a trial costs, and the light that a unit of money buys there.
 *
 * in: scenario, of the trial; trial
 */
export function lampMoney(
  {
    lamps,
    currency,
  }: Pick<Scenario, 'currency'> & { lamps: readonly Pick<ScenarioLamp, 'name' | 'section'>[] },
  { lamp, statistics }: Pick<NightTrial, 'lamp' | 'statistics'>,
): LampMoney {
  const section = lamps.find(({ name }) => name === lamp)?.section;
  if (section === undefined) throw new Error(`the scenario has no lamp ${lamp}`);
  const price = lampPrice(section);
  const { winters, lightGiven_lm_h } = overWinters(statistics.winters);
  const forUnit = lightGiven_lm_h / winters.length / (price ?? 0);
  return {
    currency,
    price,
    unpriced: unpriced(section),
    lightForUnit_lm_h: Number.isFinite(forUnit) ? forUnit : undefined,
  };
}
