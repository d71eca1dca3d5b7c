import type { Reading } from '../common/Bench.ts';
import { type Estimate, STANDARD_ERRORS_90 } from '../common/Estimate.ts';
import { exp } from '../common/elementary/exp.ts';
import { hypot } from '../common/elementary/hypot.ts';
import { log } from '../common/elementary/log.ts';
import { fitReadings, type ReadingsFit } from '../common/fitReadings.ts';
import { InputProblem } from '../common/InputProblem.ts';
import { covarianceAlong } from '../common/leastSquares.ts';
import { square } from '../common/numeric.ts';
import { type DiaryDeparture, type DiaryNight, type DiaryNights, diaryNights } from './diaryNights.ts';
import type { Diary } from './readDiary.ts';
import type { Service } from './serviceDays.ts';
import type { ServiceFit } from './serviceLog.ts';

/** A night of a diary beside the simulation. */
export interface DiaryNightFit extends Omit<DiaryNight, 'time_ms' | 'seen'> {
  seen: 'out' | 'lit';
  /** Hours after it came on at which the fitted lamp goes out; later than the schedule's end where it lasts through. */
  fitted_h: number;
}

/** What a diary of a lamp in service gave. */
export interface DiaryFit {
  estimates: Estimate[];
  /** Keys of estimates that the diary does not settle. */
  open: string[];
  /** Root mean square of the seen times less the fitted, minutes, over the nights that it went out. */
  misfit_min: number;
  nights: DiaryNightFit[];
  notes: string[];
}

/** Error with which somebody sees a lamp go out, as a standard deviation. */
const SEEN_ERROR_H = 1 / 6;
/** Beside a log, which tells most, one says something. */
const LEAST_OUT = { alone: 3, besideLog: 1 } as const;
/** What is taken to be known beforehand, as standard deviations of logarithms: the driver's draw is as stated. */
const KNOWN = { capacitance: 0.5, light: 0.5, leakage: 1, draw: 0.1 } as const;
/** An unknown that is known so little better than before is not settled. */
const SETTLED = 0.7;
const SCALES = { capacitance: 0.2, light: 0.2, leakage: 0.5, draw: 0.1 } as const;
/** Unknowns that move together so far cannot be told apart well. */
const TOGETHER = 0.8;
const FAR_ERRORS = 3;
/** A log and a diary that scatter so many times more than they should are not of one lamp. */
const ONE_LAMP = 4;
const ORDER = ['capacitance', 'light', 'leakage', 'draw'] as const;
/** What a diary may settle. */
const ASKED = ['capacitance', 'light', 'leakage'] as const;
const DRAW = ORDER.indexOf('draw');
const FINENESS = { step: 0.05, gain: 1e-3 };
/** Where to begin: nights that the lamp lasts through, or never comes on, tell a fit little of its way. */
const BEGINNINGS = [0.4, 0.6, 0.8, 1].flatMap((capacitance) =>
  [0.4, 0.55, 0.7, 0.85, 1].map((light) => ({ capacitance, light, leakage: 1, draw: 1 })),
);
/** Of these so many of the best are followed to their end. */
const FOLLOWED = 2;

/**
 * Capacitance, light share and leakage of a lamp in service from a diary of when it went out, with 90 percent intervals.
 *
 * Times tell currents only against each other: a lamp of a tenth less capacitance, light, leakage and draw goes out at
 * nearly the same minute. The driver's draw is therefore taken as stated, to 10 percent. A log of voltages leaves the same
 * open, and says what it knows over the draw.
 *
 * in: service; diary; log, what a log of the same lamp gave, if there is one
 * throws: what `diaryNights` throws; FIT_UNDETERMINED with fewer than 3 nights on which it went out (1 beside a log), or where log and
 *   diary cannot be of one lamp
 * valid: times good to 10 minutes, errors independent; wider scatter widens the intervals
 * source: JCGM100 (intervals from the slopes, what is known beforehand counts as a reading, widened by the scatter)
 */
