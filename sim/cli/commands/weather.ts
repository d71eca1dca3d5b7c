import { InputProblem } from '../../common/InputProblem.ts';
import { program } from '../../output/program.ts';
import { terminalWeather } from '../../output/terminalWeather.ts';
import type { Look } from '../../output/textTable.ts';
import { weatherAnswer } from '../../output/weatherAnswer.ts';
import { weatherJson } from '../../output/weatherJson.ts';
import { unbrokenWeather } from '../../trial/unbrokenWeather.ts';
import { writeNormalForm } from '../../weather/normalForm.ts';
import type { Arguments } from '../Command.ts';
import { EXIT, type Io } from '../Io.ts';
import { WISH_OPTIONS } from '../options.ts';
import { besideSaved, saveTyped } from '../saveTyped.ts';
import { typedAgain } from '../typedAgain.ts';
import { understoodFiles } from '../understoodFiles.ts';

/** Says what is understood of a weather file, proves it against the sun, and saves it in the plain form. */
export async function weatherCommand(args: Arguments, io: Io): Promise<number> {
  const beside = besideSaved('weather.csv', args, io);
  const { report: read, record } = await understoodFiles(args, io);
  // Runs and climates count what follows a break in the record.
  const report =
    record === undefined
      ? read
      : { ...read, options: unbrokenWeather(record, read.site, false).origin.options };
  if (args.has('json')) io.stdout(weatherJson(report, program()));
  else {
    // A run takes the place from its scenario.
    const wishes = WISH_OPTIONS.filter((option) => option !== 'place');
    const again = {
      run: typedAgain(args, wishes),
      details: typedAgain(args, [...wishes, 'place', 'scenario', 'air']),
    };
    const textOf = args.has('details')
      ? (look: Look) => terminalWeather(report, look)
      : (look: Look) => weatherAnswer(report, again, look);
    beside.stdoutLaidOut(textOf);
  }
  if (args.text('write') === undefined) return EXIT.ran;
  if (record === undefined) {
    throw new InputProblem('problem' in report.stretch ? report.stretch.problem : []);
  }
  const text = writeNormalForm(record, report.site);
  saveTyped(text, `The plain form, ${record.count} hours`, args, io, beside);
  return EXIT.ran;
}
