import type { InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { MOST_LAMPS } from '../trial/lampBatch.ts';
import { loadWeather } from '../trial/loadWeather.ts';
import { FEWEST_WINTERS, MOST_WINTERS, type OddsWishes, type ScenarioOdds } from '../trial/OddsJobs.ts';
import { refuseLogged, scenarioOdds } from '../trial/scenarioOdds.ts';
import { type WinterBasis, winterMaker } from '../trial/WinterMaker.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Arguments } from './Command.ts';
import { Interruption } from './Interruption.ts';
import type { Io } from './Io.ts';
import { wholeNumber } from './numberWithin.ts';
import { usageMistake } from './usageProblem.ts';
import type { WeatherAndOdds } from './weatherAndOdds.ts';
import { weatherWishes } from './weatherWishes.ts';

/**
 * The weather of a scenario, and its odds where `--winters` asks for them, on all cores; Ctrl-C ends that with the
 * winters there are.
 *
 * in: scenario; args; io
 * throws: InputProblem, USAGE
 */
export async function madeOdds(scenario: Scenario, args: Arguments, io: Io): Promise<WeatherAndOdds> {
  const asked = oddsWishes(args);
  refuseLogged(scenario);
  const { weather, basis } = await winterBasis(scenario, args, io);
  if (basis === undefined) return { weather };
  const alone = weather === undefined;
  if (alone && args.has('must-keep') && args.text('must-keep') === undefined) throw everyNightOfNone();
  const interruption = new Interruption(io);
  const odds = await interruption.ending('batch of winters', (options) =>
    scenarioOdds(scenario, basis, asked, options),
  );
  const interrupted = await interruption.end();
  return { weather: weather ?? (odds && typicalWinter(basis, odds)), odds, basis, interrupted };
}

/**
 * What winters are made from: the climate of a scenario, or the weather, which is loaded where there is any.
 *
 * in: scenario; args; io
 * out: no weather of a climate alone; no basis where there is neither
 * throws: InputProblem as `loadWeather`; USAGE
 */
export async function winterBasis(
  scenario: Scenario,
  args: Arguments,
  io: Io,
): Promise<{ weather: WeatherRecord | undefined; basis: WinterBasis | undefined }> {
  const wishes = weatherWishes(args, io);
  const { site, seed, climate } = scenario;
  const learned = wishes.files === undefined ? climate : undefined;
  const alone = learned !== undefined && scenario.weather === undefined;
  const weather = alone ? undefined : await loadWeather(scenario, wishes);
  if (learned !== undefined) return { weather, basis: { site, seed, climate: learned.section } };
  return { weather, basis: weather && { site, seed, record: weather } };
}

function oddsWishes(args: Arguments): OddsWishes {
  const winters = wholeNumber(args, 'winters', FEWEST_WINTERS, MOST_WINTERS);
  const lamps = wholeNumber(args, 'batch', 2, MOST_LAMPS);
  if (winters !== undefined) return { winters, lamps };
  throw usageMistake(`--batch ${lamps} without --winters`, 'both', `--winters 300 --batch ${lamps}`);
}

function everyNightOfNone(): InputProblem {
  return usageMistake(
    '--must-keep without a share, of a climate without a winter on file',
    'a share of the winters that are made: of one of them alone it says little',
    '--must-keep 0.9',
  );
}

/** The typical made winter, as weather to run through and look at. */
function typicalWinter(basis: WinterBasis, { way, typicalWinter, trials }: ScenarioOdds): WeatherRecord {
  const record = winterMaker(basis).weather(way, typicalWinter, 0);
  const shown = `the typical one of ${trials[0]!.winters} made winters, its dates those of any year; none of its days has been`;
  return { ...record, origin: { ...record.origin, options: { ...record.origin.options, shown } } };
}