export function diaryFit(service: Service, diary: Diary, log?: ServiceFit): DiaryFit {
  const days = diaryNights(service, diary);
  const out = days.nights.filter(({ atLeast }) => !atLeast);
  const least = log === undefined ? LEAST_OUT.alone : LEAST_OUT.besideLog;
  if (out.length < least) throw tooFew(diary, out.length, least);
  const readings = [...days.nights.map(nightReading), ...logReadings(log)];
  const solved = nearestBeginnings(days, readings)
    .map((begin) => fitted(days, readings, begin))
    .reduce((best, each) => (each.sumOfSquares < best.sumOfSquares ? each : best));
  const { residuals, bench } = solved;
  const nights = days.nights.map(({ time_ms: _, ...night }, i) => ({
    ...night,
    fitted_h: days.lit_h(departureOf(solved.values))[i]!,
  }));
  const misfits_h = nights.filter(({ atLeast }) => !atLeast).map((night) => night.fitted_h - night.seen_h);
  const misfit_h = Math.sqrt(misfits_h.reduce((sum, each) => sum + each * each, 0) / misfits_h.length);
  const open = ASKED.filter((key, k) => solved.errors[k]! > SETTLED * KNOWN[key]).map((key) => KEYS[key]);
  const counted = residuals.slice(0, bench.readings.length);
  // A bound that is kept is no reading that could miss.
  const free = Math.max(1, counted.filter((each) => each !== 0).length - ASKED.length);
  const scatter = Math.max(1, Math.sqrt(counted.reduce((sum, each) => sum + each * each, 0) / free));
  if (log !== undefined && scatter > ONE_LAMP) throw notOneLamp(diary, scatter);
  return {
    estimates: estimatesOf(service, solved, scatter),
    open,
    misfit_min: 60 * misfit_h,
    nights,
    notes: notesOf(solved, scatter, open, nights, log),
  };
}

const KEYS = { capacitance: 'capacitance', light: 'light_share', leakage: 'leakage_uA' } as const;

function nightReading({ night, seen_h }: DiaryNight): Reading {
  return { what: night, unit: 'h', path: [], measured: seen_h, error: SEEN_ERROR_H };
}

/** What a log says of the three over the draw, as logarithms; nothing without a log. */
function logReadings(logged: ServiceFit | undefined): Reading[] {
  if (logged === undefined) return [];
  const known = (key: string) => {
    const found = logged.estimates.find((each) => each.key === key);
    if (found === undefined) return { value: 0, error: KNOWN.draw };
    const { value, low, high, datasheet = 1 } = found;
    const error = (high - low) / (2 * STANDARD_ERRORS_90 * Math.max(value, low, 1e-9));
    return { value: log(Math.max(value, 1e-3 * datasheet) / datasheet), error };
  };
  const draw = known('draw');
  const share = known('light_share');
  const leakage = known('leakage_uA');
  const over = (what: string, value: number, error: number) => ({
    what,
    unit: '',
    path: [],
    measured: value - draw.value,
    error: hypot(error, draw.error),
  });
  return [
    over('capacitance over draw', 0, 0),
    over('light over draw', share.value, share.error),
    over('leakage over draw', leakage.value, leakage.error),
  ];
}

function departureOf(values: readonly number[]): DiaryDeparture {
  const [capacitance, light, leakage, draw] = values.map(exp);
  return { capacitance: capacitance!, light: light!, leakage: leakage!, draw: draw! };
}

/** Nights as a fit sees them: a bound that is kept is met. */
function shown({ nights, lit_h }: DiaryNights, values: readonly number[]): number[] {
  const fitted_h = lit_h(departureOf(values));
  const times = nights.map(({ atLeast, seen_h }, i) =>
    atLeast ? Math.min(fitted_h[i]!, seen_h) : fitted_h[i]!,
  );
  const over = ASKED.map((_, k) => values[k]! - values[DRAW]!);
  return [...times, ...over];
}

function nearestBeginnings(days: DiaryNights, readings: readonly Reading[]): number[][] {
  const misses = BEGINNINGS.map((each) => {
    const values = ORDER.map((key) => log(each[key]));
    const seen = shown(days, values);
    const sum = readings.reduce(
      (all, { measured, error }, i) => all + square((seen[i]! - measured) / error),
      0,
    );
    return { values, sum };
  });
  const best = misses.toSorted((one, other) => one.sum - other.sum);
  return best.slice(0, FOLLOWED).map(({ values }) => values);
}

function fitted(days: DiaryNights, readings: readonly Reading[], begin: readonly number[]): ReadingsFit {
  return fitReadings(
    {
      unknowns: ORDER.map((key, k) => ({
        start: begin[k]!,
        scale: SCALES[key],
        least: -log(key === 'leakage' ? 20 : 5),
        most: log(key === 'leakage' ? 20 : 3),
      })),
      priors: ORDER.map((key, at) => ({ at, value: 0, error: KNOWN[key] })),
      readings,
      shownInto: (target, values) => {
        shown(days, values).forEach((each, i) => {
          if (i < readings.length) target[i] = each;
        });
      },
    },
    FINENESS,
  );
}

