import { basename, dirname } from 'node:path';
import { InputProblem } from '../../common/InputProblem.ts';
import { program } from '../../output/program.ts';
import { terminalWeather } from '../../output/terminalWeather.ts';
import { weatherAnswer } from '../../output/weatherAnswer.ts';
import { weatherJson } from '../../output/weatherJson.ts';
import { writeFiles } from '../../output/writeFiles.ts';
import { writeNormalForm } from '../../weather/normalForm.ts';
import type { Arguments } from '../Command.ts';
import { EXIT, type Io, pathFrom } from '../Io.ts';
import { type OptionName, WISH_OPTIONS } from '../options.ts';
import { refuseOverwriting } from '../refuseOverwriting.ts';
import { understoodFiles } from '../understoodFiles.ts';

/** Says what is understood of a weather file, proves it against the sun, and saves it in the plain form. */
export async function weatherCommand(args: Arguments, io: Io): Promise<number> {
  const target = args.text('write');
  if (target !== undefined) refuseOverwriting(target, 'weather.csv', args, io);
  const { report, record } = await understoodFiles(args, io);
  if (args.has('json')) io.stdout(weatherJson(report, program()));
  else {
    const again = { run: typedAgain(args, []), details: typedAgain(args, ['place', 'scenario', 'air']) };
    const textOf = args.has('details')
      ? (colour: boolean) => terminalWeather(report, colour)
      : (colour: boolean) => weatherAnswer(report, again, colour);
    io.stdoutInColour(textOf);
  }
  if (target === undefined) return EXIT.ran;
  if (record === undefined) {
    throw new InputProblem('problem' in report.stretch ? report.stretch.problem : []);
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

/** What was typed of how the files are read, to be typed again; a run takes the place from its scenario. */
function typedAgain(args: Arguments, more: readonly OptionName[]): string[] {
  const options: OptionName[] = [...WISH_OPTIONS.filter((option) => option !== 'place'), ...more];
  return options.flatMap((option) =>
    args.has(option)
      ? [`--${option}`]
      : args.all(option).map((value) => `--${option} ${/^[\w.:=,/+-]+$/.test(value) ? value : `"${value}"`}`),
  );
}
