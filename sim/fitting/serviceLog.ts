import { mean, minIndex } from 'd3-array';
import { type Estimate, STANDARD_ERRORS_90 } from '../common/Estimate.ts';
import { exp } from '../common/elementary/exp.ts';
import { log as logOf } from '../common/elementary/log.ts';
import { fitReadings, type ReadingsFit } from '../common/fitReadings.ts';
import { square } from '../common/numeric.ts';
import { HOUR_MS } from '../common/time.ts';
import type { LampParams } from '../lamp/params.ts';
import { type CapacitorLog, loggedAt_V } from './readCapacitorLog.ts';
import { type Departure, type Service, type ServiceDays, serviceDays } from './serviceDays.ts';

/** One hour of a log beside the simulation. */
export interface ServiceHour {
  /** Its end, UTC milliseconds, with both voltages. */
  time_ms: number;
  logged_V: number;
  simulated_V: number;
  light_W_m2: number;
  shines: boolean;
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
  hours: ServiceHour[];
  notes: string[];
}

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
/**
 * The simulation chooses its own time steps: differences below a few of its errors say nothing; of some 300 residuals
 * the gain is a hundredth of what one standard error of one unknown makes.
 */
const FINENESS = { step: 0.05, gain: 3e-5 };
/** Leakage as a factor, light share and draw as logarithms of factors, the capacitor's voltage at the beginning. */
const AT = { leakage: 0, share: 1, draw: 2, start: 3 } as const;

/** A log and the days it is of. */
interface Logged extends ServiceDays {
  log: CapacitorLog;
  lamp: LampParams;
  darkOff_h: number;
  drawOpen: boolean;
}

/**
 * Leakage, light share of the spot and driver draw of a lamp in service, from its logged capacitor voltage and the weather
 * of the same days: the simulation repeated until it follows the log, with 90 percent intervals.
 *
 * in: service; log
 * out: estimates, clock, and both voltages hour by hour
 * throws: what `serviceDays` throws
 * valid: voltages are compared at the ends of hours; errors are taken from the scatter, neighbouring hours counted as
 *   far as they are independent; without 20 hours of LED off and cell dark the draw is taken as stated, to 10 percent
 * source: JCGM100 (intervals from the slopes, widened by the scatter)
 */
export function serviceLog(service: Service, log: CapacitorLog): ServiceFit {
  const days = serviceDays(service, log);
  const { columns } = days.simulate({ leakage: 1, light: 1, draw: 1, start_V: log.capacitor_V[0]! });
  const darkOff_h = columns.shining_s
    .subarray(days.begins)
    .reduce(
      (sum, each_s, i) => sum + Number(each_s === 0 && days.light.planeOfArray_W_m2[days.begins + i] === 0),
      0,
    );
  const drawOpen = darkOff_h >= LEAST_DARK_OFF_H;
  const logged: Logged = { ...days, log, lamp: service.lamp, darkOff_h, drawOpen };
  const { fit, straight } = clockCheck(logged);
  const notes: string[] = [];
  if (!drawOpen) {
    notes.push(
      `only ${darkOff_h} hours had the LED off and the cell dark: leakage and the driver's draw cannot be told apart. The draw is taken as stated, to ${DRAW_KNOWN * 100} percent. Leave the LED off for one night and log again`,
    );
  }
  if (fit !== straight) {
    const ahead = Math.abs(fit.shift_min);
    notes.push(
      `the log's clock is about ${ahead} minutes ${fit.shift_min > 0 ? 'ahead of' : 'behind'} the weather's: so moved, the misfit falls from ${(straight.misfit_V * 1000).toFixed(0)} to ${(fit.misfit_V * 1000).toFixed(0)} mV, and the values are those of the moved log. Check the clock (summer time?)`,
    );
  }
  return {
    estimates: estimatesOf(logged, fit.solved),
    clockAhead_min: fit.shift_min,
    darkOff_h,
    misfit_V: fit.misfit_V,
    hours: fit.hours,
    notes: [...notes, ...whereWrong(fit.hours)],
  };
}

function estimatesOf({ lamp: { capacitor }, drawOpen }: Logged, solved: ReadingsFit): Estimate[] {
  const { values, errors } = solved;
  const widened = STANDARD_ERRORS_90 * widening(solved);
  const bounds = (at: number) => [0, -1, 1].map((side) => values[at]! + side * widened * errors[at]!);
  const estimate = (
    key: string,
    what: string,
    unit: string,
    datasheet: number,
    factors: readonly number[],
  ) => {
    const [value, low, high] = factors.map((factor) => Math.max(0, factor) * datasheet);
    return { key, what, unit, value: value!, low: low!, high: high!, datasheet };
  };
  const leakage = `leakage of the bank at ${capacitor.rated_V} V and 25 degC`;
  const found = [
    estimate('leakage_uA', leakage, 'uA', capacitor.leakage_A * 1e6, bounds(AT.leakage)),
    estimate(
      'light_share',
      'light on the cell over what the scenario lets expect',
      '',
      1,
      bounds(AT.share).map(exp),
    ),
    estimate('draw', "driver's draw over what the scenario states", '', 1, bounds(AT.draw).map(exp)),
  ];
  return drawOpen ? found : found.slice(0, 2);
}

interface ShiftedFit {
  shift_min: number;
  solved: ReadingsFit;
  misfit_V: number;
  hours: ServiceHour[];
}

