import { minIndex } from 'd3-array';
import { mean, median } from 'simple-statistics';
import { InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { type JobsOptions, runJobs } from './jobPool.ts';
import { BATCH_WINTERS, lampBatch } from './lampBatch.ts';
import {
  type MadeBatch,
  MadeTrials,
  type MadeWinter,
  type WinterJob,
  type WinterSetup,
} from './MadeTrials.ts';
import { heldBoth, keptShare, oddsOf, type TrialOdds } from './odds.ts';
import { type WinterMaker, type WinterWay, winterMaker } from './WinterMaker.ts';

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

/**
 * How likely a winter is to keep the promise, by winters that have not happened.
 *
 * in: scenario; setup, what they are made from; wishes; options
 * out: odds by trial, the same for any number of threads; undefined where it was stopped before a winter was run
 * throws: InputProblem as `winterMaker`; SCENARIO_CONFLICT where the light was logged on a cell
 * valid: what winters on file can tell; a climate that changes is not foreseen
 * source: Efron1979 for learning again from drawn winters, Wilson1927
 */
export async function scenarioOdds(
  scenario: Scenario,
  setup: WinterSetup,
  wishes: OddsWishes,
  options: JobsOptions = {},
): Promise<ScenarioOdds | undefined> {
  refuseLogged(scenario);
  const maker = winterMaker(setup.basis);
  const pairs = scenario.spots.flatMap((spot) => scenario.lamps.map((lamp) => ({ spot, lamp })));
  const jobs = jobsOf(maker, wishes, pairs.length);
  const here = () => {
    const trials = new MadeTrials(scenario, setup.basis);
    return (job: WinterJob) => trials.run(job);
  };
  const batches = await runJobs(jobs, { worker: 'trial/winterWorker', setup, here }, options);
  const made = new MadeByJob(jobs, batches, pairs.length);
  const [way, second] = maker.ways;
  const main = made.of({ way: way!, sample: 0 });
  const { winters, lamps } = wishes;
  if (main[0]!.length === 0) return undefined;
  const other = second && made.of({ way: second, sample: 0 });
  const again = samplesOf(maker).map((sample) => made.of({ way: way!, sample }));
  const built = lamps === undefined ? undefined : made.of({ way: way!, sample: 0, built: lamps });
  return {
    basis: maker.words,
    learnedWinters: maker.learnedWinters,
    way: way!,
    typicalWinter: typicalOf(main),
    ...(main[0]!.length < winters ? { asked: winters } : {}),
    trials: pairs.map(({ spot, lamp }, t): TrialOdds => {
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
        ...(built === undefined ? {} : { batch: lampBatch(built[t]!, lamp.params, lamps!, scenario.seed) }),
      };
    }),
  };
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

/**
 * Light that was logged on a cell is that of its own days, whatever winter is made.
 *
 * in: scenario
 * throws: SCENARIO_CONFLICT where a spot of it has such light
 */
export function refuseLogged({ file, spots }: Scenario): void {
  const logged = spots.find(({ params }) => params.loggedLight !== undefined);
  if (logged === undefined) return;
  throw new InputProblem({
    code: 'SCENARIO_CONFLICT',
    file,
    field: `spots.${logged.name}.light_on_cell`,
    got: 'light that was logged on the cell, with --winters',
    expected: 'light by weather and what stands around, which other winters change',
    fix: 'describe the spot by its horizon, or by a log of its share of the light, or leave --winters away.',
  });
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
