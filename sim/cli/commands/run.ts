import { join } from 'node:path';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { runFigureFiles } from '../../output/figures/runFigures.ts';
import { terminalRun } from '../../output/terminalRun.ts';
import { writeFigures } from '../../output/writeFiles.ts';
import { type WrittenRun, writeRun } from '../../output/writeRun.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import { loadWeather } from '../../trial/loadWeather.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import { runAll } from '../../trial/runAll.ts';
import { spotSkies } from '../../trial/spotSkies.ts';
import { spread } from '../../trial/spread.ts';
import type { Arguments, Command } from '../Command.ts';
import { EXIT } from '../exitCodes.ts';
import type { Io } from '../Io.ts';
import { pathFrom } from '../pathFrom.ts';
import { progress } from '../progress.ts';
import { takesColour } from '../takesColour.ts';
import { WISH_OPTIONS, weatherWishes } from '../weatherWishes.ts';

/** Runs every lamp of a scenario in every spot, writes the files and says the verdict. */
export const runCommand: Command = {
  name: 'run',
  words: ['SCENARIO'],
  about: 'run every lamp in every spot through the weather; which nights go dark, and why',
  examples: [
    ['longnight run scenarios/invented-garden.yaml', 'the verdict; files in out/invented-garden/'],
    ['longnight run garden.yaml --weather 1996.csv --out results', 'another year, results elsewhere'],
    ['longnight run garden.yaml --figures pictures', 'the pictures of the page as SVG files too'],
    [
      'longnight run scenarios/bench-readings.yaml --spread',
      'does the verdict stand, as far as the bench says',
    ],
    ['longnight run garden.yaml --must-keep --json > verdict.json', 'for scripts: exit code 3 when broken'],
  ],
  options: ['json', 'out', 'must-keep', 'hours', 'weather', ...WISH_OPTIONS, 'figures', 'spread'],
  run: async (args, io) => {
    const plain = await runScenario(args, io);
    const run = args.has('spread') ? await spreadRun(plain, io) : plain;
    const out = args.text('out') ?? 'out';
    // An interruption is answered between the steps, never in the middle of writing.
    await nextTurn();
    const skies = spotSkies(run);
    const written = writeRun(run, { out: pathFrom(io.cwd, out), hours: args.has('hours'), skies });
    const figures = args.text('figures');
    const pictures =
      figures === undefined
        ? []
        : writeFigures(pathFrom(io.cwd, figures), runFigureFiles(run, skies)).map((name) =>
            join(figures, name),
          );
    say(run, written, join(out, run.scenario.name), pictures, args, io);
    const broken = run.trials.some((trial) => trial.statistics.verdict === 'broken');
    return broken && args.has('must-keep') ? EXIT.promiseBroken : EXIT.ran;
  },
};

async function runScenario(args: Arguments, io: Io): Promise<RunResult> {
  const file = args.words[0]!;
  const scenario = loadScenario(pathFrom(io.cwd, file), file);
  await nextTurn();
  const weather = await loadWeather(scenario, weatherWishes(args, io));
  const counter = progress(io, 'trial');
  try {
    return runAll(scenario, { onTrial: counter.show, ...(weather === undefined ? {} : { weather }) });
  } finally {
    counter.end();
  }
}

async function spreadRun(run: RunResult, io: Io): Promise<RunResult> {
  await nextTurn();
  const counter = progress(io, 'draw');
  try {
    return spread(run, { onDraw: counter.show });
  } finally {
    counter.end();
  }
}

/** folder: as typed, relative to where the user stands. */
function say(
  run: RunResult,
  written: WrittenRun,
  folder: string,
  pictures: readonly string[],
  args: Arguments,
  io: Io,
): void {
  if (args.has('json')) {
    io.stdout(written.summary);
    io.stderr(`${[...written.files.map((file) => join(folder, file)), ...pictures].join('\n')}\n`);
    return;
  }
  io.stdout(terminalRun(run, takesColour(io)));
  if (pictures.length > 0) io.stdout(`\n${pictures.length} pictures in\n${args.text('figures')}\n`);
  io.stdout(`\n${written.files.join(', ')} in\n${folder}\n`);
  io.stdout(`\nThe page to look at:\n${join(folder, 'report.html')}\n`);
}
