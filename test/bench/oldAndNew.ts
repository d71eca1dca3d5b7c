import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { built } from './built.ts';
import { checkout } from './checkout.ts';

// The program beside what it was before the loop was made anew, both in this one run, by turns; nothing is asserted.

const COMMIT = '93c7e51';
const root = fileURLToPath(new URL('../..', import.meta.url));
const before = checkout(COMMIT);

/** What is measured on both sides. A call is timed, but for one that returns milliseconds it measured by itself. */
interface Measured {
  name: string;
  rounds: number;
  old: () => unknown;
  new: () => unknown;
}

/** What both programs call alike; where they differ, an entry below says how. */
type Alike = Pick<typeof built, 'lampParams' | 'loadScenario' | 'readTextFile' | 'runTrial' | 'spotLight'>;

const moduleBefore = (path: string) => import(pathToFileURL(join(before, 'dist', `${path}.js`)).href);
type Weather = NonNullable<Awaited<ReturnType<typeof built.loadWeather>>>;
/** The old one reads weather by another function. */
type Old = Alike & { readWeather: (file: unknown, section: unknown, site: unknown) => Weather };
const old = (await moduleBefore('index')) as Old;
const oldLoad = (await moduleBefore('lamp/loadTable')) as Pick<typeof built, 'loadTable'>;

/** The first lamp and spot of the demo, as a program reads them. */
function demoOf(program: Alike, weather: Weather) {
  const scenario = program.loadScenario(join(root, 'scenarios/invented-garden.yaml'));
  const { site, promise } = scenario;
  const lamp = scenario.lamps[0]!;
  const spot = scenario.spots[0]!;
  const lightAlone = () => program.spotLight(weather, site, spot.params);
  const light = lightAlone();
  const terms = { spot: spot.name, lamp: lamp.name, site, promise, seed: 1, start: { capacitor_V: 1.5 } };
  return {
    weather,
    lamp,
    lightAlone,
    place: { site, params: spot.params },
    light,
    terms,
    lampYear: () => program.runTrial(lamp.params, light, terms),
    params: () => program.lampParams(lamp.settled, refuse),
    otherParams: () => program.lampParams(otherParts(lamp.settled), refuse),
    loadTable: ({ loadTable }: Pick<typeof built, 'loadTable'>) => {
      const { driver, led, load } = lamp.params;
      return loadTable(driver, otherLed(led), load.highest_V);
    },
  };
}

let others = 0;

/** A lamp whose cell and LED no one had before: nothing that is kept serves it. */
function otherParts<Settled extends { cell: { best_voltage_V?: number | undefined }; led: object }>(
  settled: Settled,
): Settled {
  const { cell, led } = settled;
  const { table } = led as { table: { efficacy_lm_W: number }[] };
  const more = ++others * 1e-7;
  return {
    ...settled,
    cell: { ...cell, best_voltage_V: cell.best_voltage_V! + more },
    led: { ...led, table: table.map((row) => ({ ...row, efficacy_lm_W: row.efficacy_lm_W + more })) },
  };
}

function otherLed<Led extends { efficacy_lm_W: readonly number[] }>(led: Led): Led {
  const more = ++others * 1e-7;
  return { ...led, efficacy_lm_W: led.efficacy_lm_W.map((lm_W) => lm_W + more) };
}

function refuse(problem: { got: string }): never {
  throw new Error(problem.got);
}

const out = mkdtempSync(join(tmpdir(), 'longnight-bench-'));

