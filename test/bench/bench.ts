import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { reportPage } from '../../sim/output/page/reportPage.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import type { SpotLight } from '../../sim/spot/spotLight.ts';
import type { HourlyTrial } from '../../sim/trial/Trial.ts';
import { DEFAULT_TOLERANCE_V } from '../../sim/year/simulateYear.ts';
import { demoPage, manyTrials } from '../browser/pages.ts';
import { inventedRecord } from '../climate/inventedRecord.ts';
import { type Gap, gapOf, type Trip, together } from '../year/besideOutside.ts';
import { built } from './built.ts';
import { liveRedraw } from './liveRedraw.ts';
import { pageLoad } from './pageLoad.ts';
import { type Times, timesOf } from './timesOf.ts';

// Measures and prints; nothing here is asserted. Run it on a machine that does nothing else. What is timed is the built
// program, as users run it.

const root = fileURLToPath(new URL('../..', import.meta.url));
const {
  designSpace,
  loadScenario,
  loadWeather,
  MadeTrials,
  outside,
  readSpotFiles,
  runTrial,
  sizeLamp,
  spotLight,
} = built;

const START_V = 1.5;
/** How much slower than this machine one is that turns values. */
const SLOWED = 4;
/** Of the outside integration that errors are held against. */
const REFERENCE_TOLERANCE_V = 1e-9;

const say = (line: string) => process.stdout.write(`${line}\n`);
const digits = (value: number) => (value < 100 ? value.toPrecision(3) : value.toFixed(0));
const ms = ({ median, least }: Times) => `${digits(median)} ms (least ${digits(least)})`;
const row = (what: string, value: string) => say(`  ${what.padEnd(52)} ${value}`);

const scenario = loadScenario(join(root, 'scenarios/invented-garden.yaml'));
const weather = await loadWeather(scenario);
const lights = scenario.spots.map((spot) => ({ name: spot.name, light: lightOf(scenario, spot.params) }));

function lightOf({ folder, site }: Scenario, params: Scenario['spots'][number]['params']): SpotLight {
  return spotLight(
    weather,
    site,
    params,
    readSpotFiles(params, (file) => readFileSync(resolve(folder, file))),
  );
}

function trialOf(
  light: SpotLight,
  spot: string,
  lamp: Scenario['lamps'][number],
  tolerance_V: number,
): HourlyTrial {
  return runTrial(lamp.params, light, {
    spot,
    lamp: lamp.name,
    site: scenario.site,
    promise: scenario.promise,
    seed: scenario.seed,
    start: { capacitor_V: START_V },
    tolerance_V,
  });
}

say(`Machine: ${cpus()[0]?.model.trim() ?? 'unknown'}, Node ${process.version}, ${process.arch}`);
let sink = 0;
const exps = 2_000_000;
const expTimes = timesOf(
  () => {
    for (let i = 0; i < exps; i++) sink += Math.exp(-i * 1e-6);
  },
  9,
  3,
);
row('Math.exp', `${((expTimes.least / exps) * 1e6).toFixed(1)} ns${sink === 0 ? ' (never called)' : ''}`);

await import('./oldAndNew.ts');

say('\nrunTrial, light of the spot given, start given (one pass), one core; median of 50 after 20');
let slowest = 0;
for (const { name, light } of lights) {
  for (const lamp of scenario.lamps) {
    const trial = trialOf(light, name, lamp, DEFAULT_TOLERANCE_V);
    const times = timesOf(() => trialOf(light, name, lamp, DEFAULT_TOLERANCE_V), 50, 20);
    slowest = Math.max(slowest, times.median);
    const { steps, chargeResidual, energyResidual } = trial.year;
    row(`${lamp.name} on ${name}`, `${ms(times)} a lamp-year`);
    row('  steps an hour', (steps / light.count).toFixed(3));
    row(
      '  charge, energy left over, of what was moved',
      `${chargeResidual.toExponential(1)}, ${energyResidual.toExponential(1)}`,
    );
    const gap = gapOf(trial.year, outside(tripOf(light, lamp), REFERENCE_TOLERANCE_V));
    row('  against the outside integration', words(gap));
  }
}
row('slowest of these', `${slowest.toFixed(2)} ms`);

say('\nThe library odex on the same problem: no ledger, no light, no nights, only the voltages');
{
  const { name, light } = lights[0]!;
  const lamp = scenario.lamps[0]!;
  const trip = tripOf(light, lamp);
  const reference = outside(trip, REFERENCE_TOLERANCE_V);
  const trial = trialOf(light, name, lamp, DEFAULT_TOLERANCE_V);
  const own = timesOf(() => trialOf(light, name, lamp, DEFAULT_TOLERANCE_V), 50, 20);
  const own_V = gapOf(trial.year, reference).most_V;
  row(`runTrial, ${lamp.name} on ${name}`, `${ms(own)}, within ${(own_V * 1e3).toFixed(3)} mV`);
  let best: Times | undefined;
  for (const tolerance of [1e-3, 1e-4, 1e-5, 1e-6, 1e-7]) {
    const { hourEnd_V, evaluations, stops_s, restarts_s } = outside(trip, tolerance);
    const times = timesOf(() => outside(trip, tolerance), 3, 0);
    const off_V = hourEnd_V.reduce((most, v, i) => Math.max(most, Math.abs(v - reference.hourEnd_V[i]!)), 0);
    row(
      `odex at ${tolerance.toExponential(0)} V`,
      `${ms(times)}, within ${(off_V * 1e3).toFixed(3)} mV, ${(evaluations / light.count).toFixed(0)} evaluations an hour, ${stops_s.length + restarts_s.length} events`,
    );
    if (off_V <= own_V * 1.05 && (best === undefined || times.least < best.least)) best = times;
  }
  if (best === undefined) row('at least as accurate', 'none of these');
  else
    row(
      'fastest that is as accurate',
      `${(best.least / own.least).toFixed(1)} times runTrial's time (least over least)`,
    );
}

