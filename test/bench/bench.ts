import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import type { SpotLight } from '../../sim/spot/spotLight.ts';
import type { Trial } from '../../sim/trial/Trial.ts';
import { DEFAULT_TOLERANCE_V } from '../../sim/year/simulateYear.ts';
import { ReferenceCircuit } from '../year/referenceCircuit.ts';
import { built } from './built.ts';
import { odexYear } from './odexYear.ts';
import { PlainCircuit } from './PlainCircuit.ts';
import { pageLoad } from './pageLoad.ts';
import { type Times, timesOf } from './timesOf.ts';

// Measures and prints; nothing here is asserted. Run it on a machine that does nothing else. What is timed is the built
// program, as users run it.

const root = fileURLToPath(new URL('../..', import.meta.url));
const { jarTemperatureInto, loadScenario, planNights, readTextFile, readWeather, runTrial, spotLight } =
  built;

const START_V = 1.5;
const REFERENCE_TOLERANCE_V = 1e-7;

const say = (line: string) => process.stdout.write(`${line}\n`);
const digits = (value: number) => (value < 100 ? value.toPrecision(3) : value.toFixed(0));
const ms = ({ median, least }: Times) => `${digits(median)} ms (least ${digits(least)})`;
const row = (what: string, value: string) => say(`  ${what.padEnd(52)} ${value}`);

const scenario = loadScenario(join(root, 'scenarios/invented-garden.yaml'));
const weatherFile = scenario.weather!;
const weather = readWeather(readTextFile(weatherFile.path), weatherFile.section, scenario.site);
const lights = scenario.spots.map((spot) => ({ name: spot.name, light: lightOf(scenario, spot.params) }));

function lightOf({ folder, site }: Scenario, params: Scenario['spots'][number]['params']): SpotLight {
  return spotLight(weather, site, params, (file) => readFileSync(resolve(folder, file)));
}

function trialOf(
  light: SpotLight,
  spot: string,
  lamp: Scenario['lamps'][number],
  tolerance_V: number,
): Trial {
  return runTrial(lamp.params, light, {
    spot,
    lamp: lamp.name,
    site: scenario.site,
    promise: scenario.promise,
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
    const reference = trialOf(light, name, lamp, REFERENCE_TOLERANCE_V);
    row(
      `  against ${(reference.year.steps / light.count).toFixed(1)} steps an hour (tolerance ${REFERENCE_TOLERANCE_V} V)`,
      `capacitor within ${(1e3 * farthest(trial, reference)).toFixed(3)} mV, lit time ${litDifference(trial, reference)}`,
    );
  }
}
row('slowest of these', `${slowest.toFixed(2)} ms`);

say('\nThe library odex on the same problem: no ledger, no light, no nights, only the voltages');
{
  const { name, light } = lights[0]!;
  const lamp = scenario.lamps[0]!;
  const stretch = {
    start_ms: light.start_ms,
    count: light.count,
    nights: light.nights,
    timeZone: scenario.site.timeZone,
    joined: false,
  };
  const { plan } = planNights(stretch, lamp.params.schedule, scenario.promise);
  const jar_degC = new Float64Array(light.count);
  jarTemperatureInto(jar_degC, light.air_degC, light.planeOfArray_W_m2, lamp.params.jar);
  row('its right-hand side against the reference circuit', `${circuitsDiffer().toExponential(1)} relative`);
  const trial = trialOf(light, name, lamp, DEFAULT_TOLERANCE_V);
  const reference = trialOf(light, name, lamp, REFERENCE_TOLERANCE_V);
  const own = timesOf(() => trialOf(light, name, lamp, DEFAULT_TOLERANCE_V), 50, 20);
  const own_V = farthest(trial, reference);
  row(`runTrial, ${lamp.name} on ${name}`, `${ms(own)}, within ${(own_V * 1e3).toFixed(3)} mV`);
  let best: Times | undefined;
  for (const tolerance of [1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8]) {
    const run = () =>
      odexYear(lamp.params, light.planeOfArray_W_m2, jar_degC, plan, START_V, tolerance, light.count);
    const result = run();
    const times = timesOf(run, 3, 0);
    let off_V = 0;
    for (let i = 0; i < light.count; i++)
      off_V = Math.max(off_V, Math.abs(result.hourEnd_V[i]! - reference.year.columns.capacitorEnd_V[i]!));
    row(
      `odex at ${tolerance.toExponential(0)} V`,
      `${ms(times)}, within ${(off_V * 1e3).toFixed(3)} mV, ${(result.evaluations / light.count).toFixed(0)} evaluations an hour, ${result.events} events`,
    );
    if (off_V <= own_V * 1.05 && (best === undefined || times.least < best.least)) best = times;
  }
  if (best === undefined) row('at least as accurate', 'none of these');
  else
    row(
      'fastest that is as accurate',
      `${(best.least / own.least).toFixed(1)} times runTrial's time (least over least)`,
    );

  /** Largest relative difference of the rates between both circuits, over hours and voltages. */
  function circuitsDiffer(): number {
    const plain = new PlainCircuit(lamp.params);
    const other = new ReferenceCircuit(lamp.params);
    let most = 0;
    for (let hour = 0; hour < light.count; hour += 37) {
      for (const share of [0, 1]) {
        plain.share = share;
        other.share = share;
        plain.conditions(light.planeOfArray_W_m2[hour]!, jar_degC[hour]!);
        other.conditions(light.planeOfArray_W_m2[hour]!, jar_degC[hour]!);
        const main_V = 0.95 + (hour % 11) * 0.1;
        const [a] = plain.rates([main_V, main_V - 0.01, main_V + 0.02]);
        const [b] = other.rates([main_V, main_V - 0.01, main_V + 0.02]);
        most = Math.max(most, Math.abs(a! - b) / Math.max(Math.abs(b), 1e-6));
      }
    }
    return most;
  }
}

say('\nOther stages; medians');
row(
  'weather, 8760 rows of CSV read and checked',
  ms(timesOf(() => readWeather(readTextFile(weatherFile.path), weatherFile.section, scenario.site), 15, 5)),
);
for (const spot of scenario.spots)
  row(`light on ${spot.name}, a year`, ms(timesOf(() => lightOf(scenario, spot.params), 15, 5)));

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
  await sayPageLoad(join(out, scenario.name, 'report.html'));
  rmSync(out, { recursive: true });
}

/** Size of the page, and how soon a browser has it, where there is one. */
async function sayPageLoad(file: string): Promise<void> {
  row('report.html of the demo', `${digits(statSync(file).size / 1000)} kB`);
  const times = await pageLoad(file);
  row('loaded from disk in a browser', times === undefined ? 'no browser here' : ms(times));
}

await import('./weatherBench.ts');

/** Largest difference of the capacitor's voltage at the end of an hour. */
function farthest(one: Trial, other: Trial): number {
  const [a, b] = [one.year.columns.capacitorEnd_V, other.year.columns.capacitorEnd_V];
  return a.reduce((most, value, i) => Math.max(most, Math.abs(value - b[i]!)), 0);
}

/** How far the lit time of a night is off at most, and that of the year. */
function litDifference(one: Trial, other: Trial): string {
  const nights = one.nights.map((night, i) => 3600 * (night.lit_h - other.nights[i]!.lit_h));
  const worst = nights.reduce((most, off) => Math.max(most, Math.abs(off)), 0);
  const whole = nights.reduce((total, off) => total + off, 0);
  return `within ${worst.toFixed(1)} s a night, ${Math.abs(whole).toFixed(1)} s a year`;
}
