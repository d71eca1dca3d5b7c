import { sum } from 'd3-array';
import { pieces } from '../common/pieces.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { SpotParams } from '../spot/spotParams.ts';
import { JobPool, type JobsOptions } from '../trial/jobPool.ts';
import { scenarioLights } from '../trial/scenarioLights.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Design } from './Design.ts';
import type { Bounds } from './DesignBounds.ts';
import { DesignSearch, type Known, type SearchJob, type SearchSetup } from './DesignSearch.ts';
import type { DesignSpace } from './DesignSpace.ts';
import { type CannotBe, countedReasons, DesignTrials, type SpaceTrials } from './DesignTrials.ts';
import { designAt, type SearchedSpace } from './designAt.ts';
import { type CachePlace, OutcomeCache } from './OutcomeCache.ts';
import { recommendations } from './recommendations.ts';
import { refuseUnpriced } from './refuseUnpriced.ts';
import type { Outcome, SizedDesign, SizingAnswer } from './SizedDesign.ts';
import { type Best, CHEAPEST, type SizingTerms, type Standing, Standings } from './Standings.ts';

export interface SizingOptions extends JobsOptions, SizingTerms {
  /** Where outcomes are kept for another search; nowhere unless stated. */
  cache?: CachePlace | undefined;
}

/** Most designs of which one job finds bounds. */
const MOST_OF_A_JOB = 256;
/** Designs that are run before any of them is told of the others: so many at least, or this share of all. */
const LEAST_ROUND = 4;
const ROUND_SHARE = 1 / 512;

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
  options: SizingOptions = {},
): Promise<SizingAnswer> {
  const [answer] = await sizeLamps([space], weather, options);
  return answer!;
}

/**
 * The answers over the designs of several spaces, each by itself, side by side: threads start once, and take whatever
 * work there is.
 *
 * in: spaces, of one scenario; weather and options as `sizeLamp`
 * out, throws: as there
 */
export async function sizeLamps(
  spaces: readonly DesignSpace[],
  weather: WeatherRecord | undefined,
  { budget, mustKeep, cache, onProgress, ...options }: SizingOptions = {},
): Promise<SizingAnswer[]> {
  for (const space of spaces) refuseUnpriced(space);
  const lights = scenarioLights(spaces[0]!.scenario, weather);
  const trials = spaces.map((space) => new DesignTrials(space, lights));
  const setup = setupOf(trials);
  const here = () => {
    const search = new DesignSearch(setup);
    return (job: SearchJob) => search.run(job);
  };
  const pool = new JobPool<SearchJob, Known[]>({ worker: 'sizing/sizingWorker', setup, here }, options);
  const searches = trials.map(
    (each, number) =>
      new Search(number, each, { budget, mustKeep }, pool, cache && new OutcomeCache(cache, each)),
  );
  const all = sum(spaces, ({ count }) => count);
  const done = spaces.map(() => 0);
  try {
    await Promise.all(
      searches.map((search, number) =>
        search.run((settled) => {
          done[number] = settled;
          onProgress?.(sum(done), all);
        }),
      ),
    );
  } finally {
    await pool.close();
  }
  return searches.map((search) => search.answer(weather));
}

/** What threads are handed: terms and parts alone, and light that all of them share. */
function setupOf(trials: readonly SpaceTrials[]): SearchSetup {
  const lights = new Map<SpotParams, SpotLight>();
  for (const each of trials)
    for (const spot of each.space.spots)
      if (!lights.has(spot.params)) lights.set(spot.params, shared(each.light(spot)));
  const spaces = trials.map(({ space: { scenario, spots, parts, count } }): SearchedSpace => {
    const { site, promise, start, seed } = scenario;
    return { scenario: { site, promise, start, seed }, spots, parts, count };
  });
  return { spaces, lights };
}

/** The same light, its hours in memory that threads share. What it was made from stays behind. */
function shared({ place: _, ...light }: SpotLight): SpotLight {
  const columns = Object.entries(light).map(([name, column]) => {
    if (!(column instanceof Float64Array)) return [name, column];
    const copy = new Float64Array(new SharedArrayBuffer(column.byteLength));
    copy.set(column);
    return [name, copy];
  });
  return Object.fromEntries(columns) as SpotLight;
}

/** One search, from the bounds of all designs to the answer. */
class Search {
  private readonly number: number;
  private readonly trials: SpaceTrials;
  private readonly terms: SizingTerms;
  private readonly pool: JobPool<SearchJob, Known[]>;
  private readonly cache: OutcomeCache | undefined;
  private readonly standings: Standings;
  private readonly faces: readonly Face[];
  private readonly bounds = new Map<number, Bounds>();
  private readonly outcomes = new Map<number, Outcome>();
  private readonly cannotBe = new Map<number, CannotBe>();
  private fromCache = 0;

  /** in: number of its space among those that the pool knows */
  constructor(
    number: number,
    trials: SpaceTrials,
    terms: SizingTerms,
    pool: JobPool<SearchJob, Known[]>,
    cache: OutcomeCache | undefined,
  ) {
    const { space } = trials;
    this.number = number;
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
    await this.work('bounds', this.alike(all));
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

  /** Designs that share a spot, a cell and a diode, of which one thread makes the tables for all. */
  private alike(indices: readonly number[]): (readonly number[])[] {
    const { spots, count } = this.trials.space;
    const { cell, diode } = this.trials.space.parts;
    const size = count / (spots.length * cell.length * diode.length);
    return pieces(indices, size).flatMap((some) => pieces(some, MOST_OF_A_JOB));
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
    const found = await this.pool.run(parts.map((indices) => ({ wanted, space: this.number, indices })));
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

/** What of a design needs no run. */
type Face = Pick<Standing, 'index' | 'price' | 'changed'>;
