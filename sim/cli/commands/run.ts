import { runFigureFiles } from '../../output/figures/runFigures.ts';
import { jsonText, published } from '../../output/json.ts';
import { oddsLines } from '../../output/oddsText.ts';
import { program } from '../../output/program.ts';
import { summaryJson } from '../../output/summaryJson.ts';
import { terminalRun } from '../../output/terminalRun.ts';
import { paint } from '../../output/textTable.ts';
import { UNWRITTEN } from '../../output/writeFiles.ts';
import { RunWriter } from '../../output/writeRun.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import { decisiveTrials, lettingHoursGo } from '../../trial/decisiveTrials.ts';
import type { ScenarioOdds } from '../../trial/OddsJobs.ts';
import { runOf, trialCount, trialsOf } from '../../trial/runAll.ts';
import { spotSkies } from '../../trial/spotSkies.ts';
import type { RunResult, Trial } from '../../trial/Trial.ts';
import type { Arguments } from '../Command.ts';
import { giveResult, outFolder, type Result } from '../giveResult.ts';
import { Interruption } from '../Interruption.ts';
import { EXIT, type Io, withProgress } from '../Io.ts';
import { madeChance, mustKeep } from '../mustKeep.ts';
import { scenarioFrom } from '../scenarioFrom.ts';
import { weatherAndOdds } from '../weatherAndOdds.ts';

/** Runs every lamp of a scenario in every spot, writes the files and says the verdict; what is complete where Ctrl-C comes. */
export async function runCommand(args: Arguments, io: Io): Promise<number> {
  const wanted = mustKeep(args);
  const out = outFolder(args, io);
  const scenario = scenarioFrom(args.words[0]!, io);
  const { weather, odds, interrupted } = await weatherAndOdds(scenario, args, io);
  if (interrupted) return interruptedOdds(odds, args, io);
  const sampled = args.has('spread') ? await sampling(scenario) : undefined;
  const coming = trialsOf(scenario, weather);
  const interruption = new Interruption(io);
  let broken = false;
  let trials: Trial[] = [];
  let writer: RunWriter | undefined;
  try {
    await withProgress(io, 'trial', async (show) => {
      const next = () => {
        if (trials.length > 0) show(trials.length, trialCount(scenario));
        const step = coming.next();
        return step.done === true ? undefined : (sampled?.(step.value) ?? step.value);
      };
      for await (const trial of interruption.each(next)) {
        broken = wanted?.breaks(trial.statistics, madeChance(odds, trial)) === true || broken;
        const hours = (weather ?? trial.light).count;
        if (out !== undefined) writer ??= new RunWriter(scenario, hours, { out, hours: args.has('hours') });
        writer?.add(trial);
        trials = lettingHoursGo([...trials, trial]);
      }
    });
    const all = trialCount(scenario);
    if (trials.length > 0 && trials.length < all)
      io.stderr(
        `Interrupted: ${out === undefined ? 'saying' : 'writing'} ${trials.length} of ${all} trials; Ctrl-C again ends without them.\n`,
      );
    if (trials.length > 0) {
      const run = { ...runOf(scenario, weather, trials), odds };
      return await giveResult({ ...resultOf(run, writer), broken }, args, io, interruption);
    }
  } finally {
    writer?.discard();
  }
  await interruption.end();
  io.stderr('Interrupted before any trial was complete: nothing was written.\n');
  return EXIT.interrupted;
}

function resultOf(run: RunResult, writer: RunWriter | undefined): Omit<Result, 'broken'> {
  const skies = spotSkies({ ...run, trials: decisiveTrials(run) });
  return {
    write: () => {
      if (writer === undefined) return { ...UNWRITTEN, json: summaryJson(run, program(), {}) };
      const { name, files, summary } = writer.finish(run, skies);
      return { folder: name, files, json: summary };
    },
    figures: () => runFigureFiles(run, skies),
    text: (look) => terminalRun(run, look),
    grounds: {
      seed: run.scenario.seed,
      scenarios: [run.scenario.sha256],
      weather: run.weather.sha256,
    },
  };
}

/** The winters that were run before Ctrl-C came are said; nothing is written. */
function interruptedOdds(odds: ScenarioOdds | undefined, args: Arguments, io: Io): number {
  if (args.has('json')) io.stdout(jsonText(program(), { interrupted: true, odds: published(odds, 6) }));
  else if (odds !== undefined)
    io.stdoutLaidOut((look) => `${oddsLines(odds, paint(look), true).join('\n')}\n`);
  io.stderr(
    odds === undefined
      ? 'Interrupted before any winter was run.\n'
      : 'Interrupted: what is said rests on the winters run so far; no file was written.\n',
  );
  return EXIT.interrupted;
}

async function sampling(scenario: Scenario): Promise<<Ran extends Trial>(trial: Ran) => Ran> {
  const { spreader } = await import('../../trial/spread.ts');
  return spreader(scenario);
}
