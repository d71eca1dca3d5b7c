import { basename } from 'node:path';
import { completeWinters } from '../../climate/LearnedClimate.ts';
import { learnedMonths } from '../../climate/learnedMonths.ts';
import { type RecordedDays, recordedDays } from '../../climate/RecordedDays.ts';
import { InputProblem } from '../../common/InputProblem.ts';
import { climateJson } from '../../output/climateJson.ts';
import { climateText } from '../../output/climateText.ts';
import { climateYaml } from '../../output/climateYaml.ts';
import { program } from '../../output/program.ts';
import { publicName } from '../../scenario/scenarioFile.ts';
import { heldOutWinters } from '../../trial/heldOutWinters.ts';
import { unbrokenWeather } from '../../trial/unbrokenWeather.ts';
import { LEAST_WINTERS } from '../../trial/WinterMaker.ts';
import type { WeatherReport } from '../../weather/importWeather.ts';
import type { WeatherRecord } from '../../weather/WeatherRecord.ts';
import type { Arguments } from '../Command.ts';
import { EXIT, type Io, STANDARD } from '../Io.ts';
import { besideSaved, saveTyped } from '../saveTyped.ts';
import { understoodFiles } from '../understoodFiles.ts';

/** Start of the draws that halve the winters: any number will do. */
const SEED = 1;

/** Learns the climate of a place from a record of several winters, says how far it can be trusted, and saves it. */
export async function climateCommand(args: Arguments, io: Io): Promise<number> {
  const beside = besideSaved('climate.yaml', args, io);
  const { report, record: read } = await understoodFiles(args, io);
  if (read === undefined) throw new InputProblem('problem' in report.stretch ? report.stretch.problem : []);
  const record = unbrokenWeather(read, report.site, args.has('whole-record'));
  const days = recordedDays(record, report.site);
  const winters = completeWinters(days);
  if (winters.length < LEAST_WINTERS) throw tooFew(record, days, winters);
  const section = learnedMonths(days, winters, fromWords(record, report, days, winters));
  const answer = {
    section,
    heldOut: heldOutWinters(days, winters, report.site, SEED),
    southern: report.site.latitude_deg < 0,
    broken: (['break', 'counted'] as const).flatMap((what) => record.origin.options[what] ?? []),
  };
  if (args.has('json')) io.stdout(climateJson(answer, program()));
  else beside.stdoutInColour((colour) => climateText(answer, colour));
  const target = args.text('write');
  if (target === undefined) return EXIT.ran;
  const name = target === STANDARD ? 'climate.yaml' : basename(target);
  const about = `The climate, for weather: { climate: { file: ${name} } } of a scenario`;
  saveTyped(climateYaml(section, name), about, args, io, beside);
  return EXIT.ran;
}

/** Signs of a digest that tell files apart. */
const DIGEST_SIGNS = 12;

function fromWords(
  { origin }: WeatherRecord,
  { files, site, options }: WeatherReport,
  days: RecordedDays,
  winters: readonly number[],
): string {
  const names = files.map(({ name }) => publicName(name)).join(', ');
  const [first, last] = [winters[0]!, winters.at(-1)!].map((winter) => days.winters[winter]!);
  const air = options['air temperature']?.startsWith('stand-in') ? '; its air stands in, by latitude' : '';
  return `${names} (SHA-256 ${origin.sha256.slice(0, DIGEST_SIGNS)}...), ${winters.length} winters, ${first} to ${last}, at ${site.latitude_deg}, ${site.longitude_deg}${air}`;
}

function tooFew({ origin }: WeatherRecord, days: RecordedDays, winters: readonly number[]): InputProblem {
  const which = winters.map((winter) => days.winters[winter]!).join(', ');
  return new InputProblem({
    code: 'WEATHER_PARTIAL_YEAR',
    file: origin.file,
    got: winters.length === 0 ? 'no winter whose dark half is whole' : `${winters.length} whole: ${which}`,
    expected: `${LEAST_WINTERS} winters or more to learn a climate from`,
    fix: 'give more years (several files may be named), or state twelve monthly means in weather.climate.',
  });
}
