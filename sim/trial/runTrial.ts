import { max, min } from 'd3-array';
import { significant } from '../common/Estimate.ts';
import { InputProblem, unlessReported } from '../common/InputProblem.ts';
import { compensatedSum } from '../common/numeric.ts';
import { HOUR_MS, utcText } from '../common/time.ts';
import { checkLamp } from '../lamp/checkLamp.ts';
import { mostLight_lm } from '../lamp/loadTable.ts';
import { type LampParams, lampParams } from '../lamp/params.ts';
import type { PromiseSection } from '../lamp/schedule/schema.ts';
import type { SettledSection } from '../lamp/schema.ts';
import { type NightRow, nightLedger } from '../night/nightLedger.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { energyStatistics } from '../statistics/energyStatistics.ts';
import { monthStatistics } from '../statistics/monthStatistics.ts';
import { nightStatistics, overWinters } from '../statistics/overWinters.ts';
import { winterStatistics } from '../statistics/winterStatistics.ts';
import type { Site } from '../sun/Site.ts';
import {
  type NightStretch,
  simulateNights,
  simulateTimes,
  simulateYear,
  type YearNights,
  type YearOptions,
  type YearResult,
  type YearStart,
} from '../year/simulateYear.ts';
import { UnsolvedCircuit } from '../year/YearRun.ts';
import type { HourlyTrial, NightTrial, TimedTrial } from './Trial.ts';

/** What a trial needs beside the lamp and its light. */
export interface TrialTerms {
  spot: string;
  lamp: string;
  site: Site;
  promise: PromiseSection;
  start: YearStart;
  /** Of every random draw. */
  seed: number;
  tolerance_V?: number | undefined;
}

const ENERGY_CLOSES = 1e-4;

/**
 * One lamp in one spot under one weather record.
 *
 * in: lamp; light, the spot's; terms; brushed, the same light with no snow on the lid, where there is some
 * out: hours, night ledger and statistics
 * throws: InputProblem where a boost's capacitor reaches the LED's voltage and conducts straight through; Error where
 *   the run does not close (a defect)
 */
export function runTrial(
  lamp: LampParams,
  light: SpotLight,
  terms: TrialTerms,
  brushed?: SpotLight,
): HourlyTrial {
  const year = followed(light, terms, () => simulateYear(lamp, light, yearOptions(terms)));
  const trial = judged(year, lamp, light, terms, brushed);
  const energy = energyStatistics(year.columns, light.planeOfArray_W_m2, lamp.cell.area_m2);
  return {
    ...trial,
    statistics: { ...trial.statistics, energy },
    flags: [...unreachable(lamp, terms.promise), ...flagsOf(lamp, light, year)],
    changes: [],
  };
}

/**
 * The nights of the same trial and the times of its hours, for what follows a hand: same rows (but for the reachable
 * voltage), winters, months and verdict, in half of the time.
 *
 * in, throws: as `runTrial`
 */
export function runTimes(
  lamp: LampParams,
  light: SpotLight,
  terms: TrialTerms,
  brushed?: SpotLight,
): TimedTrial {
  const year = followed(light, terms, () => simulateTimes(lamp, light, yearOptions(terms)));
  return judged(year, lamp, light, terms, brushed);
}

/**
 * The nights of the same trial without its hours, for what needs many of them: same rows (but for the reachable
 * voltage), winters and verdict, in a fraction of the time.
 *
 * in: lamp; light, the spot's; terms; stretch, some nights of the record, which begin with the capacitor at the voltage
 *   that the terms state; all nights unless given
 * out: night ledger and statistics; a stretch is no whole winter, and has no verdict of one
 * throws: InputProblem as `runTrial`; Error where a stretch has no stated start (a defect)
 */
export function runNights(
  lamp: LampParams,
  light: SpotLight,
  terms: TrialTerms,
  stretch?: NightStretch,
): NightTrial {
  const nights = followed(light, terms, () => simulateNights(lamp, light, yearOptions(terms), stretch));
  return trialOf(nights, lamp, light, terms);
}

/** What a simulation gives; a lamp that it cannot follow is bad input. */
function followed<Year>({ start_ms }: SpotLight, terms: TrialTerms, simulate: () => Year): Year {
  try {
    return simulate();
  } catch (error) {
    if (!(error instanceof UnsolvedCircuit)) throw error;
    const at = utcText(start_ms + error.hour * HOUR_MS);
    throw new InputProblem({
      code: 'SCENARIO_CONFLICT',
      field: `lamps.${terms.lamp}`,
      got: `a lamp that cannot be followed on spot ${terms.spot} in the hour of ${at}, its capacitor at ${error.capacitor_V.toPrecision(3)} V`,
      expected: 'parts as they are built, whose voltages and currents move in milliseconds at least',
      fix: 'is a part in another unit, a resistance too large or a capacitance too small by far?',
    });
  }
}

