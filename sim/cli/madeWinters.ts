import type { Scenario } from '../scenario/Scenario.ts';
import { checkWinters, type ScenarioOdds, scenarioOdds } from '../trial/odds.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Arguments } from './Command.ts';
import { type Io, withProgress } from './Io.ts';

/** What made winters gave, and whether Ctrl-C ended it. */
export interface MadeOdds {
  odds: ScenarioOdds | undefined;
  interrupted: boolean;
}

/**
 * The odds of a scenario where `--winters` asks for them, on all cores; Ctrl-C ends it with the winters there are.
 *
 * in: scenario; path of its file, and file, its name as typed; record, its weather of several winters; args; io
 * out: undefined where nobody asks
 * throws: InputProblem, USAGE
 */
export async function madeOdds(
  scenario: Scenario,
  { path, file }: { path: string; file: string },
  record: WeatherRecord,
  args: Arguments,
  io: Io,
): Promise<MadeOdds | undefined> {
  const winters = args.number('winters', 1, Number.MAX_SAFE_INTEGER);
  if (winters === undefined) return undefined;
  checkWinters(winters);
  const { site, seed } = scenario;
  let interrupted = false;
  let letGo = () => {};
  try {
    const odds = await withProgress(io, 'batch of winters', (show) =>
      scenarioOdds(scenario, { path, file, basis: { record, site, seed } }, winters, {
        onDone: show,
        onStop: (stop) => {
          letGo = io.onInterrupt(() => {
            interrupted = true;
            stop();
          });
        },
      }),
    );
    return { odds, interrupted };
  } finally {
    letGo();
  }
}
