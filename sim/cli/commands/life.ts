import { jarCards } from '../../ageing/JarCard.ts';
import { lifeSweeps } from '../../ageing/lifeSweep.ts';
import {
  FEWEST_MADE,
  type LifeWeather,
  MOST_MADE,
  madeLife,
  recordedLife,
} from '../../ageing/lifeWeather.ts';
import {
  type LivesWishes,
  lifePremises,
  MOST_YEARS,
  type ScenarioLives,
  scenarioLives,
} from '../../ageing/ScenarioLives.ts';
import { lifeFigureFiles } from '../../output/figures/lifeFigures.ts';
import { jarCardText } from '../../output/jarCardText.ts';
import { lifeText } from '../../output/lifeText.ts';
import { writeLife } from '../../output/writeLife.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import { loadWeather } from '../../trial/loadWeather.ts';
import { namedTrials } from '../../trial/namedTrials.ts';
import { refuseLogged } from '../../trial/scenarioOdds.ts';
import type { Arguments } from '../Command.ts';
import { giveResult, outFolder } from '../giveResult.ts';
import { Interruption } from '../Interruption.ts';
import { EXIT, type Io } from '../Io.ts';
import { wholeNumber } from '../numberWithin.ts';
import { scenarioFrom } from '../scenarioFrom.ts';
import { sweepWishes } from '../sweepWishes.ts';
import { trialNames } from '../trialNames.ts';
import { usageMistake } from '../usageProblem.ts';
import { weatherWishes } from '../weatherWishes.ts';

const YEARS = 40;

/** Runs the lamps of a scenario through the years, and tries other values where asked; what is complete where Ctrl-C comes. */
export async function lifeCommand(args: Arguments, io: Io): Promise<number> {
  const file = args.words[0]!;
  const out = outFolder(args, io);
  const sweeps = sweepWishes(args);
  const scenario = scenarioFrom(file, io);
  const wishes = livesWishes(args, scenario);
  const pairs = namedTrials(scenario, wishes);
  const spots = pairs.map(({ spot }) => spot.name);
  const { weather, sha256 } = await weatherOf(scenario, spots, args, io);
  const interruption = new Interruption(io);
  const lives = await interruption.ending('life', (options) =>
    scenarioLives(scenario, weather, wishes, options),
  );
  if (lives === undefined) {
    await interruption.end();
    io.stderr('Interrupted before any life was complete: nothing was written.\n');
    return EXIT.interrupted;
  }
  const tried =
    sweeps.length === 0 || lives.partial !== undefined
      ? []
      : await interruption.ending('life with another value', (options) =>
          lifeSweeps(scenario, pairs, lifePremises(weather, wishes), sweeps, options),
        );
  const cards = args.has('card') ? jarCards(scenario, lives.trials, weather) : [];
  const of = { lives, sweeps: tried, scenario, cards };
  return giveResult(
    {
      write: () => writeLife(of, out),
      figures: () => lifeFigureFiles(lives, tried, scenario),
      text: (look) =>
        [lifeText(lives, tried, look), ...cards.map((card) => jarCardText(card, look))].join('\n'),
      grounds: { seed: scenario.seed, scenarios: [scenario.sha256], weather: sha256 },
      broken: fallsShort(lives, args),
    },
    args,
    io,
    interruption,
  );
}

/** Whether by the middle factor a winter breaks the promise, or keeps it with less than the share that `--must-keep` asks for. */
function fallsShort({ trials }: ScenarioLives, args: Arguments): boolean {
  if (!args.has('must-keep')) return false;
  const share = args.number('must-keep', 0.01, 1);
  return trials.some(({ bands }) => {
    const { winters, breaks } = bands.find(({ law }) => law === 'middle')!;
    return share === undefined ? breaks !== undefined : winters.some(({ broken }) => 1 - broken < share);
  });
}

function livesWishes(args: Arguments, scenario: Scenario): LivesWishes {
  return {
    years: wholeNumber(args, 'years', 1, MOST_YEARS) ?? YEARS,
    cleaned: !args.has('never-cleaned'),
    exact: args.has('exact'),
    ...trialNames(args, scenario),
    cheap: cheapOf(args),
  };
}

/** PRICE,WINTERS of a lamp from a shop. */
function cheapOf(args: Arguments): LivesWishes['cheap'] {
  const text = args.text('cheap-lamp');
  if (text === undefined) return undefined;
  const [price = Number.NaN, winters = Number.NaN, ...more] = text.split(',').map(Number);
  if (more.length === 0 && price >= 0 && price <= 1e6 && winters >= 1 && Number.isInteger(winters))
    return { price, winters };
  throw usageMistake(
    `--cheap-lamp ${text}`,
    'its price and the winters after which it is replaced',
    '--cheap-lamp 5,2',
  );
}

/** The weather on file, or winters that are made where `--winters` asks for them. */
async function weatherOf(
  scenario: Scenario,
  spots: readonly string[],
  args: Arguments,
  io: Io,
): Promise<{ weather: LifeWeather; sha256?: string | undefined }> {
  const count = wholeNumber(args, 'winters', FEWEST_MADE, MOST_MADE);
  const asked = weatherWishes(args, io);
  const { site, seed, climate } = scenario;
  if (count !== undefined && climate !== undefined && asked.files === undefined)
    return { weather: madeLife(scenario, { site, seed, climate: climate.section }, count, spots) };
  if (count !== undefined) refuseLogged(scenario);
  const record = await loadWeather(scenario, asked);
  const weather =
    count !== undefined && record !== undefined
      ? madeLife(scenario, { site, seed, record }, count, spots)
      : recordedLife(scenario, record, spots);
  return { weather, sha256: record?.origin.sha256 };
}
