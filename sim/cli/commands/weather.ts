import { InputProblem } from '../../common/InputProblem.ts';
import { program } from '../../output/program.ts';
import { terminalWeather } from '../../output/terminalWeather.ts';
import { weatherAnswer } from '../../output/weatherAnswer.ts';
import { weatherJson } from '../../output/weatherJson.ts';
import { writeNormalForm } from '../../weather/normalForm.ts';
import type { Arguments } from '../Command.ts';
import { EXIT, type Io } from '../Io.ts';
import { type OptionName, WISH_OPTIONS } from '../options.ts';
import { besideSaved, saveTyped } from '../saveTyped.ts';
import { understoodFiles } from '../understoodFiles.ts';

/** Says what is understood of a weather file, proves it against the sun, and saves it in the plain form. */
export async function weatherCommand(args: Arguments, io: Io): Promise<number> {
  const beside = besideSaved('weather.csv', args, io);
  const { report, record } = await understoodFiles(args, io);
  if (args.has('json')) io.stdout(weatherJson(report, program()));
  else {
    const again = { run: typedAgain(args, []), details: typedAgain(args, ['place', 'scenario', 'air']) };
    const textOf = args.has('details')
      ? (colour: boolean) => terminalWeather(report, colour)
      : (colour: boolean) => weatherAnswer(report, again, colour);
    beside.stdoutInColour(textOf);
  }
  if (args.text('write') === undefined) return EXIT.ran;
  if (record === undefined) {
    throw new InputProblem('problem' in report.stretch ? report.stretch.problem : []);
  }
  const text = writeNormalForm(record, report.site);
  saveTyped(text, `The plain form, ${record.count} hours`, args, io, beside);
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