/** The command line of a program, in a process of its own. */
function command(program: string, ...words: string[]): void {
  const argv = [join(program, 'dist/cli/main.js'), ...words];
  const { status, stderr } = spawnSync(process.execPath, argv, { cwd: root, encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
}

/** Milliseconds of the first call of a function of the library on the demo's first trial in a process of its own. */
function firstCall(program: string, name: 'runTrial' | 'runNights'): number {
  const script = `
    const program = await import(${JSON.stringify(pathToFileURL(join(program, 'dist/index.js')).href)});
    const { site, promise, lamps, spots, weather: { path, section } } =
      program.loadScenario('scenarios/invented-garden.yaml');
    const weather = program.readWeather?.(program.readTextFile(path), section, site) ??
      (await program.importWeather([program.fileSource(path)], { place: site })).record;
    const light = program.spotLight(weather, site, spots[0].params);
    const terms = { spot: 'spot', lamp: 'lamp', site, promise, seed: 1, start: { capacitor_V: 1.5 } };
    const from = performance.now();
    program.${name}(lamps[0].params, light, terms);
    console.log(performance.now() - from);`;
  const argv = ['--input-type=module', '-e', script];
  const { status, stdout, stderr } = spawnSync(process.execPath, argv, { cwd: root, encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
  return Number(stdout);
}

const demo = built.loadScenario(join(root, 'scenarios/invented-garden.yaml'));
const { path, section } = demo.weather!;
const was = demoOf(old, old.readWeather(old.readTextFile(path), section, demo.site));
const now = demoOf(built, (await built.loadWeather(demo))!);
const calendar = built.skyCalendar(now.weather, now.place.site);
const place = built.spotPlace(now.place.params, calendar);

/** From 17 November to the end of the demo's year. */
const WINTER = { first: 320, end: 365 };

const MEASURED: readonly Measured[] = [
  {
    name: 'node dist/cli/main.js --help',
    rounds: 9,
    old: () => command(before, '--help'),
    new: () => command(root, '--help'),
  },
  {
    name: 'node dist/cli/main.js run, the demo',
    rounds: 7,
    old: () => command(before, 'run', 'scenarios/invented-garden.yaml', '--out', join(out, 'old')),
    new: () => command(root, 'run', 'scenarios/invented-garden.yaml', '--out', join(out, 'new')),
  },
  {
    name: 'first lamp-year of a process',
    rounds: 5,
    old: () => firstCall(before, 'runTrial'),
    new: () => firstCall(root, 'runTrial'),
  },
  {
    name: 'the same, nights only (before: all)',
    rounds: 5,
    old: () => firstCall(before, 'runTrial'),
    new: () => firstCall(root, 'runNights'),
  },
  { name: 'a lamp-year with all columns', rounds: 50, old: was.lampYear, new: now.lampYear },
  { name: 'a lamp-year, nights only (before: all)', rounds: 50, old: was.lampYear, new: () => nightsOf() },
  {
    name: '45 winter nights (before: the whole year)',
    rounds: 50,
    old: was.lampYear,
    new: () => nightsOf(WINTER),
  },
  { name: 'lampParams of a lamp known before', rounds: 100, old: was.params, new: now.params },
  {
    name: 'lampParams of another cell and LED',
    rounds: 100,
    old: was.otherParams,
    new: now.otherParams,
  },
  {
    name: 'load table of another LED',
    rounds: 100,
    old: () => was.loadTable(oldLoad),
    new: () => now.loadTable(built),
  },
  { name: 'light of a spot alone', rounds: 20, old: was.lightAlone, new: now.lightAlone },
  {
    name: 'a further year of light for a known spot',
    rounds: 20,
    old: was.lightAlone,
    new: () => built.lightInSpot(place, built.openSky(now.weather, calendar)),
  },
];

/** The nights of the demo's first trial alone. */
function nightsOf(stretch?: typeof WINTER): unknown {
  return built.runNights(now.lamp.params, now.light, now.terms, stretch);
}

/** Least times of both sides over rounds that take turns, after a few that are not counted. */
function leastOf(measured: Measured): { old: number; new: number } {
  const once = (side: 'old' | 'new') => {
    const from = performance.now();
    const own = measured[side]();
    return typeof own === 'number' ? own : performance.now() - from;
  };
  const least = { old: Infinity, new: Infinity };
  const warmUp = Math.ceil(measured.rounds / 4);
  for (let round = -warmUp; round < measured.rounds; round++) {
    for (const side of ['old', 'new'] as const) {
      const time = once(side);
      if (round >= 0) least[side] = Math.min(least[side], time);
    }
  }
  return least;
}

const digits = (ms: number) => (ms < 100 ? ms.toPrecision(3) : ms.toFixed(0)).padStart(6);

process.stdout.write(`\nAgainst commit ${COMMIT}, by turns; least of each, ms\n`);
for (const measured of MEASURED) {
  const least = leastOf(measured);
  const ratio = (least.new / least.old).toFixed(3);
  process.stdout.write(
    `  ${measured.name.padEnd(44)} ${digits(least.old)} before ${digits(least.new)} now  ratio ${ratio}\n`,
  );
}
rmSync(out, { recursive: true });
