import { partsList } from '../lamp/partsList.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Design } from './Design.ts';
import { type DesignSpace, designSpace } from './DesignSpace.ts';
import type { SizingAnswer } from './SizedDesign.ts';
import { type ShoppingList, shoppingList } from './shoppingList.ts';
import { type SizingOptions, sizeLamps } from './sizeLamp.ts';

/** What is asked of the designs that a scenario's choices make. */
export interface SizingWishes {
  /** The lamp whose designs they are, the scenario's first unless named. */
  lamp?: string | undefined;
  /** The only spot; else that of the choices, or each of the scenario by itself. */
  spot?: string | undefined;
  /** Most money for the brightest. */
  budget?: number | undefined;
  /** Share of winters that must be kept; every one unless stated. */
  mustKeep?: number | undefined;
  /** How many lamps are to be built. */
  lamps?: number | undefined;
}

/** What the designs of one spot come to, or all of them where the spot is a choice. */
export interface SpaceAnswer extends SizingAnswer {
  space: DesignSpace;
}

/** What a batch of the cheapest lamps needs bought, or where none keeps the promise, of the nearest. */
export interface Batch {
  spot: string | undefined;
  named: 'cheapest' | 'nearest';
  list: ShoppingList;
}

/** What was asked of the designs of a scenario, and what came of it. */
export interface Sizing {
  scenario: Scenario;
  /** Undefined where the light was logged on the cells. */
  weather: WeatherRecord | undefined;
  wishes: SizingWishes;
  /** One a spot, or one alone where the spot is a choice; none where it was stopped before any design was settled. */
  answers: readonly SpaceAnswer[];
  /** One an answer, where lamps are to be built. */
  batches: readonly Batch[];
}

/**
 * The cheapest lamp that keeps the promise in each spot of a scenario, and what else can be said of all designs that its
 * choices make.
 *
 * in: scenario; weather, as loadWeather gives it; wishes; options
 * out: answers, the same for any number of threads; partial ones where it was stopped
 * throws: InputProblem as `designSpace` and `sizeLamp`
 */
export async function sizeScenario(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  wishes: SizingWishes = {},
  options: Omit<SizingOptions, keyof SizingWishes> = {},
): Promise<Sizing> {
  const spaces = spacesOf(scenario, wishes);
  const { budget, mustKeep } = wishes;
  const sized = await sizeLamps(spaces, weather, { budget, mustKeep, ...options });
  const found = sized.map((answer, k): SpaceAnswer => ({ ...answer, space: spaces[k]! }));
  const answers = found.filter(({ sized, partial }) => sized.length > 0 || partial === undefined);
  return { scenario, weather, wishes, answers, batches: batchesOf(answers, wishes.lamps) };
}

/** What is recommended of one spot. */
type Advised = Pick<SpaceAnswer, 'spot'> & { [Name in Batch['named']]: { design: Design } | undefined };

/**
 * The spaces of designs that are asked for: one a spot, or one alone where the spot is a choice.
 *
 * throws: InputProblem as `designSpace`
 */
export function spacesOf(
  scenario: Scenario,
  { lamp, spot }: Pick<SizingWishes, 'lamp' | 'spot'>,
): DesignSpace[] {
  const named = lamp === undefined ? {} : { lamp };
  const chooses = scenario.choices?.some(({ section }) => section === 'spot') === true;
  if (spot !== undefined || chooses || scenario.choices === undefined)
    return [designSpace(scenario, { ...named, ...(spot === undefined ? {} : { spot }) })];
  const spaces = scenario.spots.map(({ name }) => designSpace(scenario, { ...named, spot: name }));
  // The lamps are the same in each: a thread makes them once.
  const { parts } = spaces[0]!;
  return spaces.map((space) => ({ ...space, parts }));
}

/** What so many of the recommended lamps need bought. */
export function batchesOf(answers: readonly Advised[], lamps: number | undefined): Batch[] {
  if (lamps === undefined) return [];
  return answers.flatMap(({ spot, cheapest, nearest }): Batch[] => {
    const best = cheapest ?? nearest;
    if (best === undefined) return [];
    const list = shoppingList(partsList(best.design.section), lamps);
    return [{ spot, named: cheapest === undefined ? 'nearest' : 'cheapest', list }];
  });
}
