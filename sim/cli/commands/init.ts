import { existsSync, readFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { InputProblem } from '../../common/InputProblem.ts';
import { plainJson } from '../../output/json.ts';
import { type NewGarden, newGardenFiles } from '../../output/newGarden.ts';
import { sample } from '../../output/program.ts';
import { writeFolder } from '../../output/writeFiles.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import { scenarioJsonSchema } from '../../scenario/scenarioJsonSchema.ts';
import { fileSource } from '../../tables/TableSource.ts';
import { importWeather } from '../../weather/importWeather.ts';
import { writeNormalForm } from '../../weather/normalForm.ts';
import { askedFor, type Question } from '../askedFor.ts';
import type { Arguments } from '../Command.ts';
import { EXIT, type Io, pathFrom } from '../Io.ts';
import { newGardenFrom } from '../newGardenFrom.ts';
import { OPTIONS, type OptionName } from '../options.ts';
import { usageMistake } from '../usageProblem.ts';
import { weatherWishes } from '../weatherWishes.ts';

/** What is asked of whoever types no options. */
const QUESTIONS: readonly Question[] = [
  {
    option: 'weather',
    question: 'Hourly weather of your place: a file, of any layout (Enter: an invented year, to try with)',
  },
  {
    option: 'place',
    question: 'Where it was measured: latitude,longitude,elevation, as 54,10,20 (Enter: the file says it)',
    after: 'weather',
  },
  { option: 'promise', question: 'Hours of light from dusk, every night (Enter: 6)' },
  {
    option: 'around',
    question:
      'What stands around, as house=S,6,5,10 (bearing, distance, height and width in m), parted by blanks (Enter: nothing)',
  },
  {
    option: 'have',
    question:
      'What lies in the drawer, as cell=500,2.45,4 (mA, V, junctions) capacitor=360,2.7,1 (F, V, how many) (Enter: generic parts)',
  },
];

/** Begins a scenario of the user's own, from questions or options, and says what to do with it. */
export async function initCommand(typed: Arguments, io: Io): Promise<number> {
  const shown = typed.words[0] ?? 'garden';
  const folder = pathFrom(io, shown);
  const name = nameFrom(folder, shown);
  const scenario = join(shown, `${name}.yaml`);
  if (existsSync(join(folder, `${name}.yaml`))) throw alreadyThere(shown, scenario);
  const args = await askedFor(typed, QUESTIONS, io);
  const { timeZone, ...wishes } = newGardenFrom(args);
  const { site, weather } = await understoodWeather(args, io);
  const files = newGardenFiles({
    ...wishes,
    name,
    site: { ...site, timeZone },
    weather,
    schema: plainJson(scenarioJsonSchema()),
  });
  const there = files.find(({ name: file }) => existsSync(join(folder, file)));
  if (there !== undefined) throw alreadyThere(shown, join(shown, there.name));
  writeFolder(resolve(folder), files.toReversed(), (at) => loadScenario(join(at, `${name}.yaml`), scenario));
  const written = files.map(({ name: file }) => join(shown, file));
  const next = ['', 'Read it through, then', `longnight check ${scenario}`, `longnight run ${scenario}`];
  io.stdout(`${[...written, ...next].join('\n')}\n`);
  return EXIT.ran;
}

/** The scenario is called as its folder is, where that is a name it may have. */
function nameFrom(folder: string, typed: string): string {
  const name = basename(resolve(folder));
  if (/^[\p{L}][\p{L}\p{N}_-]{0,63}$/u.test(name)) return name;
  throw usageMistake(
    `the folder ${typed}`,
    'a folder whose name begins with a letter and goes on with letters, digits, - and _',
    'longnight init garden',
  );
}

function alreadyThere(shown: string, file: string): InputProblem {
  return usageMistake(
    `init ${shown}, where ${file} is already`,
    'a folder without it: what you wrote is never replaced',
    `longnight init ${shown}-2`,
  );
}

/** The weather of a garden; where its file leaves something open, whoever watches is asked for that. */
async function understoodWeather(args: Arguments, io: Io): ReturnType<typeof weatherOf> {
  try {
    return await weatherOf(args, io);
  } catch (error) {
    if (io.ask === undefined || !(error instanceof InputProblem)) throw error;
    const open = openQuestions(error, args);
    if (open.length === 0) throw error;
    io.stderr(`${error.message}\n`);
    const asked = await askedFor(args, open, io);
    if (open.every(({ option }) => asked.text(option) === undefined)) throw error;
    return understoodWeather(asked, io);
  }
}

/** What may settle how a file is to be read. */
const SETTLES = ['station', 'zone', 'marks', 'believe'] as const satisfies OptionName[];

/** A question for each option that a refusal offers and that was not said. */
function openQuestions({ problems }: InputProblem, args: Arguments): Question[] {
  const offered = problems.flatMap(({ typed = [] }) => typed);
  return SETTLES.flatMap((option): Question[] => {
    const found = offered.flatMap((piece) => new RegExp(`--${option} ("[^"]*"|\\S+)`).exec(piece)?.[1] ?? []);
    if (found.length === 0 || args.text(option) !== undefined) return [];
    const values = [...new Set(found)].map((value) => value.replaceAll('"', ''));
    return [{ option, question: `${OPTIONS[option].about}, as ${values.join(', or ')}` }];
  });
}

/** The weather of a garden: the user's, in the plain form, or where none is named the invented year that comes along. */
async function weatherOf(
  args: Arguments,
  io: Io,
): Promise<{ site: Omit<NewGarden['site'], 'timeZone'>; weather: NewGarden['weather'] }> {
  const { files = [], ...wishes } = weatherWishes(args, io);
  if (files.length === 0) {
    if (wishes.place !== undefined) throw placeAlone(args.text('place')!);
    return { site: INVENTED_SITE, weather: { ...INVENTED, content: readFileSync(SAMPLE) } };
  }
  const sources = files.map(({ path, name }) => fileSource(path, name));
  const { report, record } = await importWeather(sources, wishes);
  if (record === undefined) throw new InputProblem('problem' in report.stretch ? report.stretch.problem : []);
  const from = files.map(({ name }) => basename(name)).join(', ');
  return {
    site: report.site,
    weather: {
      file: `weather/${plainName(files[0]!.name)}.csv`,
      content: writeNormalForm(record, report.site),
      from: `Hours from ${from}, in the plain form; longnight weather tells how good they are.`,
    },
  };
}

function placeAlone(place: string): InputProblem {
  return usageMistake(
    `--place ${place} without --weather`,
    'hourly weather of that place, a file of any layout',
    'add --weather FILE; without both the garden gets invented weather, to try with',
  );
}

/** The place of the invented year. */
const INVENTED_SITE = { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 };
const INVENTED = {
  file: 'weather/invented-year.csv',
  from: 'INVENTED weather of no real place, to try with. For yours: longnight init once more, with --weather and --place.',
};
const SAMPLE = sample('invented-year.csv');

function plainName(file: string): string {
  const name = basename(file).replace(/\.[^.]*$/, '');
  return name.replace(/[^\p{L}\p{N}_-]+/gu, '-') || 'weather';
}
