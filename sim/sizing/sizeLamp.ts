import { pieces } from '../common/pieces.ts';
import { sourceOf } from '../scenario/parseScenario.ts';
import type { ScenarioSource } from '../scenario/Scenario.ts';
import { JobPool, type JobsOptions } from '../trial/jobPool.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Design } from './Design.ts';
import type { Bounds } from './DesignBounds.ts';
import { DesignSearch, type Known, type SearchJob } from './DesignSearch.ts';
import { type DesignSpace, designAt } from './DesignSpace.ts';
import { type CannotBe, countedReasons, DesignTrials } from './DesignTrials.ts';
import { type CachePlace, OutcomeCache } from './OutcomeCache.ts';
import { recommendations } from './recommendations.ts';
import { refuseUnpriced } from './refuseUnpriced.ts';
import type { Outcome, SizedDesign, SizingAnswer } from './SizedDesign.ts';
import { type Best, CHEAPEST, type SizingTerms, type Standing, Standings } from './Standings.ts';

/** All that another thread needs to look at designs: it makes the scenario by itself. */
export interface SizingSetup {
  source: ScenarioSource;
  wish: { lamp: string; spot?: string };
  weather: WeatherRecord | undefined;
}

export interface SizingOptions extends JobsOptions, SizingTerms {
  /** Where outcomes are kept for another search; nowhere unless stated. */
  cache?: CachePlace | undefined;
}

/** Designs of which one job finds bounds. */
const BOUNDS_OF_A_JOB = 64;
/** Designs that are run before any of them is told of the others: so many at least, or this share of all. */
const LEAST_ROUND = 16;
const ROUND_SHARE = 1 / 256;

/**
 * The answer over all designs of a space, exact: that of a run of every one, for as few runs as bounds leave.
 *
 * Designs are run by their price. One is left out where a design that was run costs no more, fails no more nights than this
 * one fails at least, and gives no less light than this one gives at most, so that it cannot be part of the answer. No
 * result depends on how many threads there are, nor on what was kept of an earlier search.
 *
 * in: space; weather, undefined where the light is logged on every cell; options
 * out: the answer; a partial one where it was stopped
 * throws: InputProblem where a part that must be bought has no price, and for files that cannot be read
 */
export async function sizeLamp(
  space: DesignSpace,
  weather: WeatherRecord | undefined,
  { budget, mustKeep, cache, onDone, ...options }: SizingOptions = {},
): Promise<SizingAnswer> {
  refuseUnpriced(space);
  const trials = new DesignTrials(space, weather);
  const here = () => {
    const search = new DesignSearch(space, weather);
    return (job: SearchJob) => search.run(job);
  };
  const place = { worker: 'sizing/sizingWorker', setup: setupOf(space, weather), here };
  const pool = new JobPool<SearchJob, Known[]>(place, options);
  const search = new Search(trials, { budget, mustKeep }, pool, cache && new OutcomeCache(cache, trials));
  try {
    await search.run((settled) => onDone?.(settled, space.count));
  } finally {
    await pool.close();
  }
  return search.answer(weather);
}

/** One search, from the bounds of all designs to the answer. */
class Search {
  private readonly trials: DesignTrials;
  private readonly terms: SizingTerms;
  private readonly pool: JobPool<SearchJob, Known[]>;
  private readonly cache: OutcomeCache | undefined;
  private readonly standings: Standings;
  private readonly faces: readonly Face[];
  private readonly bounds = new Map<number, Bounds>();
  private readonly outcomes = new Map<number, Outcome>();
  private readonly cannotBe = new Map<number, CannotBe>();
  private fromCache = 0;

  constructor(
    trials: DesignTrials,
    terms: SizingTerms,
    pool: JobPool<SearchJob, Known[]>,
    cache: OutcomeCache | undefined,
  ) {
    const { space } = trials;
    this.trials = trials;
    this.terms = terms;
    this.pool = pool;
    this.cache = cache;
    this.standings = new Standings(terms);
    this.faces = Array.from({ length: space.count }, (_, index) => {
      const { price, changed } = designAt(space, index);
      return { index, price: price!, changed: changed.length };
    });
  }

