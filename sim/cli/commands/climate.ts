import { basename } from 'node:path';
import { completeWinters } from '../../climate/LearnedClimate.ts';
import { learnedMonths } from '../../climate/learnedMonths.ts';
import { recordedDays } from '../../climate/RecordedDays.ts';
import { InputProblem } from '../../common/InputProblem.ts';
import { climateJson } from '../../output/climateJson.ts';
import { climateText } from '../../output/climateText.ts';
import { climateYaml } from '../../output/climateYaml.ts';
import { program } from '../../output/program.ts';
import { publicName } from '../../scenario/scenarioFile.ts';
import { heldOutWinters } from '../../trial/heldOutWinters.ts';
import { unbrokenWeather } from '../../trial/unbrokenWeather.ts';
import { LEAST_WINTERS, tooFewWinters } from '../../trial/WinterMaker.ts';
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
  const names = winters.map((winter) => days.winters[winter]!);
  if (winters.length < LEAST_WINTERS) throw tooFewWinters(record, names);
  const section = learnedMonths(days, winters, fromWords(record, report, names));
  const answer = {
    section,
    heldOut: heldOutWinters(days, winters, report.site, SEED),
    southern: report.site.latitude_deg < 0,
    broken: (['break', 'counted'] as const).flatMap((what) => record.origin.options[what] ?? []),
  };
  if (args.has('json')) io.stdout(climateJson(answer, program()));
  else beside.stdoutLaidOut((look) => climateText(answer, look));
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
  winters: readonly string[],
): string {
  const names = files.map(({ name }) => publicName(name)).join(', ');
  const air = options['air temperature']?.startsWith('stand-in') ? '; its air stands in, by latitude' : '';
  return `${names} (SHA-256 ${origin.sha256.slice(0, DIGEST_SIGNS)}...), ${winters.length} winters, ${winters[0]} to ${winters.at(-1)}, at ${site.latitude_deg}, ${site.longitude_deg}${air}`;
}
