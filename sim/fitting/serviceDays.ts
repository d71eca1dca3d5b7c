import { InputProblem } from '../common/InputProblem.ts';
import { HOUR_MS } from '../common/time.ts';
import { changedCapacitor } from '../lamp/capacitor/params.ts';
import { loadTable } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';
import type { PromiseSection } from '../lamp/schedule/schema.ts';
import { lightOfHours } from '../spot/lightOfHours.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { Site } from '../sun/Site.ts';
import { simulateYear, type YearResult } from '../year/simulateYear.ts';
import type { CapacitorLog } from './readCapacitorLog.ts';

const FIT_TOLERANCE_V = 1e-5;

/** The lamp that logged, its spot's light over a record that holds the days of the log, and what it promised. */
export interface Service {
  lamp: LampParams;
  light: SpotLight;
  site: Site;
  promise: PromiseSection;
}

/** What may differ from the scenario: factors on leakage, light and draw; the capacitor's voltage at the beginning. */
export interface Departure {
  leakage: number;
  light: number;
  draw: number;
  start_V: number;
}

/** A lamp through the days of its log and some days before. */
export interface ServiceDays {
  light: SpotLight;
  /** The hour of `light` with which the log begins. */
  begins: number;
  simulate(departure: Departure): YearResult;
}

const LEAD_H = 72;
const LEAST_DAYS = 3;
/** A clock that is off may reach beyond the weather by its error. */
const MOST_OFF_H = 2;

/**
 * The days of a log, to be simulated again and again, volts by the hour.
 *
 * in: service; log
 * throws: FIT_UNDETERMINED where the log is shorter than 3 days or of other days than the weather
 */
export function serviceDays(service: Service, log: CapacitorLog): ServiceDays {
  const { lamp, site, promise } = service;
  const [from, to] = hoursOfLog(service.light, log);
  const first = Math.max(0, from - LEAD_H);
  const light = lightOfHours(service.light, first, to, site);
  const simulate = ({ leakage, light: share, draw, start_V }: Departure) => {
    const lit = { ...light, planeOfArray_W_m2: light.planeOfArray_W_m2.map((each) => each * share) };
    const start = { capacitor_V: Math.max(0, start_V) };
    // A fit looks at differences of millivolts between runs: the loop's own errors must be far below.
    const options = { timeZone: site.timeZone, promise, start, tolerance_V: FIT_TOLERANCE_V };
    return simulateYear(changedLamp(lamp, leakage, draw), lit, options);
  };
  return { light, begins: from - first, simulate };
}

/** First and last hour of the weather that the log covers. */
function hoursOfLog(light: SpotLight, { time_ms, file }: CapacitorLog): [number, number] {
  const [first_ms, last_ms] = [time_ms[0]!, time_ms.at(-1)!];
  const start_h = Math.ceil((first_ms - light.start_ms) / HOUR_MS);
  const end_h = Math.floor((last_ms - light.start_ms) / HOUR_MS);
  const short = end_h - start_h < LEAST_DAYS * 24;
  if (!short && start_h >= -MOST_OFF_H && end_h <= light.count + MOST_OFF_H)
    return [Math.max(0, start_h), Math.min(light.count, end_h)];
  const utc = (ms: number) => `${new Date(ms).toISOString().slice(0, 16)}Z`;
  throw new InputProblem({
    code: 'FIT_UNDETERMINED',
    file,
    got: `a log from ${utc(first_ms)} to ${utc(last_ms)}`,
    expected: short
      ? `at least ${LEAST_DAYS} days`
      : `days that the weather holds, ${utc(light.start_ms)} to ${utc(light.start_ms + light.count * HOUR_MS)}`,
    fix: short ? 'log two weeks.' : 'name the weather of the days of the log in the scenario.',
  });
}

/**
 * A lamp whose leakage, driver draw and capacitance are so many times what they were.
 *
 * in: lamp; leakage, draw and capacitance, factors; 0 or more, and above 0
 */
export function changedLamp(lamp: LampParams, leakage: number, draw: number, capacitance = 1): LampParams {
  const capacitor = changedCapacitor(lamp.capacitor, { capacitance, resistance: 1, leakage });
  if (draw === 1) return { ...lamp, capacitor };
  const driver = { ...lamp.driver, law: lamp.driver.law.times(draw) };
  return { ...lamp, capacitor, driver, load: loadTable(driver, lamp.led, lamp.load.highest_V) };
}
