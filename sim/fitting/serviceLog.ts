import { type Estimate, STANDARD_ERRORS_90 } from '../common/Estimate.ts';
import { InputProblem } from '../common/InputProblem.ts';
import { type LeastSquaresFit, leastSquares } from '../common/leastSquares.ts';
import { HOUR_MS } from '../common/time.ts';
import type { LampParams } from '../lamp/params.ts';
import type { PromiseSection } from '../lamp/schedule/schema.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { Site } from '../sun/Site.ts';
import { simulateYear, type YearResult } from '../year/simulateYear.ts';
import { changedLamp } from './changedLamp.ts';
import { lightOfDays } from './lightOfDays.ts';
import type { CapacitorLog } from './readCapacitorLog.ts';

/** The lamp that logged, its spot's light over a record that holds the days of the log, and what it promised. */
export interface Service {
  lamp: LampParams;
  light: SpotLight;
  site: Site;
  promise: PromiseSection;
}

/** What a log of a lamp in service gave. */
export interface ServiceFit {
  estimates: Estimate[];
  /** What the log's clock seems ahead of the weather's, minutes; 0 where it agrees. */
  clockAhead_min: number;
  /** Hours in which the LED was off and the cell dark: only these tell leakage from the driver's draw. */
  darkOff_h: number;
  /** Root mean square of log less simulation, volts. */
  misfit_V: number;
  /** Ends of the hours that were compared, UTC milliseconds, with both voltages. */
  hours: { time_ms: number; logged_V: number; simulated_V: number; light_W_m2: number; shines: boolean }[];
  notes: string[];
}

const LEAD_H = 72;
const LEAST_DAYS = 3;
const MOST_OFF_H = 2;
/** Error of a logged voltage with which the fit begins; the scatter corrects it. */
const LOGGED_ERROR_V = 0.005;
const LEAST_DARK_OFF_H = 20;
/** What a driver's draw is taken to be known to where the log cannot tell it, as a standard deviation. */
const DRAW_KNOWN = 0.1;
/** How far the capacitor some days before the log stood from where the log begins, as a standard deviation. */
const START_KNOWN_V = 0.25;
/** Clocks that are tried, minutes ahead. */
const SHIFTS_MIN = Array.from({ length: 25 }, (_, i) => (i - 12) * 10);
/** A clock is called wrong only where the misfit falls to this share, and by 20 minutes or more. */
const CLOCK_GAIN = 0.7;
const LEAST_SHIFT_MIN = 20;
const KEPT_LAMPS = 8;
/** The simulation chooses its own time steps: differences below a few of its errors say nothing. */
const SLOPE_STEP = 0.05;
/** Of some 300 residuals: a hundredth of what one standard error of one unknown makes. */
const NO_GAIN = 3e-5;
/** Leakage as a factor, light share and draw as logarithms of factors, the capacitor's voltage at the beginning. */
const AT = { leakage: 0, share: 1, draw: 2, start: 3 } as const;

/**
 * Leakage, light share of the spot and driver draw of a lamp in service, from its logged capacitor voltage and the weather
 * of the same days: the simulation repeated until it follows the log, with 90 percent intervals.
 *
 * in: service; log
 * out: estimates, clock, and both voltages hour by hour
 * throws: FIT_UNDETERMINED where the log is shorter than 3 days or of other days than the weather
 * valid: voltages are compared at the ends of hours; errors are taken from the scatter, neighbouring hours counted as
 *   far as they are independent; without 20 hours of LED off and cell dark the draw is taken as stated, to 10 percent
 * source: JCGM100 (intervals from the slopes, widened by the scatter)
 */