function estimatesOf({ lamp }: Service, solved: ReadingsFit, scatter: number): Estimate[] {
  const { values, covariance } = solved;
  const estimate = (
    key: string,
    what: string,
    unit: string,
    datasheet: number,
    of: keyof DiaryDeparture,
    over?: 'draw',
  ): Estimate => {
    const at = ORDER.indexOf(of);
    const slopes = ORDER.map((each) => Number(each === of) - Number(each === over));
    const error = Math.sqrt(covarianceAlong(solved, slopes, slopes));
    // What the draw may be is known however wide nights scatter, and no less is known of the others than before.
    const own = Math.sqrt(Math.max(0, square(error) - (over ? 0 : covariance[DRAW]![DRAW]!)));
    const half =
      STANDARD_ERRORS_90 * Math.max(error, Math.min(KNOWN[of], hypot(scatter * own, over ? 0 : KNOWN.draw)));
    const found = values[at]! - (over ? values[DRAW]! : 0);
    const [value, low, high] = [0, -half, half].map((side) => datasheet * exp(found + side));
    return { key, what, unit, value: value!, low: low!, high: high!, datasheet };
  };
  const { rated_V, leakage_A } = lamp.capacitor;
  const same = "the same over the driver's draw";
  return [
    estimate('capacitance', 'capacitance over what the scenario states', '', 1, 'capacitance'),
    estimate('capacitance_over_draw', same, '', 1, 'capacitance', 'draw'),
    estimate('light_share', 'light on the cell over what the scenario lets expect', '', 1, 'light'),
    estimate('light_over_draw', same, '', 1, 'light', 'draw'),
    estimate(
      'leakage_uA',
      `leakage of the bank at ${rated_V} V and 25 degC`,
      'uA',
      leakage_A * 1e6,
      'leakage',
    ),
  ];
}

const WORDS: Readonly<Record<string, string>> = {
  capacitance: 'the capacitance',
  light_share: 'the light (dirt, shade)',
  leakage_uA: 'the leakage',
};

function notesOf(
  solved: ReadingsFit,
  scatter: number,
  open: readonly string[],
  nights: readonly DiaryNightFit[],
  log: ServiceFit | undefined,
): string[] {
  const notes = [
    `when a lamp goes out tells its currents only against each other: the driver's draw is taken as stated, to ${KNOWN.draw * 100} percent${log === undefined ? '' : ', and what the log gave over the draw counts too'}`,
  ];
  if (open.length > 0)
    notes.push(
      `the diary does not settle ${open.map((key) => WORDS[key]).join(' and ')}: the interval is mostly what is usual, and no key is given`,
    );
  const [capacitance, light] = [0, 1].map((k) => ORDER.map((_, i) => Number(i === k) - Number(i === DRAW)));
  const along = (one: readonly number[], other: readonly number[]) => covarianceAlong(solved, one, other);
  const together =
    along(capacitance!, light!) / Math.sqrt(along(capacitance!, capacitance!) * along(light!, light!));
  if (Math.abs(together) > TOGETHER)
    notes.push(
      `over the draw, capacitance and light move together here (correlation ${together.toFixed(2)}): nights after both clear and dull days tell them apart`,
    );
  if (scatter > 1.3)
    notes.push(
      `the nights scatter ${scatter.toFixed(1)} times more than ${SEEN_ERROR_H * 60} minutes allow; the intervals are widened by that`,
    );
  const far = nights.filter(({ atLeast, seen_h, fitted_h }) => {
    const miss_h = atLeast ? Math.min(0, fitted_h - seen_h) : fitted_h - seen_h;
    return Math.abs(miss_h) > FAR_ERRORS * SEEN_ERROR_H * scatter;
  });
  if (far.length > 0)
    notes.push(`far from all others: ${far.map(({ night, line }) => `${night} (line ${line})`).join(', ')}`);
  return notes;
}

function tooFew({ file, rows }: Diary, count: number, least: number): InputProblem {
  return new InputProblem({
    code: 'FIT_UNDETERMINED',
    file,
    got: `${count} nights on which the lamp went out before it was switched off, of ${rows.length}`,
    expected: `at least ${least}`,
    fix: 'note the time on more nights, best after dull days; nights it was lit throughout say only that it suffices.',
  });
}

function notOneLamp({ file }: Diary, scatter: number): InputProblem {
  return new InputProblem({
    code: 'FIT_UNDETERMINED',
    file,
    got: `nights that scatter ${scatter.toFixed(1)} times more than ${SEEN_ERROR_H * 60} minutes around the lamp that the log shows`,
    expected: 'a log and a diary of the same lamp, in the same state',
    fix: 'fit each by itself: between them the lid may have been cleaned, or the capacitor have aged.',
  });
}
