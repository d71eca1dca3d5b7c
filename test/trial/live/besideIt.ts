import { mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect } from 'vitest';
import { packedPlain } from '../../../sim/output/page/packedPlain.ts';
import { unpackedPlain } from '../../../sim/output/page/unpackedPlain.ts';
import { loadScenario } from '../../../sim/scenario/loadScenario.ts';
import type { LiveRun, Turn } from '../../../sim/trial/live/LiveRun.ts';
import { LiveTrials } from '../../../sim/trial/live/LiveTrials.ts';
import { liveRunOf } from '../../../sim/trial/live/liveRunOf.ts';
import { turnedScenario } from '../../../sim/trial/live/turnedScenario.ts';
import { loadWeather, type WeatherWishes } from '../../../sim/trial/loadWeather.ts';
import { runAll } from '../../../sim/trial/runAll.ts';
import type { HourlyTrial } from '../../../sim/trial/Trial.ts';

/** A folder beside a data-samples, as scenarios/ of the project is. */
const folder = join(mkdtempSync(join(tmpdir(), 'longnight-live-')), 'scenarios');
symlinkSync(resolve('data-samples'), join(folder, '..', 'data-samples'));
symlinkSync(resolve('scenarios'), folder);
let count = 0;

/** A file there, with that text. */
export function besideIt(text: string, name = `case-${++count}.yaml`): string {
  const path = join(folder, '..', name);
  writeFileSync(path, text.replaceAll('../data-samples', 'data-samples'));
  return path;
}

/** A run of a scenario's file as a page carries it, and its live trials. */
export async function carried(path: string, wishes: WeatherWishes = {}) {
  const scenario = loadScenario(path);
  const weather = await loadWeather(scenario, wishes);
  const run = liveRunOf(await runAll(scenario, { weather, withChanges: false }));
  if ('tooLong' in run) throw new Error(run.tooLong);
  const page = (await unpackedPlain(packedPlain(run))) as LiveRun;
  return { run: page, live: new LiveTrials(page), scenario, weather, wishes };
}

type Carried = Awaited<ReturnType<typeof carried>>;

/** A trial as it tells of itself; of the light, that on the cell. */
function told({ light, ...trial }: HourlyTrial) {
  return { ...trial, onCell: light.planeOfArray_W_m2 };
}

/**
 * Holds a turned trial against the command line's way with the scenario that is taken away, and with other files.
 *
 * in: carried; spot, lamp and turns; others, texts of files with the same values; withChanges, whether what single
 *   changes do is held too
 * out: the trial, and the scenario that is taken away
 */
export async function holdsBeside(
  { run, live, wishes }: Carried,
  spot: string,
  lamp: string,
  turns: readonly Turn[],
  { others = [], withChanges = false }: { others?: readonly string[]; withChanges?: boolean } = {},
): Promise<{ trial: HourlyTrial; yaml: string }> {
  const yaml = turnedScenario(run, spot, lamp, turns);
  if (typeof yaml !== 'string') throw new Error(yaml.refused);
  const trial = live.trial(spot, lamp, turns);
  if ('refused' in trial) throw new Error(trial.refused);
  const changes = withChanges ? live.changes(spot, lamp, turns) : [];
  if ('refused' in changes) throw new Error(changes.refused);
  for (const text of [yaml, ...others]) {
    const scenario = loadScenario(besideIt(text));
    const { trials } = await runAll(scenario, { weather: await loadWeather(scenario, wishes), withChanges });
    const same = trials.find((each) => each.spot === spot && each.lamp === lamp)!;
    expect(told({ ...trial, changes })).toStrictEqual(told(same));
  }
  return { trial, yaml };
}