export function serviceLog(service: Service, log: CapacitorLog): ServiceFit {
  const days = daysOf(service, log);
  const straight = fitAt(days, 0, undefined);
  let best = straight;
  // The log moved against one simulation shows where to look; a fit there, and so on until it stays.
  for (let round = 0; round < 4; round++) {
    const shift_min = bestShift(days, best);
    if (shift_min === best.shift_min) break;
    const other = fitAt(days, shift_min, best.solved.values);
    if (other.misfit_V >= best.misfit_V) break;
    best = other;
  }
  const wrong = Math.abs(best.shift_min) >= LEAST_SHIFT_MIN && best.misfit_V < CLOCK_GAIN * straight.misfit_V;
  const fit = wrong ? best : straight;
  const { solved } = fit;
  const { values } = solved;
  const { capacitor } = service.lamp;
  const widened = STANDARD_ERRORS_90 * spread(solved, fit.hours.length);
  const times = (at: number, of: number) => ({
    value: of * Math.exp(values[at]!),
    low: of * Math.exp(values[at]! - widened * solved.errors[at]!),
    high: of * Math.exp(values[at]! + widened * solved.errors[at]!),
    datasheet: of,
  });
  const estimates: Estimate[] = [
    {
      key: 'leakage_uA',
      what: `leakage of the bank at ${capacitor.rated_V} V and 25 degC`,
      unit: 'uA',
      ...leakageOf(solved, capacitor.leakage_A * 1e6, widened),
    },
    {
      key: 'light_share',
      what: 'light on the cell over what the scenario lets expect',
      unit: '',
      ...times(AT.share, 1),
    },
  ];
  const notes: string[] = [];
  if (days.drawOpen) {
    estimates.push({
      key: 'draw',
      what: "driver's draw over what the scenario states",
      unit: '',
      ...times(AT.draw, 1),
    });
  } else {
    notes.push(
      `only ${days.darkOff_h} hours had the LED off and the cell dark: leakage and the driver's draw cannot be told apart. The draw is taken as stated, to ${DRAW_KNOWN * 100} percent. Leave the LED off for one night and log again`,
    );
  }
  if (wrong) {
    const ahead = Math.abs(fit.shift_min);
    notes.push(
      `the log's clock is about ${ahead} minutes ${fit.shift_min > 0 ? 'ahead of' : 'behind'} the weather's: so moved, the misfit falls from ${(straight.misfit_V * 1000).toFixed(0)} to ${(fit.misfit_V * 1000).toFixed(0)} mV, and the values are those of the moved log. Check the clock (summer time?)`,
    );
  }
  return {
    estimates,
    clockAhead_min: wrong ? fit.shift_min : 0,
    darkOff_h: days.darkOff_h,
    misfit_V: fit.misfit_V,
    hours: fit.hours,
    notes: [...notes, ...whereWrong(fit)],
  };
}

function leakageOf({ values, errors }: LeastSquaresFit, stated_uA: number, widened: number) {
  const factor = values[AT.leakage]!;
  const half = widened * errors[AT.leakage]!;
  return {
    value: factor * stated_uA,
    low: Math.max(0, factor - half) * stated_uA,
    high: (factor + half) * stated_uA,
    datasheet: stated_uA,
  };
}

interface Days extends Service {
  log: CapacitorLog;
  /** The light from some days before the log to its end. */
  light: SpotLight;
  darkOff_h: number;
  drawOpen: boolean;
  /** The lamp by the factor on its draw: its load table is dear, and a slope needs it several times. */
  lamps: Map<number, LampParams>;
}

