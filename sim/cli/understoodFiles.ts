import { fileSource } from '../tables/TableSource.ts';
import { importWeather, type UnderstoodWeather } from '../weather/importWeather.ts';
import type { ImportOptions } from '../weather/readWithClock.ts';
import type { Arguments } from './Command.ts';
import { filesTyped } from './filesTyped.ts';
import { type Io, withProgress } from './Io.ts';
import { scenarioFrom } from './scenarioFrom.ts';
import { weatherWishes } from './weatherWishes.ts';

/**
 * The weather files that a command names, understood, with progress where a person watches.
 *
 * in: args, their words the files; io
 * throws: as `importWeather`; USAGE
 */
export async function understoodFiles(args: Arguments, io: Io): Promise<UnderstoodWeather> {
  const sources = filesTyped(args.words, io).map(({ path, name }) => fileSource(path, name));
  const options = {
    ...sitePlace(args, io),
    ...weatherWishes(args, io),
    constant_degC: args.number('air', -60, 60),
  };
  return withProgress(io, 'megabyte', (show) =>
    importWeather(sources, {
      ...options,
      onProgress: (done, total) => show(megabytes(done), megabytes(total)),
    }),
  );
}

/** The place of a scenario, where one is named. */
function sitePlace(args: Arguments, io: Io): Pick<ImportOptions, 'place'> {
  const file = args.text('scenario');
  if (file === undefined) return {};
  const { latitude_deg, longitude_deg, elevation_m } = scenarioFrom(file, io).site;
  return { place: { latitude_deg, longitude_deg, elevation_m } };
}

function megabytes(bytes: number): number {
  return Math.ceil(bytes / 1e6);
}
