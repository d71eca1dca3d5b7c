import { setImmediate as nextTurn } from 'node:timers/promises';
import { ascending, least } from 'd3-array';
import { InputProblem } from '../common/InputProblem.ts';
import type { Origin, Scenario } from '../scenario/Scenario.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { LEAD_IN_NIGHTS } from '../year/simulateYear.ts';
import { CAUTIONS, coverCautions } from './cautions.ts';
import { changes } from './changes.ts';
import type { WorkOptions } from './jobPool.ts';
import { loadWeather } from './loadWeather.ts';
import { scenarioLights } from './scenarioLights.ts';
import type { HourlyTrial, RunResult, Trial } from './Trial.ts';
import { wholeTrial } from './wholeTrial.ts';

/** What every trial of a scenario is run with. */
export interface TrialsOptions {
  /** Whether failing trials are run again with single changes; true unless stated. */
  withChanges?: boolean;
  /** Error of the capacitor's voltage allowed in one step, volts. */
  tolerance_V?: number;
}

export interface RunOptions extends TrialsOptions, WorkOptions {
  /** The weather, already loaded (loadWeather); else the scenario's file is. */
  weather?: WeatherRecord | undefined;
}

/**
 * Every lamp of a scenario in every spot, all of them kept, other work let in between two trials. For many of them, or
 * one after the other, see `trialsOf`.
 *
 * in: scenario, as loadScenario gives it; options
 * out: trials in the order of the scenario, spots first; of a run that was ended by its signal those that were complete,
 *   and `partial`
 * throws: InputProblem for files that cannot be read; the reason of the signal where no trial was complete
 */
export async function runAll(scenario: Scenario, options: RunOptions = {}): Promise<RunResult<HourlyTrial>> {
  const weather = options.weather ?? (await loadWeather(scenario));
  const trials: HourlyTrial[] = [];
  const take = (trial: HourlyTrial) => {
    trials.push(trial);
    options.onProgress?.(trials.length, trialCount(scenario));
  };
  await eachTurn(trialsOf(scenario, weather, options), take, options.signal);
  if (trials.length === 0) options.signal?.throwIfAborted();
  return runOf(scenario, weather, trials);
}

/** Takes what comes one after the other, and lets other work in between, until a signal is aborted. */
export async function eachTurn<Value>(
  coming: Iterable<Value>,
  take: (value: Value) => void,
  signal: AbortSignal | undefined,
): Promise<void> {
  const isAborted = () => signal?.aborted === true;
  if (isAborted()) return;
  for (const value of coming) {
    take(value);
    await nextTurn();
    if (isAborted()) return;
  }
}

/**
 * The trials of a scenario one after the other, each when it is asked for. Sun and sky are made once, the light of a
 * spot once for all its lamps, that of a changed spot once for all lamps it is tried with.
 *
 * in: scenario, as loadScenario gives it; weather, undefined where light was logged on the cells; options
 * out: trials in the order of the scenario, spots first
 * throws: InputProblem for files that cannot be read
 */
export function* trialsOf(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  options: TrialsOptions = {},
): Generator<HourlyTrial, void> {
  const lights = scenarioLights(scenario, weather);
  // All of them first: a lamp is tried in the other spots too.
  for (const { params } of scenario.spots) lights.of(params);
  for (const spot of scenario.spots) {
    const changed = lights.branch();
    const elsewhere = scenario.spots.filter((other) => other !== spot);
    for (const lamp of scenario.lamps) {
      const terms = {
        spot: spot.name,
        lamp: lamp.name,
        site: scenario.site,
        promise: scenario.promise,
        start: scenario.start,
        seed: scenario.seed,
        tolerance_V: options.tolerance_V,
      };
      const trial = placedIn(scenario, () => wholeTrial({ lamp, spot, lights, terms }));
      const stated = { lamp: lamp.settled, spot: spot.section, promise: scenario.promise };
      const wanted = options.withChanges !== false && trial.statistics.verdict === 'broken';
      yield {
        ...trial,
        changes: wanted
          ? changes(trial, { stated, terms, elsewhere, lightOf: (other) => changed.of(other) })
          : [],
      };
    }
  }
}

/**
 * A run of trials that were run one after the other.
 *
 * in: scenario; weather, that they were run under; trials, one at least; those that are missing at the end of the
 *   scenario's make the run a partial one
 */
export function runOf<Ran extends Trial>(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  trials: Ran[],
): RunResult<Ran> {
  const all = trialCount(scenario);
  return {
    scenario,
    ...(trials.length < all ? { partial: { completeTrials: trials.length, allTrials: all } } : {}),
    weather: weatherSummary(weather, trials[0]!),
    record: weather,
    trials,
    assumptions: scenario.assumptions,
    cautions: [...CAUTIONS, ...coverCautions(scenario.spots)],
  };
}

/**
 * Work on a scenario whose refusals name its file and the place of what they are about.
 *
 * in: scenario; work
 * throws: what it throws
 */
export function placedIn<Made>(scenario: Scenario, work: () => Made): Made {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof InputProblem)) throw error;
    const placed = error.problems.map((problem) =>
      problem.file === undefined
        ? { ...problem, file: scenario.file, ...placeOf(scenario, problem.field ?? '') }
        : problem,
    );
    throw new InputProblem(placed, error.understood);
  }
}

/** Where a scenario first says something of a section. */
function placeOf({ origins }: Scenario, field: string): Origin['place'] {
  const places = origins.flatMap(({ path, place }) =>
    place?.line !== undefined && path.join('.').startsWith(field) ? [place] : [],
  );
  return least(places, (a, b) => ascending(a.line, b.line) || ascending(a.column, b.column));
}

/** How many trials a scenario makes: every lamp in every spot. */
export function trialCount({ spots, lamps }: Scenario): number {
  return spots.length * lamps.length;
}

/** How a record that is no cycle begins. */
const LED_IN = `The capacitor starts as the first ${LEAD_IN_NIGHTS} days of the record leave it (start: lead-in), gone through once before`;

function weatherSummary(weather: WeatherRecord | undefined, { light, year }: Trial): RunResult['weather'] {
  const logged = { ...light, origin: LOGGED };
  const facts = recordFacts(weather ?? logged);
  return year.start === 'lead-in' ? { ...facts, options: { ...facts.options, start: LED_IN } } : facts;
}

/** Where light on the cells comes from that needed no weather. */
const LOGGED = { sha256: '', filledHours: 0, options: { light: 'logged on the cell' } };

/** What results say of the weather behind them. in: weather, or hours of logged light */
export function recordFacts({
  start_ms,
  count,
  origin,
}: Pick<WeatherRecord, 'start_ms' | 'count'> & {
  origin: Omit<WeatherRecord['origin'], 'file'>;
}): RunResult['weather'] {
  const { sha256, filledHours, options } = origin;
  const first_utc = new Date(start_ms).toISOString().replace('.000Z', 'Z');
  return { sha256, first_utc, hours: count, filled_hours: filledHours, options };
}