function yearOptions({ site, promise, start, seed, tolerance_V }: TrialTerms): YearOptions {
  return { timeZone: site.timeZone, promise, start, seed, tolerance_V };
}

/** Night ledger and statistics of a run. */
function trialOf<Year extends YearNights>(year: Year, lamp: LampParams, light: SpotLight, terms: TrialTerms) {
  if (!Number.isNaN(year.conductsThrough_s)) throw conductsThrough(lamp, light, terms, year);
  const { site, promise } = terms;
  const nights = nightLedger(year, light, site, {
    capacitor: lamp.capacitor,
    cutoff_V: lamp.driver.cutoff_V,
    tolerance_h: promise.tolerance_h,
  });
  const statistics = nightStatistics(winterStatistics(nights, site.latitude_deg));
  return { spot: terms.spot, lamp: terms.lamp, light, year, nights, statistics };
}

/** Ledger and statistics of a run, where nights failed held against the same with no snow on the lid. */
function judged<Year extends YearNights>(
  year: Year,
  lamp: LampParams,
  light: SpotLight,
  terms: TrialTerms,
  brushed: SpotLight | undefined,
) {
  const all = trialOf(year, lamp, light, terms);
  const failed = all.nights.some(({ outcome }) => outcome === 'failed');
  const trial =
    failed && brushed ? blameSnow(all, runNights(lamp, brushed, terms), terms) : { ...all, snow: undefined };
  return { ...trial, statistics: { ...trial.statistics, months: monthStatistics(trial.nights) } };
}

/** The trial with snow named as the cause of nights that failed and are kept under a brushed lid. */
function blameSnow<Ran extends NightTrial>(trial: Ran, brushed: NightTrial, { site }: TrialTerms) {
  const kept = brushed.nights.map(({ outcome }) => outcome !== 'failed');
  const nights = trial.nights.map((row, n): NightRow => {
    return row.outcome === 'failed' && kept[n] ? { ...row, cause: 'snow' } : row;
  });
  const winters = winterStatistics(nights, site.latitude_deg);
  const over = overWinters(winters);
  const snow = {
    failedNights: over.failedNights,
    bySnow: over.winters.reduce((sum, { causes }) => sum + (causes.snow ?? 0), 0),
    brushedFailedNights: overWinters(brushed.statistics.winters).failedNights,
  };
  return { ...trial, nights, statistics: { ...trial.statistics, winters }, snow };
}

/** The nights of a changed lamp; undefined where it cannot be, or conducts straight through to its LED. */
export function soundNights(
  settled: SettledSection,
  light: SpotLight,
  terms: TrialTerms,
): NightTrial | undefined {
  const lamp = soundLamp(settled, terms.start);
  if (lamp === undefined) return undefined;
  try {
    return runNights(lamp, light, terms);
  } catch (problem) {
    if (problem instanceof InputProblem) return undefined;
    throw problem;
  }
}

/** The parameters of a changed lamp; undefined where it cannot be, or cannot run from a start. */
function soundLamp(settled: SettledSection, start: YearStart): LampParams | undefined {
  return unlessReported(
    () => {},
    (refuse) => {
      const lamp = lampParams(settled, refuse);
      if (lamp) checkLamp(lamp, refuse, typeof start === 'string' ? undefined : start.capacitor_V);
      return lamp;
    },
  );
}

function conductsThrough(
  lamp: LampParams,
  light: SpotLight,
  terms: TrialTerms,
  year: YearNights,
): InputProblem {
  const at = new Date(light.start_ms + Math.floor(year.conductsThrough_s / 3600) * HOUR_MS).toISOString();
  return new InputProblem({
    code: 'SCENARIO_CONFLICT',
    field: `lamps.${terms.lamp}.capacitor`,
    got: `a capacitor that reaches the LED's ${lamp.led.forward_V[0]} V on spot ${terms.spot} in the hour of ${at}`,
    expected:
      'a capacitor below the LED, since through a boost it would light the LED straight and burn the day',
    fix: 'name a limiter below that voltage (capacitor.limiter.at_V), fewer cells in series, or LEDs in series',
  });
}

