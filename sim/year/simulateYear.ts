import { compensatedSum } from '../common/numeric.ts';
import { wholeYearsIn } from '../common/time.ts';
import type { LampParams } from '../lamp/params.ts';
import type { PromiseSection } from '../lamp/schedule/schema.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { keptHours } from './circuitHours.ts';
import { type EnergyClosure, energyClosure } from './energyClosure.ts';
import { HourLedger } from './HourLedger.ts';
import { HourTimes } from './HourTimes.ts';
import { hourLimits } from './hourLimits.ts';
import { LampStepper } from './LampStepper.ts';
import type { NightTotals } from './NightTotals.ts';
import { keptPlan } from './planNights.ts';
import { sensedDark } from './sensedDark.ts';
import { emptyTimeColumns, emptyYearColumns, type TimeColumns, type YearColumns } from './YearColumns.ts';
import { type HourRecords, type YearInput, YearRun } from './YearRun.ts';

/**
 * How the capacitor begins: 'cyclic' repeats a record of whole years until the capacitor at its end meets its start;
 * 'lead-in' goes through the first weeks of the record once before, and takes what they leave.
 */
export type YearStart = 'cyclic' | 'lead-in' | { capacitor_V: number };

export interface YearOptions {
  timeZone: string;
  promise: PromiseSection;
  start: YearStart;
  /** Of the motion that a lamp waits for; 1 unless stated. */
  seed?: number | undefined;
  /** Error of the capacitor's voltage allowed in a step of an hour, volts; DEFAULT_TOLERANCE_V unless stated. */
  tolerance_V?: number | undefined;
}

/** Some nights of a record, counted from its first whole one: from `first` up to but without `end`. */
export interface NightStretch {
  first: number;
  end: number;
}

/** What a run says of its nights. */
export interface YearNights {
  nights: NightTotals;
  /** Index in the spot's calendar of night 0 of `nights`. */
  firstNight: number;
  /** How the capacitor began: a record of no whole years is led into where it was to be cyclic. */
  start: YearStart;
  /** True where one year was run from noon to noon through its seam. */
  joined: boolean;
  /** Times the record was gone through. */
  passes: number;
  /** Capacitor voltage at the end less that at the start, after the last pass of a cyclic run; NaN otherwise. */
  periodicityError_V: number;
  /** Time steps of the last pass. */
  steps: number;
  /** Hours of the last pass that were followed more coarsely than `tolerance_V` asks for. */
  coarseHours: number;
  beyondFormula_s: number;
  conductsThrough_s: number;
  /** Capacitor voltages at the beginning and the end. */
  startCapacitor_V: number;
  endCapacitor_V: number;
}

/** What a run says of its nights, and of the times of its hours. */
export interface YearTimes extends YearNights {
  columns: TimeColumns;
}

export interface YearResult extends YearTimes, EnergyClosure {
  columns: YearColumns;
  /** |charge in - out - stored| over all charge moved. */
  chargeResidual: number;
}

export const DEFAULT_TOLERANCE_V = 2e-4;
const MOST_PASSES = 60;
/** Nights at the end of a record that a cyclic run goes through before its first round. */
const LEAD_NIGHTS = 45;
/** Nights from the beginning of a record that a lead-in goes through. */
export const LEAD_IN_NIGHTS = 21;
const PERIODIC_V = 1e-5;
const CHARGE_CLOSES = 1e-9;
const DAY_S = 86_400;

/**
 * A lamp in the light of a spot, hour by hour over the whole record.
 *
 * A cyclic year of 8760 or 8784 hours runs from its first solar noon through its seam back to it, so that every night
 * is whole; any other record runs from its first hour to its last, and one of no whole years, which is no cycle, begins
 * with a lead-in instead.
 *
 * in: lamp; light, the spot's; options
 * out: hours, nights and closure
 * throws: Error where charge does not close to 1e-9 (a defect); UnsolvedCircuit
 */
export function simulateYear(lamp: LampParams, light: SpotLight, options: YearOptions): YearResult {
  const { stepper, input, found } = prepare(lamp, light, options);
  const limits = hourLimits(lamp, input.hours);
  const rounds = runRounds(stepper, input, found.start, () => {
    const columns = emptyYearColumns(input.count);
    columns.reachable_V = limits.reachable_V;
    columns.jar_degC.set(input.jar_degC);
    return { columns, times: new HourTimes(columns), ledger: new HourLedger(stepper, columns, limits) };
  });
  const { columns } = rounds.hours;
  return {
    ...nightsOf(rounds, found, stepper),
    columns,
    chargeResidual: chargeResidual(columns, rounds.begin_C, stepper.wholeCharge_C()),
    ...energyClosure(columns),
  };
}

/**
 * The nights of the same run and the times of its hours, without its energy: half of the time.
 *
 * in: lamp; light, the spot's; options
 * throws: UnsolvedCircuit
 */
export function simulateTimes(lamp: LampParams, light: SpotLight, options: YearOptions): YearTimes {
  const { stepper, input, found } = prepare(lamp, light, options);
  const rounds = runRounds(stepper, input, found.start, () => {
    const columns = emptyTimeColumns(input.count);
    return { columns, times: new HourTimes(columns) };
  });
  return { ...nightsOf(rounds, found, stepper), columns: rounds.hours.columns };
}

