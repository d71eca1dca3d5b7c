import { log, log1p } from '../../common/elementary/log.ts';
import { power } from '../../common/elementary/power.ts';
import { stretchesWhere } from '../../common/stretchesWhere.ts';
import type { Scenario, ScenarioLamp, ScenarioSpot } from '../../scenario/Scenario.ts';
import type { LeanOutcome, LeanTrials, Premises } from '../../trial/LeanTrials.ts';
import type { Found } from './Found.ts';

/** One lamp in one spot, and what runs it. */
export interface FindGrounds {
  scenario: Scenario;
  lean: LeanTrials;
  spot: ScenarioSpot;
  lamp: ScenarioLamp;
}

/** What is looked for, along values that rise. */
export interface FindQuestion
  extends Pick<Found, 'find' | 'what' | 'key' | 'unit' | 'end' | 'stated' | 'step'>,
    Partial<Pick<Found, 'closedForm' | 'notes'>> {
  values: readonly number[];
  /** Of the values looked at first, every how many. */
  stride: number;
  /** The trial with one of them. */
  premises: (value: number) => Premises;
  /** Preferred numbers by which such parts are sold. */
  preferred?: (from: number) => { series: string; values: number[] }[];
}

/** Values are tried in steps of so many percent. */
const STEP_PERCENT = 1;

/** Steps of that from a value to so many times as much; and every how many of them is looked at first, some 17 percent. */
export const PERCENT_STEPS = { step: { size: STEP_PERCENT, unit: '%' }, stride: 16 } as const;

/**
 * Values in steps of one percent of the value, rising, the stated one among them, in its unit; to four digits, so that
 * what is shown is what was run.
 *
 * in: stated; least and most, shares of it
 */
export function percentSteps(stated: number, least: number, most: number): number[] {
  const steps = (share: number) => Math.round(log(share) / log1p(STEP_PERCENT / 100));
  const [first, last] = [steps(least), steps(most)];
  return Array.from({ length: last - first + 1 }, (_, k) =>
    first + k === 0 ? stated : Number((stated * power(1 + STEP_PERCENT / 100, first + k)).toPrecision(4)),
  );
}

/**
 * The answer to a question about one lamp in one spot, by running the whole record with some of its values.
 *
 * in: question; grounds
 * throws: InputProblem for files that cannot be read
 * valid: as `stretchesWhere`: turns closer to each other than the stride, and far from all others, are missed
 */
export function answerOf(question: FindQuestion, { lean, spot, lamp }: FindGrounds): Found {
  const { find, what, key, unit, end, stated, step, values, stride, closedForm, notes = [] } = question;
  const outcomes = new Map<number, LeanOutcome | undefined>();
  const outcomeWith = (value: number) => {
    if (!outcomes.has(value)) outcomes.set(value, lean.outcome(question.premises(value)));
    return outcomes.get(value);
  };
  const { holding, best } = stretchesWhere(values.length - 1, stride, (place) =>
    lackOf(outcomeWith(values[place]!)),
  );
  const least = end === 'least';
  const first = least ? holding.at(0) : holding.at(-1);
  const place = first && (least ? first.from : first.to);
  const value = place === undefined ? undefined : values[place]!;
  const nearest = value === undefined ? outcomeWith(values[best]!) : undefined;
  return {
    find,
    spot: spot.name,
    lamp: lamp.name,
    what,
    key,
    unit,
    value,
    end,
    stated,
    step,
    lookedFrom: values[0]!,
    lookedTo: values.at(-1)!,
    neighbour: place === undefined ? undefined : values[least ? place - 1 : place + 1],
    turns: turnsFrom(holding, least, values),
    nearest: nearest && { value: values[best]!, ...nearest },
    preferred: value === undefined ? [] : preferredFrom(value, question, outcomeWith),
    closedForm,
    notes,
    runs: outcomes.size,
  };
}

/** 0 where every night is kept; else failed nights first, then short hours. */
function lackOf(outcome: LeanOutcome | undefined): number {
  if (outcome === undefined || outcome.nights === 0) return Number.POSITIVE_INFINITY;
  const { nights, failedNights, short_h } = outcome;
  return failedNights === 0 ? 0 : failedNights + short_h / (24 * nights + 1);
}

/** Ends of the stretches that keep, but for the value itself and the ends of what was looked at. */
function turnsFrom(
  holding: readonly { from: number; to: number }[],
  rising: boolean,
  values: readonly number[],
): number[] {
  const ends = holding.flatMap(({ from, to }) => [from, to]);
  const away = rising ? ends : ends.reverse();
  return away
    .slice(1)
    .filter((place, k, { length }) => k < length - 1 || (place > 0 && place < values.length - 1))
    .map((place) => values[place]!);
}

/** The first preferred number of each series that keeps every night. */
function preferredFrom(
  from: number,
  { preferred = () => [] }: FindQuestion,
  outcomeWith: (value: number) => LeanOutcome | undefined,
): Found['preferred'] {
  return preferred(from).flatMap(({ series, values }) => {
    const value = values.find((each) => lackOf(outcomeWith(each)) === 0);
    return value === undefined ? [] : [{ series, value }];
  });
}
