import { join } from 'node:path';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { terminalRun } from '../../output/terminalRun.ts';
import { type WrittenRun, writeRun } from '../../output/writeRun.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import { runAll } from '../../trial/runAll.ts';
import type { Arguments, Command } from '../Command.ts';
import { EXIT } from '../exitCodes.ts';
import type { Io } from '../Io.ts';
import { pathFrom } from '../pathFrom.ts';
import { progress } from '../progress.ts';
import { takesColour } from '../takesColour.ts';

/** Runs every lamp of a scenario in every spot, writes the files and says the verdict. */
export const runCommand: Command = {
  name: 'run',
  words: ['SCENARIO'],
  about: 'run every lamp in every spot through the weather; which nights go dark, and why',
  examples: [
    ['longnight run scenarios/invented-garden.yaml', 'the verdict; files in out/invented-garden/'],
    ['longnight run garden.yaml --weather 1996.csv --out results', 'another year, results elsewhere'],
    ['longnight run garden.yaml --must-keep --json > verdict.json', 'for scripts: exit code 3 when broken'],
  ],
  options: ['json', 'out', 'must-keep', 'hours', 'weather'],
  run: async (args, io) => {
    const run = await runScenario(args, io);
    const out = args.text('out') ?? 'out';
    // An interruption is answered between the steps, never in the middle of writing.
    await nextTurn();
    const written = writeRun(run, { out: pathFrom(io.cwd, out), hours: args.has('hours') });
    say(run, written, join(out, run.scenario.name), args, io);
    const broken = run.trials.some((trial) => trial.statistics.verdict === 'broken');
    return broken && args.has('must-keep') ? EXIT.promiseBroken : EXIT.ran;
  },
};

async function runScenario(args: Arguments, io: Io): Promise<RunResult> {
  const file = args.words[0]!;
  const scenario = loadScenario(pathFrom(io.cwd, file), file);
  await nextTurn();
  const weather = args.text('weather');
  const counter = progress(io, 'trial');
  try {
    return runAll(scenario, {
      onTrial: counter.show,
      ...(weather === undefined ? {} : { weatherFile: pathFrom(io.cwd, weather) }),
    });
  } finally {
    counter.end();
  }
}

/** folder: as typed, relative to where the user stands. */
function say(run: RunResult, written: WrittenRun, folder: string, args: Arguments, io: Io): void {
  if (args.has('json')) {
    io.stdout(written.summary);
    io.stderr(`${written.files.map((file) => join(folder, file)).join('\n')}\n`);
    return;
  }
  io.stdout(terminalRun(run, takesColour(io)));
  io.stdout(`\n${written.files.join(', ')} in\n${folder}\n`);
}