/**
 * The nights alone of the same run, for what needs many of them: a quarter of the time. A stretch of nights begins with
 * the capacitor at rest at the stated start.
 *
 * in: lamp; light, the spot's; options; stretch, all nights of the record unless stated
 * throws: UnsolvedCircuit; Error where a stretch has no stated start (a defect)
 */
export function simulateNights(
  lamp: LampParams,
  light: SpotLight,
  options: YearOptions,
  stretch?: NightStretch,
): YearNights {
  if (stretch !== undefined && typeof options.start === 'string')
    throw new Error('a stretch of nights is no cycle');
  const { stepper, input, found } = prepare(lamp, light, options, stretch);
  return nightsOf(
    runRounds(stepper, input, found.start, () => ({})),
    found,
    stepper,
  );
}

/**
 * What a lamp is to do in the light of a spot, night by night.
 *
 * in: lamp; light, the spot's; options; part, some nights of the record, all unless stated
 * out: the plan; how the run begins, and where in the calendar
 */
export function lampPlan(lamp: LampParams, light: SpotLight, options: YearOptions, part?: NightStretch) {
  const { count } = light;
  const start = startOf(options.start, light);
  const joined = (start === 'cyclic' || part !== undefined) && (count === 8760 || count === 8784);
  const { sense } = lamp.schedule;
  const stretch = {
    start_ms: light.start_ms,
    count,
    nights: light.nights,
    timeZone: options.timeZone,
    seed: options.seed,
    joined,
    ...(part === undefined ? {} : { part }),
    ...(sense === undefined
      ? {}
      : { dark: sensedDark(light, keptHours(lamp, light).jar_degC, lamp.cell, sense, light.nightLight_lux) }),
  };
  return { ...keptPlan(stretch, lamp.schedule, options.promise), joined, start };
}

function prepare(lamp: LampParams, light: SpotLight, options: YearOptions, part?: NightStretch) {
  const { plan, ...found } = lampPlan(lamp, light, options, part);
  const { hours, jar_degC } = keptHours(lamp, light);
  const input: YearInput = {
    count: light.count,
    hours,
    jar_degC,
    plan,
    leastLight_lm: options.promise.least_lumen,
  };
  const stepper = new LampStepper(lamp);
  stepper.tolerance_V = options.tolerance_V ?? DEFAULT_TOLERANCE_V;
  return { stepper, input, found };
}

function startOf(start: YearStart, { start_ms, count }: SpotLight): YearStart {
  return start === 'cyclic' && wholeYearsIn(start_ms, count) === 0 ? 'lead-in' : start;
}

/**
 * Goes through the record, again and again where it is cyclic until its end meets its start.
 * in: stepper; input; start; hoursOf, makes what each time keeps of the hours
 */
function runRounds<Hours extends HourRecords>(
  stepper: LampStepper,
  input: YearInput,
  start: YearStart,
  hoursOf: () => Hours,
) {
  const cyclic = start === 'cyclic';
  stepper.restAt(typeof start === 'string' ? stepper.lamp.driver.cutoff_V : start.capacitor_V);
  if (start === 'lead-in') new YearRun(stepper, input).run(0, input.plan.from_s + LEAD_IN_NIGHTS * DAY_S);
  // The last weeks first: they bring the capacitor near to what the whole record's end will leave.
  if (cyclic && input.plan.nights > 2 * LEAD_NIGHTS)
    new YearRun(stepper, input).run(input.plan.nights - LEAD_NIGHTS);
  for (let passes = 1; ; passes++) {
    const { main_V: begin_V, delayed, stopped } = stepper;
    const [one_V, two_V] = [delayed.one.voltage_V, delayed.two.voltage_V];
    const begin_C = stepper.wholeCharge_C();
    const hours = hoursOf();
    const run = new YearRun(stepper, input, hours);
    run.run();
    const gap_V = Math.max(
      Math.abs(stepper.main_V - begin_V),
      Math.abs(delayed.one.voltage_V - one_V),
      Math.abs(delayed.two.voltage_V - two_V),
    );
    const meets = gap_V <= PERIODIC_V && stepper.stopped === stopped;
    if (!cyclic || meets || passes >= MOST_PASSES) {
      const periodicityError_V = cyclic ? stepper.main_V - begin_V : Number.NaN;
      return { run, hours, passes, begin_V, begin_C, periodicityError_V };
    }
  }
}

function nightsOf(
  { run, passes, begin_V, periodicityError_V }: ReturnType<typeof runRounds<HourRecords>>,
  found: Pick<YearNights, 'firstNight' | 'joined' | 'start'>,
  stepper: LampStepper,
): YearNights {
  const { nights, steps, coarseHours, beyondFormula_s, conductsThrough_s } = run.recorder;
  return {
    ...found,
    nights,
    passes,
    periodicityError_V,
    steps,
    coarseHours,
    beyondFormula_s,
    conductsThrough_s,
    startCapacitor_V: begin_V,
    endCapacitor_V: stepper.main_V,
  };
}

function chargeResidual(columns: YearColumns, begin_C: number, end_C: number): number {
  const in_C = compensatedSum(columns.chargeIn_C);
  const out_C = compensatedSum(columns.chargeOut_C);
  const moved_C = Math.abs(in_C) + out_C + Math.abs(begin_C);
  const residual = moved_C === 0 ? 0 : Math.abs(in_C - out_C - (end_C - begin_C)) / moved_C;
  if (!(residual <= CHARGE_CLOSES)) {
    throw new Error(`charge does not close: ${residual} of the charge moved is missing`);
  }
  return residual;
}