function daysOf(service: Service, log: CapacitorLog): Days {
  const { light, site } = service;
  const first_ms = log.time_ms[0]!;
  const last_ms = log.time_ms.at(-1)!;
  // A clock that is off may reach beyond the weather by its error.
  const start_h = Math.ceil((first_ms - light.start_ms) / HOUR_MS);
  const end_h = Math.floor((last_ms - light.start_ms) / HOUR_MS);
  const outside = start_h < -MOST_OFF_H || end_h > light.count + MOST_OFF_H;
  const from = Math.max(0, start_h);
  const to = Math.min(light.count, end_h);
  const utc = (ms: number) => new Date(ms).toISOString().slice(0, 16);
  const short = end_h - start_h < LEAST_DAYS * 24;
  if (short || outside) {
    throw new InputProblem({
      code: 'FIT_UNDETERMINED',
      file: log.file,
      got: `a log from ${utc(first_ms)}Z to ${utc(last_ms)}Z`,
      expected: short
        ? `at least ${LEAST_DAYS} days`
        : `days that the weather holds, ${utc(light.start_ms)}Z to ${utc(light.start_ms + light.count * HOUR_MS)}Z`,
      fix: short ? 'log two weeks.' : 'name the weather of the days of the log in the scenario.',
    });
  }
  const begin = Math.max(0, from - LEAD_H);
  const cut = lightOfDays(light, begin, to - begin, site);
  const days: Days = { ...service, light: cut, log, darkOff_h: 0, drawOpen: true, lamps: new Map() };
  const run = simulated(days, [1, 0, 0, log.capacitor_V[0]!]);
  let darkOff_h = 0;
  for (let i = from - begin; i < cut.count; i++) {
    if (cut.planeOfArray_W_m2[i]! === 0 && run.columns.shining_s[i]! === 0) darkOff_h++;
  }
  return { ...days, darkOff_h, drawOpen: darkOff_h >= LEAST_DARK_OFF_H };
}

function simulated(days: Days, values: readonly number[]): YearResult {
  const { lamp, light, site, promise, lamps } = days;
  const share = Math.exp(values[AT.share]!);
  const lit: SpotLight = { ...light, planeOfArray_W_m2: light.planeOfArray_W_m2.map((each) => each * share) };
  const draw = Math.exp(values[AT.draw]!);
  const drawing = lamps.get(draw) ?? changedLamp(lamp, 1, draw);
  if (lamps.size > KEPT_LAMPS) lamps.clear();
  lamps.set(draw, drawing);
  const changed = changedLamp(drawing, values[AT.leakage]!, 1);
  return simulateYear(changed, lit, {
    timeZone: site.timeZone,
    promise,
    start: { capacitor_V: Math.max(0, values[AT.start]!) },
  });
}

interface ShiftedFit {
  shift_min: number;
  solved: LeastSquaresFit;
  misfit_V: number;
  hours: ServiceFit['hours'];
}

/** The fit with the log's clock taken to be ahead by some minutes. */
function fitAt(days: Days, shift_min: number, near: readonly number[] | undefined): ShiftedFit {
  const { light, log } = days;
  const ends = hourEnds(days, shift_min);
  const start_V = log.capacitor_V[0]!;
  const unknowns = [
    { start: 1, scale: 6, least: 0, most: 50 },
    { start: 0, scale: 0.2, ...within(5) },
    { start: 0, scale: 0.2, ...within(3) },
    { start: start_V, scale: 0.2, least: 0, most: days.lamp.capacitor.rated_V },
  ].map((unknown, k) => ({ ...unknown, start: near?.[k] ?? unknown.start }));
  const known = [
    { at: AT.draw, value: 0, error: days.drawOpen ? 1 : DRAW_KNOWN },
    { at: AT.start, value: start_V, error: START_KNOWN_V },
  ];
  const solved = leastSquares(
    unknowns,
    ends.length + known.length,
    (target, values) => {
      const { capacitorEnd_V } = simulated(days, values).columns;
      ends.forEach(({ i, logged_V }, k) => {
        target[k] = (capacitorEnd_V[i]! - logged_V) / LOGGED_ERROR_V;
      });
      known.forEach(({ at, value, error }, k) => {
        target[ends.length + k] = (values[at]! - value) / error;
      });
    },
    { step: SLOPE_STEP, gain: NO_GAIN },
  );
  const { columns } = simulated(days, solved.values);
  const hours = ends.map(({ i, logged_V }) => ({
    time_ms: light.start_ms + (i + 1) * HOUR_MS,
    logged_V,
    simulated_V: columns.capacitorEnd_V[i]!,
    light_W_m2: light.planeOfArray_W_m2[i]!,
    shines: columns.shining_s[i]! > 0,
  }));
  const squares = hours.reduce((sum, hour) => sum + (hour.logged_V - hour.simulated_V) ** 2, 0);
  return { shift_min, solved, misfit_V: Math.sqrt(squares / hours.length), hours };
}

