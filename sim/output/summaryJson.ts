import type { EnergyStatistics, MonthStatistics, WinterStatistics } from '../statistics/TrialStatistics.ts';
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
    capacitor: {
      start_V: rounded(year.startCapacitor_V),
      end_V: rounded(year.endCapacitor_V),
      repeated_years: year.passes,
    },
    hours: {
      beam_capped: trial.light.cappedHours,
      beyond_boost_formula: rounded(year.beyondFormula_s / 3600),
    },
    flags: trial.flags,
    changes: trial.changes.map((change) => ({
      change: change.change,
      detail: change.detail,
      failed_nights_before: change.failedNightsBefore,
      failed_nights: change.failedNights,
      short_before_h: rounded(change.shortBefore_h),
      short_h: rounded(change.short_h),
      cost: change.cost ?? null,
    })),
    ...(trial.spread === undefined ? {} : { spread: spreadSummary(trial.spread) }),
  };
}

/** Over what the readings of the lamp leave open; never a probability of winters. */
function spreadSummary(spread: OutcomeSpread) {
  const { lowest, median, highest } = spread.failedNights;
  return {
    draws: spread.draws,
    ran: spread.ran,
    verdict_stands: spread.verdictStands,
    failed_nights: { lowest: rounded(lowest), median: rounded(median), highest: rounded(highest) },
    matters_most: spread.mostly?.key ?? null,
    rank_correlations: spread.parameters.map(({ key, rankCorrelation }) => ({
      parameter: key,
      with_short_hours: rounded(rankCorrelation),
    })),
  };
}

function winterSummary(winter: WinterStatistics) {
  const { worstNight, longestSpell, darkestFortnight } = winter;
  return {
    winter: winter.winter,
    complete: winter.complete,
    nights: winter.nights,
    failed_nights: winter.failedNights,
    causes: winter.causes,
    promised_h: rounded(winter.promised_h),
    short_h: rounded(winter.short_h),
    short_median_h: rounded(winter.shortMedian_h),
    short_90_percent_h: rounded(winter.short_90_percent_h),
    worst_night: worstNight
      ? { night: worstNight.night, short_h: rounded(worstNight.short_h), cause: worstNight.cause }
      : null,
    longest_spell: longestSpell
      ? { from: longestSpell.from, to: longestSpell.to, nights: longestSpell.nights }
      : null,
    darkest_fortnight: darkestFortnight
      ? {
          from: darkestFortnight.from,
          to: darkestFortnight.to,
          short_h: rounded(darkestFortnight.short_h),
          failed_nights: darkestFortnight.failedNights,
          light_on_cell_Wh_m2: rounded(darkestFortnight.lightOnCell_Wh_m2),
          lowest_capacitor_V: rounded(darkestFortnight.lowestCapacitor_V),
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
    failed_nights: month.failedNights,
    promised_h: rounded(month.promised_h),
    lit_h: rounded(month.lit_h),
    short_h: rounded(month.short_h),
    above_half_h: rounded(month.aboveHalf_h),
    above_fifth_h: rounded(month.aboveFifth_h),
    light_on_cell_Wh_m2_day: rounded(month.lightOnCell_Wh_m2_day),
    ghi_Wh_m2_day: rounded(month.ghi_Wh_m2_day),
    capacitor_dusk_V: rounded(month.capacitorDusk_V),
    capacitor_dawn_V: rounded(month.capacitorDawn_V),
    capacitor_lowest_V: rounded(month.capacitorLowest_V),
    light_given_lm_h: rounded(month.lightGiven_lm_h),
  };
}

function energySummary(energy: EnergyStatistics) {
  return {
    light: rounded(energy.light_J),
    conversion_loss: rounded(energy.conversionLoss_J),
    cell_best: rounded(energy.cellBest_J),
    unharvested_capacitor_low: rounded(energy.unharvestedCapacitorLow_J),
    unharvested_capacitor_high: rounded(energy.unharvestedCapacitorHigh_J),
    cell: rounded(energy.cell_J),
    diode_loss: rounded(energy.diodeLoss_J),
    resistance_loss: rounded(energy.resistanceLoss_J),
    delayed_branch_loss: rounded(energy.delayedBranchLoss_J),
    leakage: rounded(energy.leakage_J),
    limiter: rounded(energy.limiter_J),
    standby: rounded(energy.standby_J),
    driver_loss: rounded(energy.driverLoss_J),
    led: rounded(energy.led_J),
    stored_change: rounded(energy.storedChange_J),
    residual: rounded(energy.residual_J),
  };
}
