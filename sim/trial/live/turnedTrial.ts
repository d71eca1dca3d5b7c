import { InputProblem, type Problem, type Report, reportBelow } from '../../common/InputProblem.ts';
import { sheetFlags } from '../../lamp/cell/sheetFlags.ts';
import { checkLamp } from '../../lamp/checkLamp.ts';
import { type LampParams, lampParams } from '../../lamp/params.ts';
import { capacitorPrice } from '../../lamp/partsList.ts';
import { USUAL_SNOW } from '../../spot/cover/snowLying.ts';
import { type SpotParams, spotParams } from '../../spot/spotParams.ts';
import type { Stated } from '../singleChanges.ts';
import { knobsOf } from './knobs.ts';
import type { Knobs, LiveLamp, LiveRun, Turn } from './LiveRun.ts';
import { checkedTurns, turnedKeys, unreadParts } from './turnedKeys.ts';

/** A trial of a run by its names, and what is turned of it. */
interface Tried {
  spot: string;
  lamp: string;
  turns: readonly Turn[];
}

/** A trial with what is turned of it, checked. */
export interface TurnedTrial {
  stated: Stated;
  lamp: { params: LampParams; flags: string[] };
  spot: SpotParams;
  /** Those turns that change something. */
  turns: readonly Turn[];
}

/**
 * What may be turned of a trial of a run.
 * throws: InputProblem where it has none of these names
 */
export function trialKnobs({ lamps, spots, promise }: LiveRun, spot: string, lamp: string): Knobs {
  return knobsOf({ lamp: named(lamps, lamp).settled, spot: named(spots, spot), promise });
}

/**
 * A trial of a run with some values turned, checked as a scenario with these values is.
 *
 * in: run; tried
 * throws: InputProblem for names that it does not have, turns that cannot be, and lamps and spots that cannot
 */
export function turnedTrial(run: LiveRun, tried: Tried): TurnedTrial {
  const { site, promise, start } = run;
  const [lamp, spot] = [named(run.lamps, tried.lamp), named(run.spots, tried.spot)];
  const turns = checkedTurns(tried.turns, trialKnobs(run, tried.spot, tried.lamp).knobs);
  const keys = turnedKeys({ lamp: lamp.settled, spot: spot.section, promise }, turns, site);
  const stated = { ...keys, lamp: priced(keys.lamp, lamp, turns), spot: withSnow(keys.spot) };
  const problems: Problem[] = [];
  const report: Report = ({ path, ...problem }) => problems.push({ ...problem, field: path.join('.') });
  const params = spotParams(stated.spot, reportBelow(report, 'spots', spot.name));
  const below = reportBelow(report, 'lamps', lamp.name);
  const made = lampParams(stated.lamp, below);
  const start_V = typeof start === 'string' ? undefined : start.capacitor_V;
  const checked = made && checkLamp(made, below, start_V);
  if (params === undefined || made === undefined || checked === undefined || problems.length > 0)
    throw new InputProblem(problems);
  const flags = [...sheetFlags(stated.lamp.cell), ...checked, ...flagsOfReadings(lamp, turns)];
  return { stated, lamp: { params: made, flags }, spot: params, turns };
}

/** throws: InputProblem where there is none of that name */
function named<Named extends { name: string }>(all: readonly Named[], name: string): Named {
  const found = all.find((each) => each.name === name);
  if (found !== undefined) return found;
  throw new InputProblem({
    code: 'USAGE',
    got: name,
    expected: `one of ${all.map((each) => each.name).join(', ')}`,
  });
}

/** A spot that says of snow on its lid has all that is to say of snow. */
function withSnow(spot: Stated['spot']): Stated['spot'] {
  return spot.snow === undefined ? spot : { ...spot, snow: { ...USUAL_SNOW, ...spot.snow } };
}

/** A lamp whose capacitor costs what its farads do, where they were turned. */
function priced(lamp: Stated['lamp'], { farads }: LiveLamp, turns: readonly Turn[]): Stated['lamp'] {
  if (farads === undefined || !turns.some(({ key }) => key.endsWith('capacitance_F'))) return lamp;
  const price = capacitorPrice({ ...lamp.capacitor, ...farads });
  return { ...lamp, capacitor: { ...lamp.capacitor, price } };
}

/** What readings say of those parts that still have theirs. */
function flagsOfReadings({ readingFlags }: LiveLamp, turns: readonly Turn[]): string[] {
  const unread = unreadParts(turns);
  return Object.entries(readingFlags).flatMap(([part, flags]) => (unread.has(part) ? [] : flags));
}
