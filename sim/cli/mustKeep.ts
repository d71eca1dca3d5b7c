import { InputProblem } from '../common/InputProblem.ts';
import type { NightStatistics } from '../statistics/TrialStatistics.ts';
import type { Chance } from '../statistics/WinterOdds.ts';
import type { ScenarioOdds } from '../trial/OddsJobs.ts';
import type { Arguments } from './Command.ts';

/** What `--must-keep` asks of a trial. */
export interface MustKeep {
  /**
   * Whether a trial falls short of it; made, the chance by winters that were made, which then counts in place of that by
   * winters on file. throws: USAGE where a share is asked for and there are no two whole winters
   */
  breaks: (statistics: Pick<NightStatistics, 'verdict' | 'odds'>, made?: Chance) => boolean;
}

/** The least share of winters that can be asked for. */
export const LEAST_SHARE = 0.01;

/**
 * What `--must-keep` asks for: every night of every winter, or with a share that the lower bound of the chance that a
 * winter is kept does not lie below it.
 *
 * in: args
 * out: undefined where it was not typed
 * throws: USAGE where the share is none
 */
export function mustKeep(args: Arguments): MustKeep | undefined {
  if (!args.has('must-keep')) return undefined;
  const share = args.number('must-keep', LEAST_SHARE, 1);
  return {
    breaks: ({ verdict, odds }, made = odds?.chance) => {
      if (share === undefined || verdict === 'nothing-promised') return verdict === 'broken';
      if (made === undefined) throw oneWinter(share);
      return made.low < share;
    },
  };
}

/** The chance that made winters give a trial; undefined where none were made. */
export function madeChance(
  odds: ScenarioOdds | undefined,
  { spot, lamp }: { spot: string; lamp: string },
): Chance | undefined {
  return odds?.trials.find((trial) => trial.spot === spot && trial.lamp === lamp)?.keeps;
}

/** A share of winters asked for where there are no two. */
export function oneWinter(share: number): InputProblem {
  return new InputProblem({
    code: 'USAGE',
    file: 'command line',
    got: `--must-keep ${share} with weather that holds no two whole winters`,
    expected: 'a share of winters with several on file: what happened in one is no chance',
    fix: 'take a record of more years (--weather FILE ..., ten winters or more tell something), winters that are made (--winters 300), or --must-keep alone, which asks for every night of the winter there is.',
  });
}
