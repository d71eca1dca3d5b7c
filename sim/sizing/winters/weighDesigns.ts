import type { Chance } from '../../statistics/WinterOdds.ts';
import { wilson } from '../../statistics/WinterOdds.ts';
import type { JobPool } from '../../trial/jobPool.ts';
import type { MadeWinter } from '../../trial/MadeTrials.ts';
import { OddsJobs } from '../../trial/OddsJobs.ts';
import type { WinterMaker } from '../../trial/WinterMaker.ts';
import { type DesignSpace, presentDesign } from '../DesignSpace.ts';
import type { CannotBe } from '../DesignTrials.ts';
import { designAt } from '../designAt.ts';
import type { LikelyDesign } from './LikelyLamp.ts';
import type { DesignNamed, MadeDesignsFound, MadeDesignsJob } from './MadeDesigns.ts';
import type { WinterTest } from './MadeTallies.ts';

export type MadePool = JobPool<MadeDesignsJob, MadeDesignsFound>;

/** What a search is about: its space among those of the scenario, and what is asked. */
export interface LikelyQuestion {
  number: number;
  space: DesignSpace;
  maker: WinterMaker;
  winters: number;
  share: number;
  /** The first says the chance; a second where the interval has to hold another belief too. */
  tests: readonly [WinterTest, ...WinterTest[]];
}

/**
 * The odds of designs by all that they rest on, as `run --winters` gives them.
 *
 * in: question; pool; designs
 * out: by design, why it is no lamp, or undefined where it has not what was asked for, or where all was stopped; and the
 *   runs of a design through a winter that it took
 */
export async function weighDesigns(
  { number, maker, winters, space }: LikelyQuestion,
  pool: MadePool,
  designs: readonly DesignNamed[],
): Promise<{ found: (LikelyDesign | CannotBe | undefined)[]; runs: number }> {
  if (designs.length === 0) return { found: [], runs: 0 };
  const odds = new OddsJobs(maker, { winters }, designs.length);
  const jobs = odds.jobs.map((job) => ({ wanted: 'odds' as const, space: number, job, designs }));
  const made = await pool.run(jobs);
  if (pool.stopped) return { found: designs.map(() => undefined), runs: 0 };
  const weighed = ({ index }: DesignNamed, d: number): LikelyDesign | CannotBe | undefined => {
    const own = made.map((each) => each![d] as MadeWinter[] | CannotBe | undefined);
    const refused = own.find((each) => each === undefined || 'why' in each) as CannotBe | undefined;
    if (!own.every((each) => Array.isArray(each))) return refused;
    const design = index < 0 ? presentDesign(space, space.spots[0]!.name) : designAt(space, index);
    const trial = { spot: design.spot, lamp: space.present };
    const batches = own.map((each) => [each]);
    const { trials, typicalWinter } = odds.of([trial], batches, space.scenario.seed)!;
    const [one] = trials as [(typeof trials)[0]];
    return { design, odds: one, typicalWinter, failed: Math.round((1 - one.keeps.share) * winters) };
  };
  const through = odds.jobs.reduce((sum, { from, to }) => sum + to - from, 0);
  return { found: designs.map(weighed), runs: through * designs.length };
}

/** Made winters that may fail before the lower end of a chance is below a share, its doubt the same. */
export function mostThatMayFail({ winters: worth, confidence }: Chance, share: number, made: number): number {
  const low = (failing: number) => wilson(((made - failing) / made) * worth, worth, confidence).low;
  let most = 0;
  while (most + 1 < made && low(most + 1) >= share) most++;
  return most;
}
