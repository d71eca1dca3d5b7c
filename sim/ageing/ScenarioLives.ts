import type { Scenario } from '../scenario/Scenario.ts';
import { SpotLights } from '../trial/SpotLights.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { LifeLaw } from './capacitorWear.ts';
import type { WornPart } from './LampWear.ts';
import type { LampLife } from './lampLife.ts';
import type { CheapChoice } from './lifeCost.ts';
import type { LifeEnd } from './lifeEnd.ts';
import { trialLife } from './trialLife.ts';

type LawName = LifeLaw['name'];

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

/** What lives are run with. */
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

/**
 * The trials of a scenario through the years.
 *
 * in: scenario; weather, of a year or more, undefined where the light is logged on every cell; wishes
 * out: trials in the order of the scenario, spots first
 * throws: InputProblem as `runTrial`
 */
export function scenarioLives(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  wishes: LivesWishes,
): ScenarioLives {
  const lights = new SpotLights(scenario, weather);
  const { site, promise, start, seed } = scenario;
  const { years, cleaned, exact } = wishes;
  const spots = scenario.spots.filter(({ name }) => name === (wishes.spot ?? name));
  const lamps = scenario.lamps.filter(({ name }) => name === (wishes.lamp ?? name));
  const trials = spots.flatMap((spot) =>
    lamps.map((lamp) => {
      const light = lights.of(spot.params);
      const terms = { spot: spot.name, lamp: lamp.name, site, promise, start, seed, years, cleaned, exact };
      return trialLife(lamp, spot, [light], terms, wishes.cheap);
    }),
  );
  return {
    scenario: scenario.name,
    currency: scenario.currency,
    years,
    cleaned,
    weather: '',
    winters: 1,
    trials,
    assumptions: [],
    flags: [],
  };
}
