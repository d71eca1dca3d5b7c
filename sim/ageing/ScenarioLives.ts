import type { Scenario } from '../scenario/Scenario.ts';
import type { JobsOptions } from '../trial/jobPool.ts';
import { namedTrials } from '../trial/namedTrials.ts';
import { LIFE_LAWS, type LifeLaw } from './capacitorWear.ts';
import type { WornPart } from './LampWear.ts';
import type { LawLife, LifePremises } from './LifeTrials.ts';
import type { LampLife } from './lampLife.ts';
import { lifeAssumptions, lifeFlags } from './lifeAssumptions.ts';
import type { CheapChoice } from './lifeCost.ts';
import type { LifeEnd } from './lifeEnd.ts';
import type { LifeWeather } from './lifeWeather.ts';
import { runLives } from './runLives.ts';
import { type EndedLife, trialLife } from './trialLife.ts';

export type LawName = LifeLaw['name'];

/** Light that a lamp gives in its life, and what it costs. */
export interface LifeTotal {
  law: LawName;
  /** Before the first winter that breaks the promise; all of it where none does. */
  untilBreak_klm_h: number;
  overAll_klm_h: number;
  /** Price of the lamp over its light before that winter; undefined without a price or such light. */
  cost_per_klm_h: number | undefined;
}

/** The part that ends a promise made new. */
export interface LifeRenewal {
  law: LawName;
  part: WornPart;
  /** The winter before which it is made new: the first that breaks without. */
  winter: number;
  /** Of the new part, in the scenario's currency; 0 of a cover that is only to be cleaned; undefined without a price. */
  cost: number | undefined;
  /** The next winter that breaks the promise; undefined where none does. */
  breaks: number | undefined;
}

/** A cheap lamp in place of this one, replaced every few winters, that gives the light of this one's first year. */
export interface CheapLamp {
  price: number;
  /** Winters after which it is replaced. */
  winters: number;
  klm_h: number;
  cost: number;
  cost_per_klm_h: number;
}

/** A fact of the trade, beside what a published factor says of it. */
export interface LifeFact {
  says: string;
  law: LawName;
  holds: boolean;
  /** What the law says, in words. */
  value: string;
}

/** One lamp in one spot through the years. Lists by law go from low to high. */
export interface TrialLife {
  spot: string;
  lamp: string;
  /** By the low, the middle and the high of the published factors. */
  bands: LampLife[];
  /** What ends it, by law. */
  ends: (LifeEnd | undefined)[];
  /** Of the lamp; undefined where a part has none. */
  price: number | undefined;
  totals: LifeTotal[];
  /** Only of laws by which a part made new keeps the promise. */
  renewal: LifeRenewal[];
  /** undefined where the lamp gives no light. */
  cheapLamp: CheapLamp | undefined;
  /** Chance that the jar is still dry in each winter, by the stated chance that its seal fails in a year. */
  dry: number[];
  facts: LifeFact[];
}

/** The trials of a scenario through the years. */
export interface ScenarioLives {
  scenario: string;
  currency?: string | undefined;
  years: number;
  /** Whether the cover is cleaned each spring. */
  cleaned: boolean;
  /** What the lamps are run through, in words. */
  weather: string;
  /** Winters of weather that each winter of a life is run through: above 1 there is a chance by winter. */
  winters: number;
  trials: TrialLife[];
  /** What is taken where the scenario says nothing, and how it was computed. */
  assumptions: string[];
  flags: string[];
  /** Of lives that were interrupted: how many trials there are, and of how many. */
  partial?: { completeTrials: number; allTrials: number };
}

/** A lamp with one value changed, through the years. */
export interface LifeVariant {
  label: string;
  value: number;
  unit: string;
  /** As of a trial; empty of what cannot be. */
  bands: LampLife[];
  /** The first winter. */
  tonight: { failedNights: number; light_lm_h: number };
  /** By law, as in `LifeTotal`. */
  untilBreak_klm_h: number[];
  /** Why no lamp can have that value. */
  cannotBe?: string;
}

/** What one value does tonight and in the long run. */
export interface LifeSweep {
  what: 'limit' | 'led-current' | 'capacitors';
  spot: string;
  lamp: string;
  variants: LifeVariant[];
  /** Index of the variant with most light until the promise breaks, by the middle law; undefined where none gives any. */
  best: number | undefined;
}

/** What is asked of lives. */
export interface LivesWishes {
  years: number;
  /** Whether the cover is cleaned each spring. */
  cleaned: boolean;
  exact?: boolean | undefined;
  /** Only this spot, only this lamp. */
  spot?: string | undefined;
  lamp?: string | undefined;
  /** The lamp that this one is held against; the usual one unless stated. */
  cheap?: CheapChoice | undefined;
}

export const MOST_YEARS = 1000;

/**
 * The trials of a scenario through the years, one job a trial and law on all cores.
 *
 * in: scenario; weather, of `recordedLife` or `madeLife`; wishes; options
 * out: trials in the order of the scenario, spots first; those that were complete where it was stopped, undefined where
 *   none was
 * throws: InputProblem as `runTrial`
 */
export async function scenarioLives(
  scenario: Scenario,
  weather: LifeWeather,
  wishes: LivesWishes,
  options: JobsOptions = {},
): Promise<ScenarioLives | undefined> {
  const { years, cleaned } = wishes;
  const pairs = namedTrials(scenario, wishes);
  const jobs = pairs.flatMap(({ spot, lamp }) =>
    LIFE_LAWS.map(({ name: law }) => ({ spot: spot.name, lamp: lamp.name, law })),
  );
  const lives = await runLives(scenario, lifePremises(weather, wishes), jobs, options);
  const trials = pairs.flatMap(({ spot, lamp }, k) => {
    const laws = lives.slice(k * LIFE_LAWS.length, (k + 1) * LIFE_LAWS.length);
    return laws.every(isWhole) ? [trialLife(lamp, spot, laws, wishes.cheap)] : [];
  });
  if (trials.length === 0) return undefined;
  return {
    scenario: scenario.name,
    currency: scenario.currency,
    years,
    cleaned,
    weather: weather.words,
    winters: trials[0]!.bands[0]!.throughWinters,
    trials,
    assumptions: lifeAssumptions(scenario, pairs, wishes),
    flags: lifeFlags(pairs, trials),
    ...(trials.length < pairs.length
      ? { partial: { completeTrials: trials.length, allTrials: pairs.length } }
      : {}),
  };
}

/** What lives are run with. */
export function lifePremises(
  { lights, start }: LifeWeather,
  { years, cleaned, exact = false }: LivesWishes,
): LifePremises {
  return { lights, start, years, cleaned, exact };
}

function isWhole(life: LawLife | undefined): life is EndedLife {
  return life !== undefined && 'life' in life;
}
