import type { EnergyStatistics, MonthStatistics, WinterStatistics } from '../statistics/types.ts';
import type { OutcomeSpread } from '../trial/OutcomeSpread.ts';
import type { RunResult } from '../trial/RunResult.ts';
import type { Trial } from '../trial/Trial.ts';
import type { Program } from './program.ts';
import { rounded } from './rounded.ts';

/**
 * The text of summary.json, schema 1: the answers of a run, without clock or absolute path, keys in a fixed order,
 * results rounded to 9 significant digits; null says 'does not apply'.
 *
 * in: run; program, what made it; files, SHA-256 (hexadecimal) of each file written beside it, by name
 * out: JSON text, two spaces of indent, ending in LF
 */
export function summaryJson(
  run: RunResult,
  program: Program,
  files: Readonly<Record<string, string>>,
): string {
  const { scenario, weather } = run;
  const summary = {
    schema: 1,
    longnight: program.version,
    node_major: program.nodeMajor,
    seed: scenario.seed,
    scenario: { name: scenario.name, sha256: scenario.sha256, resolved: scenario.resolved },
    weather: {
      sha256: weather.sha256,
      first_utc: weather.first_utc,
      hours: weather.hours,
      filled_hours: weather.filled_hours,
      options: weather.options,
    },
    assumptions: run.assumptions,
    cautions: run.cautions,
    trials: run.trials.map(trialSummary),
    files,
  };
  return `${JSON.stringify(summary, null, 2)}\n`;
}

function trialSummary(trial: Trial) {
  const { statistics, year } = trial;
  return {
    spot: trial.spot,
    lamp: trial.lamp,
    verdict: statistics.verdict,
    winters: statistics.winters.map(winterSummary),
    months: statistics.months.map(monthSummary),
    energy_J: energySummary(statistics.energy),
    store: {
      start_V: rounded(year.startStore_V),
      end_V: rounded(year.endStore_V),
      repeated_years: year.passes,
    },
    hours: {
      beam_capped: trial.light.cappedHours,
      beyond_boost_formula: rounded(year.beyondFormula_s / 3600),
    },
    flags: trial.flags,
    remedies: trial.remedies.map((remedy) => ({
      change: remedy.change,
      detail: remedy.detail,
      failure_nights_before: remedy.failureNightsBefore,
      failure_nights: remedy.failureNights,
      dark_before_h: rounded(remedy.darkBefore_h),
      dark_h: rounded(remedy.dark_h),
      cost: remedy.cost ?? null,
    })),
    ...(trial.spread === undefined ? {} : { spread: spreadSummary(trial.spread) }),
  };
}

/** Over what the readings of the lamp leave open; never a probability of winters. */
function spreadSummary(spread: OutcomeSpread) {
  const { lowest, median, highest } = spread.failureNights;
  return {
    draws: spread.draws,
    ran: spread.ran,
    verdict_stands: spread.verdictStands,
    failure_nights: { lowest: rounded(lowest), median: rounded(median), highest: rounded(highest) },
    matters_most: spread.mostly?.key ?? null,
    rank_correlations: spread.parameters.map(({ key, rankCorrelation }) => ({
      parameter: key,
      with_dark_hours: rounded(rankCorrelation),
    })),
  };
}

function winterSummary(winter: WinterStatistics) {
  const { worstNight, longestSpell, darkestFortnight } = winter;
  return {
    winter: winter.winter,
    complete: winter.complete,
    nights: winter.nights,
    failure_nights: winter.failureNights,
    causes: winter.causes,
    promised_h: rounded(winter.promised_h),
    dark_h: rounded(winter.dark_h),
    dark_median_h: rounded(winter.darkMedian_h),
    dark_90_percent_h: rounded(winter.dark90_h),
    worst_night: worstNight
      ? { night: worstNight.night, dark_h: rounded(worstNight.dark_h), cause: worstNight.cause }
      : null,
    longest_spell: longestSpell
      ? { from: longestSpell.from, to: longestSpell.to, nights: longestSpell.nights }
      : null,
    darkest_fortnight: darkestFortnight
      ? {
          from: darkestFortnight.from,
          to: darkestFortnight.to,
          dark_h: rounded(darkestFortnight.dark_h),
          failure_nights: darkestFortnight.failureNights,
          light_on_cell_Wh_m2: rounded(darkestFortnight.lightOnCell_Wh_m2),
          lowest_store_V: rounded(darkestFortnight.lowestStore_V),
        }
      : null,
    light_given_lm_h: rounded(winter.lightGiven_lm_h),
    smallest_reserve_J: rounded(winter.smallestReserve_J),
    smallest_reserve_night: winter.smallestReserveNight,
    recovery_nights: winter.recoveryNights ?? null,
    filled_weather_h: rounded(winter.filledWeather_h),
  };
}

function monthSummary(month: MonthStatistics) {
  return {
    month: month.month,
    nights: month.nights,
    failure_nights: month.failureNights,
    promised_h: rounded(month.promised_h),
    lit_h: rounded(month.lit_h),
    dark_h: rounded(month.dark_h),
    above_half_h: rounded(month.aboveHalf_h),
    above_fifth_h: rounded(month.aboveFifth_h),
    light_on_cell_Wh_m2_day: rounded(month.lightOnCell_Wh_m2_day),
    ghi_Wh_m2_day: rounded(month.ghi_Wh_m2_day),
    store_dusk_V: rounded(month.storeDusk_V),
    store_dawn_V: rounded(month.storeDawn_V),
    store_lowest_V: rounded(month.storeLowest_V),
    light_given_lm_h: rounded(month.lightGiven_lm_h),
  };
}

function energySummary(energy: EnergyStatistics) {
  return {
    light: rounded(energy.light_J),
    conversion_loss: rounded(energy.conversionLoss_J),
    cell_best: rounded(energy.cellBest_J),
    untaken_store_low: rounded(energy.untakenStoreLow_J),
    untaken_store_high: rounded(energy.untakenStoreHigh_J),
    cell: rounded(energy.cell_J),
    diode_loss: rounded(energy.diodeLoss_J),
    resistance_loss: rounded(energy.resistanceLoss_J),
    slow_branch_loss: rounded(energy.slowBranchLoss_J),
    leakage: rounded(energy.leakage_J),
    limiter: rounded(energy.limiter_J),
    standby: rounded(energy.standby_J),
    driver_loss: rounded(energy.driverLoss_J),
    led: rounded(energy.led_J),
    stored_change: rounded(energy.storedChange_J),
    residual: rounded(energy.residual_J),
  };
}
