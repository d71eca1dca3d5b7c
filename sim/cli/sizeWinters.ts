import { oddsFigureFiles } from '../output/figures/oddsChart.ts';
import { likelyText } from '../output/likelyText.ts';
import { namedOdds } from '../output/likelyWords.ts';
import type { Look } from '../output/textTable.ts';
import { writeLikelySizing } from '../output/writeSizing.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { MOST_SIZED_BY, sizeByWinters } from '../sizing/winters/sizeByWinters.ts';
import { FEWEST_WINTERS } from '../trial/OddsJobs.ts';
import { refuseLogged } from '../trial/scenarioOdds.ts';
import type { Arguments } from './Command.ts';
import { outFolder, type Result } from './giveResult.ts';
import type { Interruption } from './Interruption.ts';
import type { Io } from './Io.ts';
import { winterBasis } from './madeWinters.ts';
import { LEAST_SHARE } from './mustKeep.ts';
import { wholeNumber } from './numberWithin.ts';
import { usageMistake } from './usageProblem.ts';

/**
 * The cheapest lamp by winters that are made, where `--winters` asks for them.
 *
 * in: scenario; wishes, what else is asked; args; io; interruption
 * out: what to write and to say, undefined where Ctrl-C came before any design was settled
 * throws: InputProblem as `sizeByWinters`; USAGE where no share is asked for
 */
export async function sizedByWinters(
  scenario: Scenario,
  wishes: { lamp: string | undefined; spot: string | undefined; lamps: number | undefined },
  args: Arguments,
  io: Io,
  interruption: Interruption,
): Promise<Result | undefined> {
  const out = outFolder(args, io);
  const winters = wholeNumber(args, 'winters', FEWEST_WINTERS, MOST_SIZED_BY)!;
  const mustKeep = args.has('must-keep') ? args.number('must-keep', LEAST_SHARE, 1) : undefined;
  if (mustKeep === undefined) throw withoutShare(winters);
  refuseLogged(scenario);
  const { weather, basis } = await winterBasis(scenario, args, io);
  const sizing = await interruption.ending('design', (options) =>
    sizeByWinters(scenario, basis!, { ...wishes, winters, mustKeep }, options),
  );
  const { answers } = sizing;
  if (answers.every(({ partial }) => partial?.settled === 0)) return undefined;
  return {
    write: () => writeLikelySizing(sizing, out),
    figures: () => oddsFigureFiles(namedOdds(sizing)?.trials ?? [], scenario.site.latitude_deg < 0),
    text: (look: Look) => likelyText(sizing, look),
    grounds: {
      seed: scenario.seed,
      scenarios: [scenario.sha256],
      weather: weather?.origin.sha256,
    },
    broken: answers.some(({ cheapest }) => cheapest === undefined),
  };
}

function withoutShare(winters: number) {
  return usageMistake(
    `--winters ${winters} without a share of them`,
    'the share of winters that the lamp has to keep',
    `--winters ${winters} --must-keep 0.8`,
  );
}
