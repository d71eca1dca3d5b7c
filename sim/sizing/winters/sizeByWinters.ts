import { sourceOf } from '../../scenario/parseScenario.ts';
import type { Scenario, ScenarioSource } from '../../scenario/Scenario.ts';
import { JobPool, type JobsOptions } from '../../trial/jobPool.ts';
import type { ScenarioOdds } from '../../trial/OddsJobs.ts';
import { refuseLogged } from '../../trial/scenarioOdds.ts';
import { type WinterBasis, type WinterMaker, type WinterWay, winterMaker } from '../../trial/WinterMaker.ts';
import type { WeatherRecord } from '../../weather/WeatherRecord.ts';
import type { DesignSpace } from '../DesignSpace.ts';
import { refuseUnpriced } from '../refuseUnpriced.ts';
import { type Batch, batchesOf, spacesOf } from '../sizeScenario.ts';
import type { LikelyAnswer } from './LikelyLamp.ts';
import { LikelySearch } from './LikelySearch.ts';
import { MadeDesigns, type MadeDesignsFound, type MadeDesignsJob } from './MadeDesigns.ts';
import type { WinterTest } from './MadeTallies.ts';
import { mostFailing } from './shareInReach.ts';
import type { MadePool } from './weighDesigns.ts';

/** All that another thread needs to look at designs in made winters: it makes the scenario by itself. */
export interface LikelySetup {
  source: ScenarioSource;
  basis: WinterBasis;
  wish: { lamp?: string | undefined; spot?: string | undefined };
}

/** What is asked of designs in made winters. */
export interface LikelyWishes {
  /** Winters made. */
  winters: number;
  /** What the lower end of the chance to keep the promise must reach. */
  mustKeep: number;
  /** As in SizingWishes. */
  lamp?: string | undefined;
  spot?: string | undefined;
  lamps?: number | undefined;
}

/** What was asked of the designs of a scenario in made winters, and what came of it. */
export interface LikelySizing extends Pick<ScenarioOdds, 'basis' | 'learnedWinters' | 'way'> {
  scenario: Scenario;
  /** That winters were learned from; undefined of a climate. */
  weather: WeatherRecord | undefined;
  wishes: LikelyWishes;
  /** One a spot, or one alone where the spot is a choice. */
  answers: readonly (LikelyAnswer & { space: DesignSpace })[];
  /** One an answer, where lamps are to be built. */
  batches: readonly Batch[];
}

/** Winters whose darkness one job tells. */
const DARKNESS_OF_A_JOB = 16;
/** Of more winters than are sized by. */
export const MOST_SIZED_BY = 2000;

/**
 * The cheapest lamp in each spot of which made winters show, as `run --winters` does, that it keeps the promise in a share
 * of winters: exact, that of the odds of every design, for as few runs as bounds leave.
 *
 * A design is out of reach once it fails more winters than one may whose lower end still reaches the share at best; bounds
 * tell many of them without a run, the darkest winters first. What is left is run by price, and judged by its odds.
 *
 * in: scenario; basis, that winters are made from; wishes; options
 * out: the same for any number of threads; partial answers where it was stopped
 * throws: InputProblem as `designSpace`, `winterMaker` and `refuseLogged`; where a part has no price; where no lamp
 *   whatever could show the share
 */
export async function sizeByWinters(
  scenario: Scenario,
  basis: WinterBasis,
  wishes: LikelyWishes,
  { onProgress, ...options }: JobsOptions = {},
): Promise<LikelySizing> {
  const spaces = spacesOf(scenario, wishes);
  const maker = winterMaker(basis);
  const limit = mostFailing(wishes.mustKeep, {
    made: wishes.winters,
    learnedWinters: maker.learnedWinters,
    learnsAgain: maker.learnsAgain,
  });
  refuseLogged(scenario);
  for (const space of spaces) refuseUnpriced(space);
  const { lamp, spot } = wishes;
  const setup: LikelySetup = {
    source: sourceOf(scenario),
    basis,
    wish: { lamp, spot },
  };
  const designs = new MadeDesigns(spaces, basis);
  const here = () => (job: MadeDesignsJob) => designs.run(job);
  const place = { worker: 'sizing/winters/madeDesignsWorker', setup, here };
  const pool: MadePool = new JobPool<MadeDesignsJob, MadeDesignsFound>(place, options);
  try {
    const tests = await testsOf(maker, wishes.winters, limit, pool);
    const searches = spaces.map((space, number) => {
      const { winters, mustKeep: share } = wishes;
      return new LikelySearch({ number, space, maker, winters, share, tests }, pool);
    });
    const all = spaces.reduce((sum, { count }) => sum + count, 0);
    const done = spaces.map(() => 0);
    await Promise.all(
      searches.map((search, k) =>
        search.run((settled) => {
          done[k] = settled;
          onProgress?.(
            done.reduce((sum, each) => sum + each, 0),
            all,
          );
        }),
      ),
    );
    const answers = searches.map((search, k) => ({
      ...search.answer((best) => designs.flags(k, best.design, best.typicalWinter)),
      space: spaces[k]!,
    }));
    const { words, learnedWinters, ways } = maker;
    const grounds = { basis: words, learnedWinters, way: ways[0]! };
    const weather = 'record' in basis ? basis.record : undefined;
    return { scenario, weather, wishes, ...grounds, answers, batches: batchesOf(answers, wishes.lamps) };
  } finally {
    await pool.close();
  }
}

/** The winters that designs are tried in, the darkest first; of two beliefs both. */
async function testsOf(
  { ways: [first, second], waysAreBeliefs }: WinterMaker,
  winters: number,
  limit: number,
  pool: MadePool,
): Promise<[WinterTest, ...WinterTest[]]> {
  const test = async (way: WinterWay): Promise<WinterTest> => {
    const jobs = Array.from({ length: Math.ceil(winters / DARKNESS_OF_A_JOB) }, (_, k) => {
      const from = k * DARKNESS_OF_A_JOB;
      return { wanted: 'darkness' as const, way, from, to: Math.min(winters, from + DARKNESS_OF_A_JOB) };
    });
    const light = (await pool.run(jobs)).flatMap((some) => (some ?? []) as readonly number[]);
    const order = Array.from({ length: winters }, (_, k) => k);
    return { way, limit, order: order.sort((a, b) => light[a]! - light[b]! || a - b) };
  };
  const tests: [WinterTest, ...WinterTest[]] = [await test(first!)];
  if (waysAreBeliefs && second !== undefined) tests.push(await test(second));
  return tests;
}
