import { fileURLToPath } from 'node:url';
import { oddsChart } from '../../sim/output/figures/oddsChart.ts';
import { winterCountsChart } from '../../sim/output/figures/winterCountsChart.ts';
import { wintersChart } from '../../sim/output/figures/wintersChart.ts';
import { comparePage } from '../../sim/output/page/comparePage.ts';
import { figurePart } from '../../sim/output/page/figurePart.ts';
import { lifePage } from '../../sim/output/page/lifePage.ts';
import { pageShell } from '../../sim/output/page/pageShell.ts';
import { reportPage } from '../../sim/output/page/reportPage.ts';
import { sizePage } from '../../sim/output/page/sizePage.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Json } from '../../sim/scenario/Scenario.ts';
import { winterOdds } from '../../sim/statistics/WinterOdds.ts';
import { compareRuns } from '../../sim/trial/compareRuns.ts';
import type { MadeWinter } from '../../sim/trial/MadeTrials.ts';
import { oddsOf } from '../../sim/trial/odds.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import { spotSkies } from '../../sim/trial/spotSkies.ts';
import type { HourlyTrial, RunResult } from '../../sim/trial/Trial.ts';
import { smallLives, smallSweep, smallTrialLife } from '../output/smallLives.ts';
import { smallRun, smallTrial } from '../output/smallRun.ts';
import { nights, ten, winters } from '../output/smallWinters.ts';
import { smallSizing } from '../sizing/smallSizing.ts';

const FILES = ['nights.csv', 'hours.csv', 'summary.json'];

/** The demo's run and its page. */
export async function demoPage(): Promise<{ run: RunResult<HourlyTrial>; html: string }> {
  const file = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
  const run = await runAll(loadScenario(file, 'scenarios/invented-garden.yaml'));
  return { run, html: reportPage(run, spotSkies(run), FILES) };
}

/** Names that would do harm if they were taken for anything but names. */
export const HOSTILE = {
  scenario: '</title><script>window.harmed = 1</script>"\'&amp;',
  spot: '<img src=x onerror="window.harmed = 2"> 🏡 שלום',
  lamp: '</script><script>window.harmed = 3</script> \u202emirrored',
} as const;

/** The page of the same run where everything that can be named bears such a name. */
export function hostilePage(run: RunResult<HourlyTrial>): string {
  const skies = new Map([[`${HOSTILE.spot} 3`, spotSkies(run).values().next().value!]]);
  const spotName = (k: number) => `${HOSTILE.spot} ${k + 1}`;
  const trials = run.trials.map((trial, k) => ({
    ...trial,
    spot: spotName(k),
    lamp: HOSTILE.lamp,
    flags: [HOSTILE.scenario, ...trial.flags],
    changes: trial.changes.map((change) => ({ ...change, change: HOSTILE.lamp, detail: HOSTILE.spot })),
  }));
  const spots = run.trials.map(({ spot }, k) => {
    return { ...run.scenario.spots.find(({ name }) => name === spot)!, name: spotName(k) };
  });
  const lamps = run.scenario.lamps.slice(0, 1).map((lamp) => ({ ...lamp, name: HOSTILE.lamp }));
  const origins = run.scenario.origins.map((origin) => ({
    ...origin,
    from: HOSTILE.scenario,
    path: [HOSTILE.spot],
  }));
  const scenario = {
    ...run.scenario,
    name: HOSTILE.scenario,
    file: `${HOSTILE.lamp}.yaml`,
    spots,
    lamps,
    origins,
  };
  const weather = { ...run.weather, options: { [HOSTILE.spot]: HOSTILE.scenario } };
  return reportPage({ ...run, scenario, weather, trials, assumptions: [HOSTILE.scenario] }, skies, FILES);
}

/** A run of as many spots as lamps: those of the demo over and over under other names, with all that is said of each. */
export function manyTrials(run: RunResult<HourlyTrial>, count = 20): RunResult<HourlyTrial> {
  const { scenario } = run;
  const renamed = <Named extends { name: string }>(what: string, all: readonly Named[]) =>
    Array.from({ length: count }, (_, k) => ({ of: all[k % all.length]!, name: `${what}-${k + 1}` }));
  const spots = renamed('spot', scenario.spots);
  const lamps = renamed('lamp', scenario.lamps);
  const trials = spots.flatMap((spot) =>
    lamps.map((lamp) => {
      const own = run.trials.find((one) => one.spot === spot.of.name && one.lamp === lamp.of.name)!;
      return { ...own, spot: spot.name, lamp: lamp.name };
    }),
  );
  const origins = scenario.origins.flatMap((origin) => {
    const [part, name, ...rest] = origin.path;
    const copies = { spots, lamps }[String(part)]?.filter(({ of }) => of.name === name);
    return copies?.map((copy) => ({ ...origin, path: [part!, copy.name, ...rest] })) ?? [origin];
  });
  const keyed = (key: 'spots' | 'lamps', copies: readonly { of: { name: string }; name: string }[]) => {
    const all = scenario.resolved[key] as Record<string, Json>;
    return Object.fromEntries(copies.map(({ of, name }) => [name, all[of.name]!]));
  };
  const resolved = {
    ...scenario.resolved,
    spots: keyed('spots', spots),
    lamps: keyed('lamps', lamps),
  };
  const many = {
    ...scenario,
    spots: spots.map(({ of, name }) => ({ ...of, name })),
    lamps: lamps.map(({ of, name }) => ({ ...of, name })),
    origins,
    resolved,
  };
  return { ...run, trials, scenario: many };
}

/** The page of invented lives, with a sweep. */
export function smallLifePage(): string {
  const { scenario } = smallRun([smallTrial({ lamp: 'double' })]);
  const lives = smallLives([smallTrialLife(), smallTrialLife([1, 1, 1], { spot: 'north' })]);
  return lifePage({ lives, sweeps: [smallSweep()], scenario }, ['life.csv', 'life.json']);
}

/** The page of a small sizing. */
export async function smallSizePage(): Promise<string> {
  return sizePage(await smallSizing({ spot: 'bright', lamps: 2 }), ['size.json']);
}

/** A page of the pictures of several winters and of made ones, which the demo has not. */
export function wintersPage(): string {
  const made: MadeWinter = {
    nights: 365,
    failedNights: 3,
    short_h: 2,
    out_h: 0,
    longestSpell: 1,
    smallestReserve_J: 1,
    lightGiven_lm_h: 100,
    failed: [160, 170, 171],
  };
  const share = { ...oddsOf([made], [], 10, 365), spot: 'lawn', lamp: 'single', secondOpinion: undefined };
  const figures = [
    wintersChart('winters', 'single on lawn', nights, winters, false, 'Four winters.'),
    winterCountsChart('winters', 'single on lawn', ten, winterOdds(ten)!, 'Ten winters.'),
    oddsChart('winters', share, false),
  ];
  const body = `<main><h1>Winters</h1>${figures.map((figure) => figurePart('winters', figure)).join('')}</main>`;
  return pageShell({ title: 'Winters', body });
}

/** The comparison page of the demo. */
export function demoComparePage(run: RunResult<HourlyTrial>): string {
  return comparePage(compareRuns([run], 'spot'), [run], ['compare.json']);
}
