import { basename, join } from 'node:path';
import { InputProblem } from '../common/InputProblem.ts';
import { unpriced } from '../lamp/partsList.ts';
import { JobPool, type JobsOptions } from '../trial/jobPool.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Design } from './Design.ts';
import { DesignSearch, type SearchJob, type Settled, standingOf } from './DesignSearch.ts';
import { type DesignSpace, designAt } from './DesignSpace.ts';
import { DesignTrials } from './DesignTrials.ts';
import { recommendations } from './recommendations.ts';
import { refuseUnpriced } from './refuseUnpriced.ts';
import type { Outcome, SizedDesign, SizingAnswer } from './SizedDesign.ts';
import { type SizingTerms, Standings } from './Standings.ts';

/** All that another thread needs to look at designs: it loads the scenario by itself. */
export interface SizingSetup {
  /** Path of the scenario's file, and its name in messages. */
  path: string;
  file: string;
  wish: { lamp: string; spot?: string };
  weather: WeatherRecord | undefined;
  terms: SizingTerms;
}

export interface SizingOptions extends JobsOptions, SizingTerms {}

/** Designs that are looked at before any of them is told of the others; and of these, those that are one after the other. */
const ROUND = 256;
const OF_A_JOB = 16;

/**
 * The answer over all designs of a space, exact: that of a run of every one, for as few runs as bounds leave.
 *
 * Designs are looked at by their price. One is left out where a design that was run costs no more, fails no more nights
 * than this one fails at least, and gives no less light than this one gives at most, so that it cannot be part of the
 * answer; no result depends on how many threads there are.
 *
 * in: space; weather, undefined where the light is logged on every cell; options
 * out: the answer; a partial one where it was stopped
 * throws: InputProblem where a part that must be bought has no price, and for files that cannot be read
 */
export async function sizeLamp(
  space: DesignSpace,
  weather: WeatherRecord | undefined,
  { budget, mustKeep, ...options }: SizingOptions = {},
): Promise<SizingAnswer> {
  refuseUnpriced(space);
  const terms = { budget, mustKeep };
  const search = new Search(space, weather, terms, options);
  await search.run();
  return search.answer();
}

/** One search, from its first round to its answer. */
class Search {
  private readonly space: DesignSpace;
  private readonly weather: WeatherRecord | undefined;
  private readonly terms: SizingTerms;
  private readonly options: JobsOptions;
  private readonly settled = new Map<number, Settled>();
  private readonly prices: readonly number[];

  constructor(
    space: DesignSpace,
    weather: WeatherRecord | undefined,
    terms: SizingTerms,
    options: JobsOptions,
  ) {
    this.space = space;
    this.weather = weather;
    this.terms = terms;
    this.options = options;
    this.prices = Array.from({ length: space.count }, (_, index) => priceOf(designAt(space, index), space));
  }

  async run(): Promise<void> {
    const { space, weather, terms } = this;
    const { onDone, ...options } = this.options;
    const here = () => {
      const search = new DesignSearch(space, weather, terms);
      return (job: SearchJob) => search.run(job);
    };
    const pool = new JobPool<SearchJob, Settled[]>(
      { worker: 'sizing/sizingWorker', setup: this.setup(), here },
      options,
    );
    const standings = new Standings(terms);
    let waiting = [...this.prices.keys()].sort((a, b) => this.prices[a]! - this.prices[b]! || a - b);
    try {
      while (waiting.length > 0 && !pool.stopped) {
        for (let from = 0; from < waiting.length && !pool.stopped; from += ROUND) {
          const jobs = jobsOf(waiting.slice(from, from + ROUND), standings);
          const found = await pool.run(jobs);
          for (const settled of found.flatMap((some) => some ?? [])) this.take(settled, standings);
          onDone?.(this.settled.size, space.count);
        }
        // What was left out beside one answer may be part of another that was found later.
        waiting = [...this.settled.values()].flatMap((settled) =>
          'bounds' in settled &&
          standings.mayAnswer(this.standing(settled.index, { short_h: 0, ...settled.bounds }))
            ? [settled.index]
            : [],
        );
      }
    } finally {
      await pool.close();
    }
  }

  answer(): SizingAnswer {
    const { space, settled, weather } = this;
    const all = [...settled.values()];
    const ran = all.flatMap((one): SizedDesign[] =>
      'outcome' in one ? [{ design: designAt(space, one.index), ...one.outcome }] : [],
    );
    const standings = new Standings(this.terms);
    const byPrice = ran.toSorted(
      (a, b) =>
        a.design.price! - b.design.price! || b.light_lm_h - a.light_lm_h || a.design.index - b.design.index,
    );
    for (const { design, ...outcome } of byPrice) standings.add(standingOf(design, outcome));
    const names = new Set(space.spots.map(({ name }) => name)).size;
    return {
      spot: names === 1 ? space.spots[0]!.name : undefined,
      designs: {
        all: space.count,
        cannotBe: reasons(all),
        ran: ran.length,
        ruledOut: all.filter((one) => 'bounds' in one).length,
        fromCache: 0,
      },
      sized: ran.toSorted((a, b) => a.design.index - b.design.index),
      ...recommendations(new DesignTrials(space, weather), weather, standings.state(), ran),
      ...(all.length < space.count ? { partial: { settled: all.length, all: space.count } } : {}),
    };
  }

  private take(settled: Settled, standings: Standings): void {
    this.settled.set(settled.index, settled);
    if ('outcome' in settled) standings.add(this.standing(settled.index, settled.outcome));
  }

  private standing(index: number, outcome: Omit<Outcome, 'nights' | 'smallestReserve_J'>) {
    return standingOf(designAt(this.space, index), outcome);
  }

  private setup(): SizingSetup {
    const { scenario, present, spots } = this.space;
    const names = new Set(spots.map(({ name }) => name));
    return {
      path: join(scenario.folder, basename(scenario.file)),
      file: scenario.file,
      wish: { lamp: present.name, ...(names.size === 1 ? { spot: spots[0]!.name } : {}) },
      weather: this.weather,
      terms: this.terms,
    };
  }
}

function jobsOf(indices: readonly number[], standings: Standings): SearchJob[] {
  const best = standings.state();
  return Array.from({ length: Math.ceil(indices.length / OF_A_JOB) }, (_, k) => ({
    indices: indices.slice(k * OF_A_JOB, (k + 1) * OF_A_JOB),
    best,
  }));
}

function priceOf({ price, section }: Design, { scenario }: DesignSpace): number {
  if (price !== undefined) return price;
  const names = unpriced(section);
  throw new InputProblem({
    code: 'SCENARIO_MISSING_KEY',
    file: scenario.file,
    field: 'choices',
    got: `no price of ${names.join(', ')}`,
    expected: 'a price of every part that may have to be bought',
    fix: 'add price: to it, or take a part of the library, whose prices are from memory.',
  });
}

/** Why designs are no lamps, in the words of the first of each kind. */
function reasons(all: readonly Settled[]): SizingAnswer['designs']['cannotBe'] {
  const counts = new Map<string, { why: string; count: number }>();
  for (const one of all.toSorted((a, b) => a.index - b.index)) {
    if (!('cannotBe' in one)) continue;
    const { reason, why } = one.cannotBe;
    const known = counts.get(reason) ?? { why, count: 0 };
    counts.set(reason, { ...known, count: known.count + 1 });
  }
  return [...counts.values()];
}
