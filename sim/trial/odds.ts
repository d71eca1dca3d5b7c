import { mean, median, quantile, variance } from 'simple-statistics';
import { InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { type Chance, wilson } from '../statistics/WinterOdds.ts';
import type { MadeBatch, MadeWinter, WinterJob } from './MadeTrials.ts';
import { WINTER_WAYS, WinterMaker, type WinterWay } from './WinterMaker.ts';
import { type JobsOptions, runWinterJobs, type WinterSetup } from './winterPool.ts';

/** What made winters say of one trial. */
export interface TrialOdds {
  spot: string;
  lamp: string;
  /** Winters made and run. */
  winters: number;
  /** That a winter keeps the promise every night. */
  keeps: Chance;
  failedNights: WinterFigures;
  short_h: WinterFigures;
  /** Nights failed in a row in the worst winter of ten. */
  longestSpell: number;
  /** For each night of the season, from 1 July (1 January in the south), the share of winters in which it fails. */
  failingShare: number[];
  /** The winter nearest to the median of failed nights, by its index. */
  typicalWinter: number;
  /** What another way of making winters says; undefined where there is none. */
  secondOpinion: { way: WinterWay; keeps: number; failedNights: number } | undefined;
  /** Share of the doubt about the chance that more made winters would not take away. */
  learningShare: number;
}

/** A figure of a winter over many. */
interface WinterFigures {
  mean: number;
  /** Nine intervals of ten that are made so hold the mean of the place. */
  meanLow: number;
  meanHigh: number;
  typical: number;
  /** Exceeded in one winter of ten. */
  worstInTen: number;
  best: number;
  worst: number;
}

/** Odds of all trials of a scenario. */
export interface ScenarioOdds {
  /** In words: what the winters are made from. */
  basis: string;
  learnedFrom: string[];
  way: WinterWay;
  trials: TrialOdds[];
  /** Winters asked for, where Ctrl-C came before all were run. */
  asked?: number;
}

export const MOST_WINTERS = 100_000;
/** Times the climate is learned again from as many winters drawn with repetition. */
const SAMPLES = 16;

/** Winters made of each, of so many made in all: enough to tell learning from drawing, few beside the rest. */
function wintersOfSample(winters: number): number {
  return Math.min(20, Math.max(6, Math.round(winters / SAMPLES)));
}

/** Winters made in the second way, as a share of all. */
const SECOND_SHARE = 0.25;
/** Trials that a job runs at most, so that Ctrl-C is answered and cores are shared evenly. */
const TRIALS_OF_A_JOB = 48;
const Z_90 = 1.6449;
/**
 * A chance near 0 or 1 is known no better than from so many times the winters learned from: between them the days of
 * other winters count too. Tuned on made climates (test/climate/coverage.slow.test.ts).
 */
const WORTH_OF_A_WINTER = 2;

/**
 * How likely a winter is to keep the promise, by winters that have not happened.
 *
 * in: scenario; setup, what they are made from; winters, how many; options
 * out: odds by trial, the same for any number of threads; undefined where it was stopped before a winter was run
 * throws: InputProblem as `WinterMaker`
 * valid: what winters on file can tell; a climate that changes is not foreseen
 * source: Efron1979 for learning again from drawn winters, Wilson1927
 */
export async function scenarioOdds(
  scenario: Scenario,
  setup: WinterSetup,
  winters: number,
  options: JobsOptions = {},
): Promise<ScenarioOdds | undefined> {
  refuseLogged(scenario);
  const { learnedFrom, frame } = new WinterMaker(setup.basis);
  const trials = scenario.spots.length * scenario.lamps.length;
  const [way, second] = WINTER_WAYS;
  const ofSample = wintersOfSample(winters);
  const jobs = [
    ...jobsOf(way, 0, winters, trials),
    ...jobsOf(second, 0, Math.max(10, Math.round(winters * SECOND_SHARE)), trials),
    ...Array.from({ length: SAMPLES }, (_, k) => jobsOf(way, k + 1, ofSample, trials)).flat(),
  ];
  const batches = await runWinterJobs(jobs, scenario, setup, options);
  const of = (wanted: WinterWay, sample: number) => joined(jobs, batches, wanted, sample, trials);
  const main = of(way, 0);
  if (main[0]!.length === 0) return undefined;
  const other = of(second, 0);
  const samples = Array.from({ length: SAMPLES }, (_, k) => of(way, k + 1));
  const pairs = scenario.spots.flatMap((spot) =>
    scenario.lamps.map((lamp) => ({ spot: spot.name, lamp: lamp.name })),
  );
  return {
    basis: `${learnedFrom.length} winters on file, ${learnedFrom[0]} to ${learnedFrom.at(-1)}: the clearness of each day by season, how dull days follow each other, and the hours of real days alike`,
    learnedFrom,
    way,
    ...(main[0]!.length < winters ? { asked: winters } : {}),
    trials: pairs.map((pair, t) => {
      const again = samples.map((sample) => sample[t]!).filter((made) => made.length === ofSample);
      return {
        ...pair,
        ...oddsOf(main[t]!, again, learnedFrom.length, frame.season.length),
        secondOpinion:
          other[t]!.length === 0
            ? undefined
            : {
                way: second,
                keeps: keptShare(other[t]!),
                failedNights: mean(other[t]!.map((w) => w.failedNights)),
              },
      };
    }),
  };
}

/** Light that was logged on a cell is that of its own days, whatever winter is made. */
function refuseLogged({ spots }: Scenario): void {
  const logged = spots.find(({ params }) => params.loggedLight !== undefined);
  if (logged === undefined) return;
  throw new InputProblem({
    code: 'SCENARIO_CONFLICT',
    field: `spots.${logged.name}.light_on_cell`,
    got: 'light that was logged on the cell, with --winters',
    expected: 'light by weather and what stands around, which other winters change',
    fix: 'describe the spot by its horizon, or by a log of its share of the light, or leave --winters away.',
  });
}

function jobsOf(way: WinterWay, sample: number, winters: number, trials: number): WinterJob[] {
  const size = Math.max(1, Math.floor(TRIALS_OF_A_JOB / trials));
  return Array.from({ length: Math.ceil(winters / size) }, (_, k) => ({
    way,
    sample,
    from: k * size,
    to: Math.min(winters, (k + 1) * size),
  }));
}

/** The winters of a way and sample, by trial, up to the first job that was broken off. */
function joined(
  jobs: readonly WinterJob[],
  batches: readonly (MadeBatch | undefined)[],
  way: WinterWay,
  sample: number,
  trials: number,
): MadeWinter[][] {
  const made: MadeWinter[][] = Array.from({ length: trials }, () => []);
  for (const [j, job] of jobs.entries()) {
    if (job.way !== way || job.sample !== sample) continue;
    const batch = batches[j];
    if (batch === undefined) break;
    batch.forEach((winters, t) => {
      made[t]!.push(...winters);
    });
  }
  return made;
}

/**
 * Odds of one trial.
 *
 * in: made, its winters; samples, those of climates learned again; learned, winters on file; nights of a season
 */
export function oddsOf(
  made: readonly MadeWinter[],
  samples: readonly (readonly MadeWinter[])[],
  learned: number,
  nights: number,
): Omit<TrialOdds, 'spot' | 'lamp' | 'secondOpinion'> {
  const share = keptShare(made);
  const drawing = (share * (1 - share)) / made.length;
  const learning = learningVariance(
    samples.map((sample) => sample.map(({ failedNights }) => (failedNights === 0 ? 1 : 0))),
  );
  const failing = new Array<number>(nights).fill(0);
  for (const { failed } of made) for (const n of failed) if (n < nights) failing[n]!++;
  const failedNights = figures(made, samples, ({ failedNights }) => failedNights);
  return {
    winters: made.length,
    keeps: chanceOf(share, drawing + learning, made.length, learned),
    failedNights,
    short_h: figures(made, samples, ({ short_h }) => short_h),
    longestSpell: quantile(
      made.map(({ longestSpell }) => longestSpell),
      0.9,
    ),
    failingShare: failing.map((count) => count / made.length),
    typicalWinter: nearest(
      made.map((winter) => winter.failedNights),
      failedNights.typical,
    ),
    learningShare: learning === 0 ? 0 : learning / (drawing + learning),
  };
}

function keptShare(made: readonly MadeWinter[]): number {
  return made.filter(({ failedNights }) => failedNights === 0).length / made.length;
}

/**
 * A chance whose variance is known: Wilson's interval of as many winters as would leave that variance, at most what
 * those learned from are worth where it nears 0 or 1, for there a bootstrap sees too little.
 */
function chanceOf(share: number, spread: number, made: number, learned: number): Chance {
  const most = Math.min(made, WORTH_OF_A_WINTER * learned);
  const known = spread > 0 ? (share * (1 - share)) / spread : most;
  const winters = Math.min(made, Math.max(1, Math.min(known, most)));
  const { low, high } = wilson(share * winters, winters, 0.9);
  return { share, low, high, winters, confidence: 0.9, method: 'Wilson' };
}

/** Variance between climates learned again, less what the drawing of their winters makes of it. */
function learningVariance(samples: readonly (readonly number[])[]): number {
  if (samples.length < 2) return 0;
  const between =
    variance(samples.map((values) => mean(values as number[]))) * (samples.length / (samples.length - 1));
  const within = mean(samples.map((values) => variance(values as number[]) / (values.length - 1)));
  return Math.max(0, between - within);
}

function figures(
  made: readonly MadeWinter[],
  samples: readonly (readonly MadeWinter[])[],
  of: (winter: MadeWinter) => number,
): WinterFigures {
  const values = made.map(of);
  const middle = mean(values);
  const drawing = values.length < 2 ? 0 : variance(values) / (values.length - 1);
  const off = Z_90 * Math.sqrt(drawing + learningVariance(samples.map((sample) => sample.map(of))));
  return {
    mean: middle,
    meanLow: Math.max(0, middle - off),
    meanHigh: middle + off,
    typical: median(values),
    worstInTen: quantile(values, 0.9),
    best: Math.min(...values),
    worst: Math.max(...values),
  };
}

function nearest(values: readonly number[], aim: number): number {
  return values.reduce(
    (best, value, i) => (Math.abs(value - aim) < Math.abs(values[best]! - aim) ? i : best),
    0,
  );
}

/** throws: USAGE where a number of winters is none. */
export function checkWinters(winters: number): void {
  if (Number.isInteger(winters) && winters >= 10 && winters <= MOST_WINTERS) return;
  throw new InputProblem({
    code: 'USAGE',
    file: 'command line',
    got: `--winters ${winters}`,
    expected: `a whole number from 10 to ${MOST_WINTERS}`,
    fix: '--winters 300.',
  });
}
