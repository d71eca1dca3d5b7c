import { minIndex } from 'd3-array';
import { mean, median } from 'simple-statistics';
import { BATCH_WINTERS, lampBatch } from './lampBatch.ts';
import type { MadeBatch, MadeTrial, MadeWinter, WinterJob } from './MadeTrials.ts';
import { heldBoth, keptShare, oddsOf, type TrialOdds } from './odds.ts';
import type { WinterMaker, WinterWay } from './WinterMaker.ts';

/** Odds of all trials of a scenario. */
export interface ScenarioOdds {
  /** In words: what the winters are made from. */
  basis: string;
  /** Winters on file, or as many as the climate is worth. */
  learnedWinters: number;
  way: WinterWay;
  /** Index of the made winter whose failed nights, all trials together, are nearest to the median. */
  typicalWinter: number;
  trials: TrialOdds[];
  /** Winters asked for, where Ctrl-C came before all were run. */
  asked?: number;
}

/** What is asked for: winters made, and lamps built of each kind. */
export interface OddsWishes {
  winters: number;
  lamps?: number | undefined;
}

export const MOST_WINTERS = 100_000;
export const FEWEST_WINTERS = 10;
/** Times the climate is learned again from as many winters drawn with repetition. */
const SAMPLES = 16;
/** Winters made in the second way, as a share of all. */
const SECOND_SHARE = 0.25;
/** Trials that a job runs at most, so that Ctrl-C is answered and cores are shared evenly. */
const TRIALS_OF_A_JOB = 24;

/** The winters that odds of some trials rest on, as jobs, and the odds once they are done. */
export class OddsJobs {
  readonly jobs: readonly WinterJob[];
  private readonly maker: WinterMaker;
  private readonly wishes: OddsWishes;

  /** in: maker; wishes; trials, how many go through each winter */
  constructor(maker: WinterMaker, wishes: OddsWishes, trials: number) {
    this.maker = maker;
    this.wishes = wishes;
    this.jobs = jobsOf(maker, wishes, trials);
  }

  /**
   * The odds of trials.
   *
   * in: trials; batches, of each job the winters of each trial, undefined where it was broken off; seed
   * out: by trial; undefined where no winter was run
   */
  of(
    trials: readonly MadeTrial[],
    batches: readonly (MadeBatch | undefined)[],
    seed: number,
  ): ScenarioOdds | undefined {
    const { maker, jobs } = this;
    const { winters, lamps } = this.wishes;
    const made = new MadeByJob(jobs, batches, trials.length);
    const [way, second] = maker.ways;
    const main = made.of({ way: way!, sample: 0 });
    if (main[0]!.length === 0) return undefined;
    const other = second && made.of({ way: second, sample: 0 });
    const again = samplesOf(maker).map((sample) => made.of({ way: way!, sample }));
    const built = lamps === undefined ? undefined : made.of({ way: way!, sample: 0, built: lamps });
    const oddsOfTrial = ({ spot, lamp }: MadeTrial, t: number): TrialOdds => {
      const samples = again
        .map((sample) => sample[t]!)
        .filter((some) => some.length === wintersOfSample(winters));
      const odds = oddsOf(main[t]!, samples, maker.learnedWinters, maker.frame.season.length);
      const opinion = other?.[t] ?? [];
      const believed =
        maker.waysAreBeliefs && opinion.length > 0 ? heldBoth(odds, opinion, maker.learnedWinters) : odds;
      return {
        spot: spot.name,
        lamp: lamp.name,
        ...believed,
        secondOpinion: opinion.length === 0 ? undefined : { way: second!, ...opinionOf(opinion) },
        ...(built === undefined ? {} : { batch: lampBatch(built[t]!, lamp.params, lamps!, seed) }),
      };
    };
    return {
      basis: maker.words,
      learnedWinters: maker.learnedWinters,
      way: way!,
      typicalWinter: typicalOf(main),
      ...(main[0]!.length < winters ? { asked: winters } : {}),
      trials: trials.map(oddsOfTrial),
    };
  }
}

function typicalOf(main: readonly (readonly MadeWinter[])[]): number {
  const failed = main[0]!.map((_, w) => mean(main.map((trial) => trial[w]!.failedNights)));
  const middle = median(failed);
  return minIndex(failed, (nights) => Math.abs(nights - middle));
}

function opinionOf(made: readonly MadeWinter[]): { keeps: number; failedNights: number } {
  return { keeps: keptShare(made), failedNights: mean(made.map(({ failedNights }) => failedNights)) };
}

/** Numbers of the draws of winters that the climate is learned from again. */
function samplesOf({ learnsAgain }: WinterMaker): number[] {
  return learnsAgain ? Array.from({ length: SAMPLES }, (_, k) => k + 1) : [];
}

/** Winters made of each draw, of so many made in all: enough to tell learning from drawing, of 300 as many again in all. */
function wintersOfSample(winters: number): number {
  return Math.min(20, Math.max(6, Math.round(winters / SAMPLES)));
}

/** All that is to be run, what matters most first, for Ctrl-C may come. */
function jobsOf(maker: WinterMaker, { winters, lamps }: OddsWishes, trials: number): WinterJob[] {
  const [way, second] = maker.ways;
  const share = maker.waysAreBeliefs ? 1 : SECOND_SHARE;
  const others = Math.max(FEWEST_WINTERS, Math.round(winters * share));
  const few = Math.min(winters, BATCH_WINTERS);
  return [
    ...abreast(
      pieces({ way: way!, sample: 0 }, winters, trials),
      second === undefined ? [] : pieces({ way: second, sample: 0 }, others, trials),
    ),
    ...samplesOf(maker).flatMap((sample) => pieces({ way: way!, sample }, wintersOfSample(winters), trials)),
    ...(lamps === undefined ? [] : pieces({ way: way!, sample: 0, built: lamps }, few, trials * lamps)),
  ];
}

/** Jobs of two kinds, each as far as the other at any time. */
function abreast(...kinds: WinterJob[][]): WinterJob[] {
  const placed = kinds.flatMap((jobs) => jobs.map((job, k) => ({ job, done: (k + 1) / jobs.length })));
  return placed.sort((one, two) => one.done - two.done).map(({ job }) => job);
}

type Kind = Pick<WinterJob, 'way' | 'sample' | 'built'>;

function pieces(kind: Kind, winters: number, trials: number): WinterJob[] {
  const size = Math.max(1, Math.floor(TRIALS_OF_A_JOB / trials));
  return Array.from({ length: Math.ceil(winters / size) }, (_, k) => {
    return { ...kind, from: k * size, to: Math.min(winters, (k + 1) * size) };
  });
}

/** What the jobs gave, put together. */
class MadeByJob {
  private readonly jobs: readonly WinterJob[];
  private readonly batches: readonly (MadeBatch | undefined)[];
  private readonly trials: number;

  constructor(jobs: readonly WinterJob[], batches: readonly (MadeBatch | undefined)[], trials: number) {
    this.jobs = jobs;
    this.batches = batches;
    this.trials = trials;
  }

  /** The winters of one kind, by trial, up to the first job that was broken off. */
  of({ way, sample, built }: Kind): MadeWinter[][] {
    const made: MadeWinter[][] = Array.from({ length: this.trials }, () => []);
    for (const [j, job] of this.jobs.entries()) {
      if (job.way !== way || job.sample !== sample || job.built !== built) continue;
      const batch = this.batches[j];
      if (batch === undefined) break;
      batch.forEach((winters, t) => {
        made[t]!.push(...winters);
      });
    }
    return made;
  }
}
