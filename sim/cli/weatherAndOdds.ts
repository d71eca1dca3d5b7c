import type { Scenario } from '../scenario/Scenario.ts';
import { loadWeather } from '../trial/loadWeather.ts';
import type { ScenarioOdds } from '../trial/OddsJobs.ts';
import type { WinterBasis } from '../trial/WinterMaker.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Arguments } from './Command.ts';
import type { Io } from './Io.ts';
import { weatherWishes } from './weatherWishes.ts';

/** What a scenario is run through, and what made winters say of it. */
export interface WeatherAndOdds {
  /** The weather on file; of a climate alone the made winter that is typical; undefined where all light was logged. */
  weather: WeatherRecord | undefined;
  /** Where `--winters` asks for them. */
  odds?: ScenarioOdds | undefined;
  /** What those winters are made from. */
  basis?: WinterBasis;
  /** Whether Ctrl-C ended the making of winters. */
  interrupted?: boolean;
}

/**
 * The weather of a scenario, and its odds where made winters are asked for.
 *
 * in: scenario; args; io
 * throws: InputProblem, USAGE
 */
export async function weatherAndOdds(scenario: Scenario, args: Arguments, io: Io): Promise<WeatherAndOdds> {
  if (args.text('winters') === undefined && args.text('batch') === undefined)
    return { weather: await loadWeather(scenario, weatherWishes(args, io)) };
  // Much to load, and few runs need it.
  const { madeOdds } = await import('./madeWinters.ts');
  return madeOdds(scenario, args, io);
}
