import { join } from 'node:path';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { nearestWord } from '../../common/hints.ts';
import { compareFigureFiles } from '../../output/figures/compareFigures.ts';
import { terminalCompare } from '../../output/terminalCompare.ts';
import { writeFigures } from '../../output/writeFiles.ts';
import { writeCompare } from '../../output/writeRun.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import { COMPARED_BY, type ComparedBy, type Comparison } from '../../trial/Comparison.ts';
import { compareRuns } from '../../trial/compare.ts';
import { distinctNames } from '../../trial/distinctNames.ts';
import { loadWeather } from '../../trial/loadWeather.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import { runAll } from '../../trial/runAll.ts';
import type { Arguments, Command } from '../Command.ts';
import { EXIT } from '../exitCodes.ts';
import type { Io } from '../Io.ts';
import { pathFrom } from '../pathFrom.ts';
import { progress } from '../progress.ts';
import { takesColour } from '../takesColour.ts';
import { usageMistake } from '../usageMistake.ts';
import { WISH_OPTIONS, weatherWishes } from '../weatherWishes.ts';

/** Runs one or several scenarios and holds their spots, or their lamps, against each other. */
export const compareCommand: Command = {
  name: 'compare',
  words: ['SCENARIO...'],
  about: 'spots or lamps side by side: light by month, nights, and what limits each spot',
  examples: [
    ['longnight compare scenarios/invented-garden.yaml', 'the north side or the open lawn?'],
    ['longnight compare garden.yaml --by lamp', 'one capacitor or two, spot by spot'],
    ['longnight compare garden.yaml --figures pictures', 'the pictures of the page as SVG files too'],
    ['longnight compare garden.yaml balcony.yaml --json', 'two scenarios, for scripts: compare.json'],
  ],
  options: ['json', 'out', 'must-keep', 'by', 'weather', 'figures', ...WISH_OPTIONS],
  run: async (args, io) => {
    const by = comparedBy(args);
    const { comparison, runs } = await compareAll(by, args, io);
    const out = args.text('out') ?? 'out';
    // An interruption is answered between the steps, never in the middle of writing.
    await nextTurn();
    const { folder: name, files, json } = writeCompare(comparison, runs, pathFrom(io.cwd, out));
    const folder = join(out, name);
    const figures = args.text('figures');
    const pictures =
      figures === undefined
        ? []
        : writeFigures(pathFrom(io.cwd, figures), compareFigureFiles(comparison, runs)).map((file) =>
            join(figures, file),
          );
    if (args.has('json')) {
      io.stdout(json);
      io.stderr(`${[...files.map((file) => join(folder, file)), ...pictures].join('\n')}\n`);
    } else {
      io.stdout(terminalCompare(comparison, takesColour(io)));
      if (pictures.length > 0) io.stdout(`\n${pictures.length} pictures in\n${figures}\n`);
      io.stdout(`\n${files.join(', ')} in\n${folder}\n`);
      io.stdout(`\nThe page to look at:\n${join(folder, 'report.html')}\n`);
    }
    const broken = comparison.trials.some((trial) => trial.verdict === 'broken');
    return broken && args.has('must-keep') ? EXIT.promiseBroken : EXIT.ran;
  },
};

function comparedBy(args: Arguments): ComparedBy {
  const typed = args.text('by') ?? 'spot';
  const by = COMPARED_BY.find((one) => one === typed);
  if (by !== undefined) return by;
  const near = nearestWord(typed, COMPARED_BY);
  throw usageMistake(
    `--by ${typed}`,
    `--by ${COMPARED_BY.join(' or --by ')}`,
    near === undefined ? '--by spot' : `did you mean --by ${near}?`,
  );
}

async function compareAll(
  by: ComparedBy,
  args: Arguments,
  io: Io,
): Promise<{ comparison: Comparison; runs: RunResult[] }> {
  const scenarios = args.words.map((file) => loadScenario(pathFrom(io.cwd, file), file));
  distinctNames(scenarios);
  const wishes = weatherWishes(args, io);
  const all = scenarios.reduce((sum, { spots, lamps }) => sum + spots.length * lamps.length, 0);
  const counter = progress(io, 'trial');
  const runs: RunResult[] = [];
  let before = 0;
  try {
    for (const scenario of scenarios) {
      const weather = await loadWeather(scenario, wishes);
      await nextTurn();
      const run = runAll(scenario, {
        onTrial: (done) => counter.show(before + done, all),
        withChanges: false,
        ...(weather === undefined ? {} : { weather }),
      });
      before += run.trials.length;
      runs.push(run);
    }
    return { comparison: compareRuns(runs, by), runs };
  } finally {
    counter.end();
  }
}
