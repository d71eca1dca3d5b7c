import { compensatedSum } from '../common/numeric.ts';
import { capacitorEnergy_J } from '../lamp/capacitor/step.ts';
import type { LampParams } from '../lamp/params.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { darkestHours } from '../spot/spotLimits.ts';
import { monthStatistics } from '../statistics/monthStatistics.ts';
import { overWinters } from '../statistics/overWinters.ts';
import type { MonthStatistics } from '../statistics/TrialStatistics.ts';
import type { ComparedMonth, ComparedTrial, LampInSpot } from './Comparison.ts';
import { type ChargeClaim, chargeClaim, FULLY_CHARGED } from './chargeClaim.ts';
import { lampMoney } from './lampMoney.ts';
import type { HourlyTrial } from './Trial.ts';

/**
 * A trial as it is held against others: its whole winters together (its part winters where none is whole), its months,
 * and what dim light, leakage and the claim of full charge come to.
 *
 * in: trial; scenario it is of; months, calendar months in the order wanted
 */
export function compareTrial(
  trial: HourlyTrial,
  scenario: Scenario,
  months: readonly number[],
): ComparedTrial {
  const lamp = scenario.lamps.find(({ name }) => name === trial.lamp)?.params;
  if (lamp === undefined) throw new Error(`the run of ${scenario.name} has no lamp ${trial.lamp}`);
  const southern = scenario.site.latitude_deg < 0;
  const { verdict, winters, odds } = trial.statistics;
  const { winters: counted, whole, worst, ...over } = overWinters(winters);
  const names = new Set(counted.map((winter) => winter.winter));
  const ofWinters = monthStatistics(trial.nights.filter((night) => names.has(night.winter)));
  const claim = chargeClaim(lamp, trial.nights, southern);
  return {
    scenario: scenario.name,
    spot: trial.spot,
    lamp: trial.lamp,
    verdict,
    winters: whole,
    ...(odds === undefined ? {} : { odds }),
    ...over,
    lightGiven_lm_h: over.lightGiven_lm_h / counted.length,
    months: months.map((month) => comparedMonth(ofWinters, month)),
    inSpot: lampInSpot(trial, lamp, claim, southern),
    claim,
    money: lampMoney(scenario, trial),
    flags: trial.flags,
  };
}

function comparedMonth(all: readonly MonthStatistics[], month: number): ComparedMonth {
  const same = all.filter((each) => Number(each.month.slice(5, 7)) === month);
  const sum = (of: (each: MonthStatistics) => number) => compensatedSum(same.map(of));
  return {
    month,
    nights: sum((each) => each.nights),
    failedNights: sum((each) => each.failedNights),
    short_h: sum((each) => each.short_h),
    lightGiven_lm_h: sum((each) => each.lightGiven_lm_h),
  };
}

const LEAST_LIGHT_W_M2 = 1;

/**
 * How far dim light and leakage limit a lamp in December and January (June and July south of the equator).
 *
 * in: trial; lamp, its parameters; claim, for when its capacitor is fully charged; southern
 * out: hours and shares; NaN where the record has no such month or no light in it
 */
function lampInSpot(trial: HourlyTrial, lamp: LampParams, claim: ChargeClaim, southern: boolean): LampInSpot {
  const { light, year } = trial;
  const { columns } = year;
  const { capacitor, driver } = lamp;
  const hours = darkestHours(light, southern);
  const atCutoff_J = capacitorEnergy_J(capacitor, driver.cutoff_V);
  const isShort = (volts: number) =>
    capacitorEnergy_J(capacitor, volts) - atCutoff_J < FULLY_CHARGED * claim.full_J;
  const short = (i: number) => isShort(columns.capacitorEnd_V[i]!);
  const dim = (i: number) => isShort(columns.reachable_V[i]!) && short(i);
  const lit = hours.filter((i) => light.planeOfArray_W_m2[i]! >= LEAST_LIGHT_W_M2);
  const sum = (column: Float64Array, over: readonly number[]) => compensatedSum(over.map((i) => column[i]!));
  const countLit = (holds: (i: number) => boolean) =>
    hours.length === 0 ? Number.NaN : lit.filter(holds).length;
  return {
    daylight_h: countLit(() => true),
    reachableBelowCutoff_h: countLit((i) => columns.reachable_V[i]! < driver.cutoff_V),
    reachableBelowCapacitor_h: countLit(
      (i) => columns.reachable_V[i]! < columns.capacitorLowest_V[i]! && short(i),
    ),
    unharvestedShare: sum(columns.unharvestedHigh_J, hours.filter(dim)) / sum(columns.cellBest_J, hours),
    leakageShare: sum(columns.leakage_J, hours) / sum(columns.cell_J, hours),
  };
}