  /** in: onSettled, told how many designs are run or left out */
  async run(onSettled: (count: number) => void): Promise<void> {
    const all = [...this.faces.keys()];
    await this.work('bounds', pieces(all, BOUNDS_OF_A_JOB));
    let waiting = all
      .filter((index) => this.bounds.has(index))
      .sort(
        (a, b) =>
          this.faces[a]!.price - this.faces[b]!.price || this.most_lm_h(b) - this.most_lm_h(a) || a - b,
      );
    const size = Math.max(LEAST_ROUND, Math.ceil(all.length * ROUND_SHARE));
    while (waiting.length > 0 && !this.pool.stopped) {
      const left: number[] = [];
      for (let next = 0; next < waiting.length && !this.pool.stopped; ) {
        const round: number[] = [];
        for (; next < waiting.length && round.length < size; next++)
          (this.mayAnswer(waiting[next]!) ? round : left).push(waiting[next]!);
        await this.work(
          'outcome',
          pieces(
            round.filter((index) => !this.isKept(index)),
            1,
          ),
        );
        onSettled(all.length - waiting.length + next);
      }
      // What was left out beside one answer may be part of another that was found later.
      waiting = left.filter((index) => this.mayAnswer(index));
    }
  }

  answer(weather: WeatherRecord | undefined): SizingAnswer {
    const { trials, outcomes, cannotBe, bounds } = this;
    const { space } = trials;
    const ran = [...outcomes].map(
      ([index, outcome]): SizedDesign => ({ design: designAt(space, index), ...outcome }),
    );
    const names = new Set(space.spots.map(({ name }) => name));
    const left = [...bounds.keys()].filter((index) => !outcomes.has(index) && !cannotBe.has(index));
    const open = left.filter((index) => this.mayAnswer(index)).length;
    const settled = outcomes.size + cannotBe.size + left.length - open;
    return {
      spot: names.size === 1 ? space.spots[0]!.name : undefined,
      designs: {
        all: space.count,
        cannotBe: countedReasons(cannotBe),
        ran: outcomes.size - this.fromCache,
        ruledOut: left.length - open,
        fromCache: this.fromCache,
      },
      sized: ran.toSorted((a, b) => a.design.index - b.design.index),
      ...recommendations(trials, weather, this.best(), ran),
      ...(settled < space.count ? { partial: { settled, all: space.count } } : {}),
    };
  }

  /** The best of all that were run, the cheapest first: what is twice as bright goes by it. */
  private best(): Best {
    const standings = new Standings(this.terms);
    const known = [...this.outcomes].map(([index, outcome]) => this.standing(index, outcome));
    for (const standing of known.toSorted(CHEAPEST)) standings.add(standing);
    return standings.state();
  }

  private isKept(index: number): boolean {
    const outcome = this.cache?.get(designAt(this.trials.space, index));
    if (outcome === undefined) return false;
    this.fromCache++;
    this.take(index, outcome);
    return true;
  }

  private async work(wanted: SearchJob['wanted'], parts: readonly (readonly number[])[]): Promise<void> {
    const found = await this.pool.run(parts.map((indices) => ({ wanted, indices })));
    const made: [Design, Outcome][] = [];
    parts.forEach((indices, k) => {
      found[k]?.forEach((known, n) => {
        const index = indices[n]!;
        this.take(index, known);
        if ('nights' in known) made.push([designAt(this.trials.space, index), known]);
      });
    });
    this.cache?.add(made);
  }

  private take(index: number, known: Known): void {
    if ('why' in known) this.cannotBe.set(index, known);
    else if ('nights' in known) {
      this.outcomes.set(index, known);
      this.standings.add(this.standing(index, known));
    } else this.bounds.set(index, known);
  }

  private most_lm_h(index: number): number {
    return this.bounds.get(index)!.light_lm_h;
  }

  private mayAnswer(index: number): boolean {
    return this.standings.mayAnswer(this.standing(index, { short_h: 0, ...this.bounds.get(index)! }));
  }

  private standing(index: number, known: Omit<Standing, keyof Face>): Standing {
    const { winters, keptWinters, failedNights, short_h, light_lm_h } = known;
    return { ...this.faces[index]!, winters, keptWinters, failedNights, short_h, light_lm_h };
  }
}

function setupOf({ scenario, present, spots }: DesignSpace, weather: WeatherRecord | undefined): SizingSetup {
  const names = new Set(spots.map(({ name }) => name));
  return {
    source: sourceOf(scenario),
    wish: { lamp: present.name, ...(names.size === 1 ? { spot: spots[0]!.name } : {}) },
    weather,
  };
}

/** What of a design needs no run. */
type Face = Pick<Standing, 'index' | 'price' | 'changed'>;
