import { loadScenario } from '../scenario/loadScenario.ts';
import type { ImportOptions } from '../weather/importWeather.ts';
import type { Arguments } from './Command.ts';
import { type Io, pathFrom } from './Io.ts';

/** The place of the scenario that --scenario names, where one is named. */
export function sitePlace(args: Arguments, io: Io): Pick<ImportOptions, 'place'> {
  const file = args.text('scenario');
  if (file === undefined) return {};
  const { latitude_deg, longitude_deg, elevation_m } = loadScenario(pathFrom(io, file), file).site;
  return { place: { latitude_deg, longitude_deg, elevation_m } };
}