/** A promise of more light than the lamp gives with its capacitor full to the rated voltage. */
function unreachable({ load, capacitor }: LampParams, promise: PromiseSection): string[] {
  const most_lm = mostLight_lm(load, capacitor.rated_V);
  if (most_lm >= promise.least_lumen) return [];
  return [
    `the promise asks for ${significant(promise.least_lumen, 3)} lm, and the most this lamp gives, with its capacitor at the rated voltage, is ${most_lm.toPrecision(2)} lm`,
  ];
}

function flagsOf(lamp: LampParams, light: SpotLight, year: YearResult): string[] {
  const aboveRated_h = compensatedSum(year.columns.aboveRated_s) / 3600;
  const highest_V = max(year.columns.capacitorEnd_V) ?? 0;
  const { lowest_V } = lamp.capacitor;
  const below_V = below(year.columns.capacitorLowest_V, lowest_V);
  const flags = [
    aboveRated_h > 0 &&
      `CAPACITOR ABOVE ITS RATED ${lamp.capacitor.rated_V} V for ${aboveRated_h.toFixed(0)} h, up to ${highest_V.toFixed(2)} V: it ages fast and may leak; add a limiter`,
    below_V.length > 0 &&
      `CAPACITOR BELOW ITS LOWEST ${lowest_V} V in ${below_V.length} h, down to ${min(below_V)!.toFixed(2)} V: that spoils it; take a driver with a higher cut-off, and less standby current`,
    ...colderThanRated(lamp, year.columns.jar_degC),
    // Some minutes of it move nothing that a maker would see.
    year.beyondFormula_s > 3600 &&
      `${lasting(year.beyondFormula_s)} lit with the capacitor so high that the driver's own current limit decides, not the inductor`,
    year.coarseHours > 0 &&
      `in ${year.coarseHours} h the lamp had to be followed more coarsely than in the others, as where a driver stops and restarts all the time: read them as about right`,
    light.cappedHours > 0 &&
      `in ${light.cappedHours} h the weather had more direct sun than a clear sky has; the rest is counted as cloud light`,
    Math.abs(year.periodicityError_V) > 1e-3 &&
      `the capacitor at the year's end still differs from its start by ${(year.periodicityError_V * 1000).toFixed(1)} mV after ${year.passes} rounds`,
    !(year.energyResidual <= ENERGY_CLOSES) && leftOver(light, year),
  ];
  return flags.filter((flag) => flag !== false);
}

/** What a part does below its lowest temperature. */
const IN_FROST = {
  capacitor: 'its electrolyte thickens or freezes, and it may take and give far less than computed',
  driver: 'it may not start',
  led: 'its joints may crack',
} as const;

/** Parts that the jar gets too cold for. */
function colderThanRated(lamp: LampParams, jar_degC: Float64Array): string[] {
  return Object.entries(IN_FROST).flatMap(([part, harm]) => {
    const { lowest_degC } = lamp[part as keyof typeof IN_FROST];
    const below_degC = below(jar_degC, lowest_degC);
    if (below_degC.length === 0) return [];
    return [
      `${part.toUpperCase()} BELOW ITS LOWEST ${lowest_degC} degC in ${below_degC.length} h, down to ${min(below_degC)!.toFixed(1)} degC: ${harm}; take one that is rated for it`,
    ];
  });
}

/** An energy ledger that does not close, with the hour that leaves most. */
function leftOver({ start_ms }: SpotLight, { energyResidual, worstHour, columns }: YearResult): string {
  const at = utcText(start_ms + worstHour * HOUR_MS);
  const left_J = columns.residual_J[worstHour]!;
  if (Number.isNaN(energyResidual))
    return `the energy ledger does not close: of the hour of ${at} no number came; trust nothing of its energy`;
  return `the energy ledger closes to ${(100 * energyResidual).toPrecision(1)} percent only (usually to a tenth of that): read its small rows with care; most is left over in the hour of ${at}, ${left_J.toPrecision(2)} J`;
}

function lasting(seconds: number): string {
  return seconds < 3600 ? `${Math.ceil(seconds / 60)} min` : `${(seconds / 3600).toFixed(1)} h`;
}

/** The values of a column that lie below one; mostly there are none. */
function below(column: Float64Array, least: number): number[] {
  const found: number[] = [];
  for (let hour = 0; hour < column.length; hour++) if (column[hour]! < least) found.push(column[hour]!);
  return found;
}
