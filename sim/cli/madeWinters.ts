import type { Scenario } from '../scenario/Scenario.ts';
import { MOST_LAMPS } from '../trial/lampBatch.ts';
import { FEWEST_WINTERS, MOST_WINTERS, type ScenarioOdds, scenarioOdds } from '../trial/scenarioOdds.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Arguments } from './Command.ts';
import { type Io, withProgress } from './Io.ts';
import type { OptionName } from './options.ts';
import { usageMistake } from './usageProblem.ts';

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
  const winters = wholeNumber(args, 'winters', FEWEST_WINTERS, MOST_WINTERS);
  const lamps = wholeNumber(args, 'batch', 2, MOST_LAMPS);
  if (winters === undefined) {
    if (lamps === undefined) return undefined;
    throw usageMistake('--batch without --winters', 'both', `--winters 300 --batch ${lamps}`);
  }
  const { site, seed } = scenario;
  let interrupted = false;
  let letGo = () => {};
  try {
    const odds = await withProgress(io, 'batch of winters', (show) =>
      scenarioOdds(
        scenario,
        { path, file, basis: { record, site, seed } },
        { winters, lamps },
        {
          onDone: show,
          onStop: (stop) => {
            letGo = io.onInterrupt(() => {
              interrupted = true;
              stop();
            });
          },
        },
      ),
    );
    return { odds, interrupted };
  } finally {
    letGo();
  }
}

function wholeNumber(args: Arguments, option: OptionName, from: number, to: number): number | undefined {
  const value = args.number(option, from, to);
  if (value === undefined || Number.isInteger(value)) return value;
  throw usageMistake(`--${option} ${value}`, 'a whole number', `--${option} ${Math.round(value)}`);
}