/** The fit with the log's clock as it is, and with the clock that is believed: the same fit where that is the log's. */
function clockCheck(logged: Logged): { fit: ShiftedFit; straight: ShiftedFit } {
  const straight = fitAt(logged, 0, undefined);
  let best = straight;
  // The log moved against one simulation shows where to look; a fit there, and so on until it stays.
  for (let round = 0; round < 4; round++) {
    const shift_min = bestShift(logged, best);
    if (shift_min === best.shift_min) break;
    const other = fitAt(logged, shift_min, best.solved.values);
    if (other.misfit_V >= best.misfit_V) break;
    best = other;
  }
  const wrong = Math.abs(best.shift_min) >= LEAST_SHIFT_MIN && best.misfit_V < CLOCK_GAIN * straight.misfit_V;
  return { fit: wrong ? best : straight, straight };
}

function departure(values: readonly number[]): Departure {
  return {
    leakage: values[AT.leakage]!,
    light: exp(values[AT.share]!),
    draw: exp(values[AT.draw]!),
    start_V: values[AT.start]!,
  };
}

/** The fit with the log's clock taken to be ahead by some minutes. */
function fitAt(logged: Logged, shift_min: number, near: readonly number[] | undefined): ShiftedFit {
  const { light, log, lamp, drawOpen } = logged;
  const ends = hourEnds(logged, shift_min);
  const start_V = log.capacitor_V[0]!;
  const within = (factor: number) => ({ least: -logOf(factor), most: logOf(factor) });
  const solved = fitReadings(
    {
      unknowns: [
        { start: 1, scale: 6, least: 0, most: 50 },
        { start: 0, scale: 0.2, ...within(5) },
        { start: 0, scale: 0.2, ...within(3) },
        { start: start_V, scale: 0.2, least: 0, most: lamp.capacitor.rated_V },
      ].map((unknown, k) => ({ ...unknown, start: near?.[k] ?? unknown.start })),
      priors: [
        { at: AT.draw, value: 0, error: drawOpen ? 1 : DRAW_KNOWN },
        { at: AT.start, value: start_V, error: START_KNOWN_V },
      ],
      readings: ends.map(({ logged_V }) => ({
        what: 'capacitor voltage',
        unit: 'V',
        path: [],
        measured: logged_V,
        error: LOGGED_ERROR_V,
      })),
      shownInto: (target, values) => {
        const { capacitorEnd_V } = logged.simulate(departure(values)).columns;
        ends.forEach(({ i }, k) => {
          target[k] = capacitorEnd_V[i]!;
        });
      },
    },
    FINENESS,
  );
  const { columns } = logged.simulate(departure(solved.values));
  const hours = ends.map(({ i, logged_V }) => ({
    time_ms: light.start_ms + (i + 1) * HOUR_MS,
    logged_V,
    simulated_V: columns.capacitorEnd_V[i]!,
    light_W_m2: light.planeOfArray_W_m2[i]!,
    shines: columns.shining_s[i]! > 0,
  }));
  return { shift_min, solved, misfit_V: Math.sqrt(meanSquare(hours)), hours };
}

function meanSquare(hours: readonly { logged_V: number; simulated_V: number }[]): number {
  return mean(hours, ({ logged_V, simulated_V }) => square(logged_V - simulated_V)) ?? Number.NaN;
}

/** Logged voltages at the ends of the hours of the light, the log's clock taken to be ahead by some minutes. */
function hourEnds({ light, log }: Logged, shift_min: number): { i: number; logged_V: number }[] {
  return Array.from({ length: light.count }, (_, i) => ({
    i,
    logged_V: loggedAt_V(log, light.start_ms + (i + 1) * HOUR_MS + shift_min * 60_000),
  })).filter(({ logged_V }) => !Number.isNaN(logged_V));
}

/** The clock, in minutes ahead, with which the log lies nearest to a simulation. */
function bestShift(logged: Logged, { solved }: ShiftedFit): number {
  const { capacitorEnd_V } = logged.simulate(departure(solved.values)).columns;
  const misfits_V2 = SHIFTS_MIN.map((shift_min) =>
    meanSquare(
      hourEnds(logged, shift_min).map(({ i, logged_V }) => ({ logged_V, simulated_V: capacitorEnd_V[i]! })),
    ),
  );
  return SHIFTS_MIN[minIndex(misfits_V2)]!;
}

/** Factor on the standard errors: the scatter over what was assumed, and neighbours that err together. */
function widening({ residuals, freedom, bench }: ReadingsFit): number {
  const read = residuals.slice(0, bench.readings.length);
  const squares = read.reduce((sum, each) => sum + each * each, 0);
  const neighbours = read.slice(1).reduce((sum, each, i) => sum + each * read[i]!, 0);
  const together = Math.min(0.98, Math.max(0, neighbours / squares - 2 / Math.sqrt(read.length)));
  return Math.sqrt((squares / Math.max(1, freedom)) * ((1 + together) / (1 - together)));
}

const FAR_V = 0.02;

/** Where the simulation departs from the log, in words; nothing where it is within 20 mV on the whole. */
function whereWrong(hours: readonly ServiceHour[]): string[] {
  const kinds = {
    'with light on the cell': ({ light_W_m2 }: ServiceHour) => light_W_m2 > 0,
    'with the LED on': ({ shines }: ServiceHour) => shines,
    'at rest in the dark': ({ shines, light_W_m2 }: ServiceHour) => !shines && light_W_m2 === 0,
  };
  return Object.entries(kinds).flatMap(([words, has]) => {
    const some = hours.filter(has);
    if (some.length < 10) return [];
    const mean_V = some.reduce((sum, hour) => sum + hour.simulated_V - hour.logged_V, 0) / some.length;
    if (Math.abs(mean_V) < FAR_V) return [];
    return [
      `${words} the simulation is ${Math.abs(mean_V * 1000).toFixed(0)} mV too ${mean_V > 0 ? 'high' : 'low'} on the mean: there the model of this lamp is wrong`,
    ];
  });
}
