import { basename, dirname } from 'node:path';
import { InputProblem } from '../../common/InputProblem.ts';
import { program } from '../../output/program.ts';
import { terminalWeather } from '../../output/terminalWeather.ts';
import { weatherJson } from '../../output/weatherJson.ts';
import { isSameFile, writeFiles } from '../../output/writeFiles.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import { type ImportOptions, importWeather } from '../../weather/importWeather.ts';
import { writeNormalForm } from '../../weather/normalForm.ts';
import { fileSource } from '../../weather/read/WeatherSource.ts';
import type { Arguments } from '../Command.ts';
import { EXIT, type Io, pathFrom, withProgress } from '../Io.ts';
import { weatherWishes } from '../runScenarios.ts';
import { usageMistake } from '../usageProblem.ts';

/** Says what is understood of a weather file, proves it against the sun, and saves it in the plain form. */
export async function weatherCommand(args: Arguments, io: Io): Promise<number> {
  const target = args.text('write');
  if (target !== undefined) refuseOverwriting(target, args, io);
  const sources = args.words.map((file) => fileSource(pathFrom(io, file), file));
  const options = { ...placeOf(args, io), ...weatherWishes(args, io) };
  const { report, record } = await withProgress(io, 'megabyte', (show) =>
    importWeather(sources, {
      ...options,
      onProgress: (done, total) => show(megabytes(done), megabytes(total)),
    }),
  );
  if (args.has('json')) io.stdout(weatherJson(report, program()));
  else io.stdoutInColour((colour) => terminalWeather(report, colour));
  if (target === undefined) return EXIT.ran;
  if (record === undefined) {
    throw new InputProblem('problem' in report.years ? report.years.problem : []);
  }
  const path = pathFrom(io, target);
  writeFiles(
    dirname(path),
    [{ name: basename(path), pieces: () => [writeNormalForm(record, report.site)] }],
    [],
  );
  const say = args.has('json') ? io.stderr : io.stdout;
  say(`\nThe plain form, ${record.count} hours, in\n${target}\n`);
  return EXIT.ran;
}

/** What is written over cannot be read again. */
function refuseOverwriting(target: string, args: Arguments, io: Io): void {
  const read = [...args.words, args.text('scenario') ?? []].flat();
  if (!read.some((file) => isSameFile(pathFrom(io, file), pathFrom(io, target)))) return;
  throw usageMistake(`--write ${target}`, 'another file than the one that is read', '--write weather.csv');
}

function placeOf(args: Arguments, io: Io): ImportOptions {
  const file = args.text('scenario');
  const site = file === undefined ? undefined : loadScenario(pathFrom(io, file), file).site;
  return {
    latitude_deg: args.number('latitude', -90, 90) ?? site?.latitude_deg,
    longitude_deg: args.number('longitude', -180, 180) ?? site?.longitude_deg,
    elevation_m: args.number('elevation', -500, 9000) ?? site?.elevation_m,
    constant_degC: args.number('air', -60, 60),
  };
}

function megabytes(bytes: number): number {
  return Math.ceil(bytes / 1e6);
}