say('\nOther stages; medians');
{
  const reads: number[] = [];
  for (let round = 0; round < 20; round++) {
    const from = performance.now();
    await loadWeather(scenario);
    if (round >= 5) reads.push(performance.now() - from);
  }
  reads.sort((a, b) => a - b);
  row('weather, 8760 rows of CSV read and checked', ms({ median: reads[7]!, least: reads[0]! }));
}
for (const spot of scenario.spots)
  row(`light on ${spot.name}, a year`, ms(timesOf(() => lightOf(scenario, spot.params), 15, 5)));

say('\nMade winters, each with weather of its own; 4 lamps in all');
{
  const { site, seed } = scenario;
  const trials = new MadeTrials(scenario, { record: inventedRecord(6), site, seed });
  const winters = 25;
  let from = 0;
  const each = timesOf(
    () => {
      trials.run({ way: 'days-alike', sample: 0, from, to: from + winters });
      from += winters;
    },
    5,
    1,
  );
  const lampYears = winters * scenario.spots.length * scenario.lamps.length;
  row('lamp-years a second on one core', digits((1000 * lampYears) / each.least));
}

say('\nSizing, the demo of choices on its first spot');
{
  const choosing = loadScenario(join(root, 'scenarios/cheapest-lamp.yaml'));
  const year = await loadWeather(choosing);
  const space = designSpace(choosing, { spot: choosing.spots[0]!.name });
  for (const threads of [0, 1, 2]) {
    const from = performance.now();
    const { designs } = await sizeLamp(space, year, { threads });
    const took_s = (performance.now() - from) / 1000;
    const shares = `${((100 * designs.ran) / designs.all).toFixed(0)} percent of ${designs.all} run whole`;
    row(`designs a second, ${threads} threads beside`, `${digits(designs.all / took_s)}, ${shares}`);
  }
}

say('\nWhole program as a process, demo scenario; median of 5');
{
  const out = mkdtempSync(join(tmpdir(), 'longnight-bench-'));
  const run = () => {
    const words = ['dist/cli/main.js', 'run', 'scenarios/invented-garden.yaml', '--out', out];
    const { status, stderr } = spawnSync(process.execPath, words, { cwd: root, encoding: 'utf8' });
    if (status !== 0) throw new Error(stderr);
  };
  row('node dist/cli/main.js run', ms(timesOf(run, 5, 1)));
  const bare = timesOf(() => spawnSync(process.execPath, ['-e', '0']), 5, 1);
  row('of which Node alone', ms(bare));
  await sayPageLoad('the demo', join(out, scenario.name, 'report.html'));
  const many = join(out, 'many.html');
  const { run: demo } = await demoPage();
  writeFileSync(many, reportPage(manyTrials(demo), new Map(), []));
  await sayPageLoad('20 lamps in 20 spots', many);
  rmSync(out, { recursive: true });
}

/** Size of the page, and how soon a browser has it, where there is one. */
async function sayPageLoad(of: string, file: string): Promise<void> {
  row(`report.html of ${of}`, `${digits(statSync(file).size / 1000)} kB`);
  const times = await pageLoad(file);
  row('loaded from disk in a browser', times === undefined ? 'no browser here' : ms(times));
  for (const hand of ['evenly', 'to and fro'] as const) {
    const redraw = await liveRedraw(file, SLOWED, hand);
    if (redraw === undefined) return;
    const { whole, worker } = redraw;
    const all = whole.median + (SLOWED - 1) * worker.median;
    row(`from a value turned ${hand} to the chart, page ${SLOWED} x slowed`, ms(whole));
    row('  of which the worker, at full speed', ms(worker));
    row(`  all of it were the worker ${SLOWED} x slowed too`, `${digits(all)} ms`);
  }
}

await import('./liveBench.ts');
await import('./weatherBench.ts');

function tripOf(light: SpotLight, { params }: Scenario['lamps'][number]): Trip {
  const { promise, site } = scenario;
  return {
    lamp: params,
    light,
    options: { timeZone: site.timeZone, promise, start: { capacitor_V: START_V } },
  };
}

function words(gap: Gap): string {
  const { rms_V, most_V, night_s, litShare } = together([gap]);
  const millivolts = `${(1e3 * rms_V).toFixed(3)} mV rms, ${(1e3 * most_V).toFixed(2)} at most`;
  return `${millivolts}; lit time ${night_s.toFixed(1)} s a night, ${(100 * litShare).toPrecision(1)} % a year`;
}