function within(factor: number): { least: number; most: number } {
  return { least: -Math.log(factor), most: Math.log(factor) };
}

/** Logged voltages at the ends of the hours of the light, the log's clock taken to be ahead by some minutes. */
function hourEnds({ light, log }: Days, shift_min: number): { i: number; logged_V: number }[] {
  return Array.from({ length: light.count }, (_, i) => i).flatMap((i) => {
    const logged_V = loggedAt(log, light.start_ms + (i + 1) * HOUR_MS + shift_min * 60_000);
    return logged_V === undefined ? [] : [{ i, logged_V }];
  });
}

/** The clock, in minutes ahead, with which the log lies nearest to a simulation. */
function bestShift(days: Days, { solved }: ShiftedFit): number {
  const { capacitorEnd_V } = simulated(days, solved.values).columns;
  let best = { shift_min: 0, misfit: Number.POSITIVE_INFINITY };
  for (const shift_min of SHIFTS_MIN) {
    const ends = hourEnds(days, shift_min);
    const squares = ends.reduce((sum, { i, logged_V }) => sum + (capacitorEnd_V[i]! - logged_V) ** 2, 0);
    const misfit = squares / ends.length;
    if (misfit < best.misfit) best = { shift_min, misfit };
  }
  return best.shift_min;
}

/** The logged voltage at an instant, between its neighbours; undefined in a gap. */
function loggedAt({ time_ms, capacitor_V, step_ms }: CapacitorLog, at_ms: number): number | undefined {
  let low = 0;
  let high = time_ms.length - 1;
  if (at_ms < time_ms[low]! || at_ms > time_ms[high]!) return undefined;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (time_ms[middle]! <= at_ms) low = middle;
    else high = middle;
  }
  const [before, after] = [time_ms[low]!, time_ms[high]!];
  if (at_ms === after) return capacitor_V[high]!;
  if (after - before > 1.5 * step_ms) return undefined;
  return capacitor_V[low]! + ((capacitor_V[high]! - capacitor_V[low]!) * (at_ms - before)) / (after - before);
}

/** Factor on the standard errors: the scatter over what was assumed, and neighbours that err together. */
function spread({ residuals, freedom }: LeastSquaresFit, count: number): number {
  const read = residuals.slice(0, count);
  const squares = read.reduce((sum, each) => sum + each * each, 0);
  const neighbours = read.slice(1).reduce((sum, each, i) => sum + each * read[i]!, 0);
  const together = Math.min(0.98, Math.max(0, neighbours / squares - 2 / Math.sqrt(count)));
  return Math.sqrt((squares / Math.max(1, freedom)) * ((1 + together) / (1 - together)));
}

const FAR_V = 0.02;

/** Where the simulation departs from the log, in words; nothing where it is within 20 mV on the whole. */
function whereWrong({ hours }: ShiftedFit): string[] {
  const kinds = [
    { words: 'with light on the cell', has: (hour: ServiceFit['hours'][number]) => hour.light_W_m2 > 0 },
    { words: 'with the LED on', has: (hour: ServiceFit['hours'][number]) => hour.shines },
    {
      words: 'at rest in the dark',
      has: (hour: ServiceFit['hours'][number]) => !hour.shines && hour.light_W_m2 === 0,
    },
  ];
  return kinds.flatMap(({ words, has }) => {
    const some = hours.filter(has);
    if (some.length < 10) return [];
    const mean_V = some.reduce((sum, hour) => sum + hour.simulated_V - hour.logged_V, 0) / some.length;
    if (Math.abs(mean_V) < FAR_V) return [];
    return [
      `${words} the simulation is ${Math.abs(mean_V * 1000).toFixed(0)} mV too ${mean_V > 0 ? 'high' : 'low'} on the mean: there the model of this lamp is wrong`,
    ];
  });
}
