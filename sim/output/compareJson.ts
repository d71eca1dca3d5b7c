import type { SkyPicture } from '../spot/skyPicture.ts';
import type { SpotLimits } from '../spot/spotLimits.ts';
import type { ComparedSpot, ComparedTrial, Comparison } from '../trial/Comparison.ts';
import type { ChargeClaim, ClaimMonth } from '../trial/chargeClaim.ts';
import { CLAIM, claimSentence } from './claimSentence.ts';
import { limitSentence } from './limitSentence.ts';
import type { Program } from './program.ts';
import { rounded } from './rounded.ts';

/** Angles and shares of a picture need no more significant digits than these. */
const PICTURE_DIGITS = 4;

/**
 * The text of compare.json, schema 1: a comparison without clock or absolute path, keys in a fixed order, null for
 * 'does not apply'; months follow `months`, and `axes` holds the highest values of all, for pictures on one scale.
 *
 * in: comparison; program, what made it
 * out: JSON text, ending in LF; two spaces of indent, the rows of the pictures in one line each
 */
export function compareJson(comparison: Comparison, program: Program): string {
  const { axes, southern } = comparison;
  const value = {
    schema: 1,
    longnight: program.version,
    node_major: program.nodeMajor,
    by: comparison.by,
    same_weather: comparison.sameWeather,
    differences: comparison.differences,
    scenarios: comparison.scenarios.map((scenario) => ({
      name: scenario.name,
      sha256: scenario.sha256,
      seed: scenario.seed,
      latitude_deg: scenario.latitude_deg,
      longitude_deg: scenario.longitude_deg,
      time_zone: scenario.timeZone,
      promise: scenario.promise,
      weather: scenario.weather,
    })),
    months: comparison.months,
    axes: {
      light_Wh_m2_day: rounded(axes.light_Wh_m2_day),
      failed_nights_month: axes.failedNights_month,
      short_h_month: rounded(axes.short_h_month),
      light_given_lm_h_month: rounded(axes.lightGiven_lm_h_month),
    },
    spots: comparison.spots.map((spot) => spotData(spot, comparison)),
    claim: CLAIM,
    trials: comparison.trials.map((trial) => trialData(trial, southern)),
    tables: comparison.tables.map(({ name, trials }) => ({ name, trials })),
    cautions: comparison.cautions,
  };
  return `${inLines(value)}\n`;
}

function spotData(spot: ComparedSpot, { trials, southern }: Comparison) {
  const lamps = trials.filter((trial) => trial.scenario === spot.scenario && trial.spot === spot.spot);
  return {
    scenario: spot.scenario,
    spot: spot.spot,
    limited_by: spot.limitedBy,
    sentence: limitSentence(
      spot,
      lamps.map((trial) => trial.inSpot),
      southern,
    ),
    limits: spot.limits === undefined ? null : limitsData(spot.limits),
    dull_days_light_share: rounded(spot.dullShare),
    months: spot.months.map((month) => ({
      month: month.month,
      days: month.days,
      light_on_cell_Wh_m2_day: rounded(month.lightOnCell_Wh_m2_day),
      beam_Wh_m2_day: rounded(month.beam_Wh_m2_day),
      sky_Wh_m2_day: rounded(month.sky_Wh_m2_day),
      returned_Wh_m2_day: rounded(month.returned_Wh_m2_day),
      ghi_Wh_m2_day: rounded(month.ghi_Wh_m2_day),
      share_of_open: rounded(month.shareOfOpen),
    })),
    has_surroundings: spot.hasSurroundings,
    picture: spot.picture === undefined ? null : pictureData(spot.picture),
  };
}

function limitsData(limits: SpotLimits) {
  return {
    months: limits.months,
    light_share: rounded(limits.lightShare),
    sky_share: rounded(limits.skyShare),
    beam_share: rounded(limits.beamShare),
    sunshine_h: rounded(limits.sunshine_h),
    beam_h: rounded(limits.beam_h),
    reflected_share: rounded(limits.reflectedShare),
    most_lost: limits.mostLost,
  };
}

function pictureData({ grid, outlines, sunPaths, months }: SkyPicture) {
  const short = (value: number) => rounded(value, PICTURE_DIGITS);
  const shares = (rows: readonly number[][]) => rows.map((row) => row.map(short));
  return {
    grid: {
      bearing_deg: grid.bearing_deg,
      elevation_deg: grid.elevation_deg,
      in_leaf: shares(grid.inLeaf),
      bare: grid.bare === undefined ? null : shares(grid.bare),
    },
    outlines: outlines.map(({ name, kind, points }) => ({
      name,
      kind,
      bearing_from_to_deg: points.map(({ bearing_deg, from_deg, to_deg }) => [
        bearing_deg,
        short(from_deg),
        short(to_deg),
      ]),
    })),
    sun_paths: sunPaths.map(({ month, points }) => ({
      month,
      bearing_elevation_passes: points.map(({ bearing_deg, elevation_deg, passes }) => [
        short(bearing_deg),
        short(elevation_deg),
        short(passes),
      ]),
    })),
    months: months.map(({ month, sun_h, beam_h }) => ({ month, sun_h: short(sun_h), beam_h: short(beam_h) })),
  };
}

function trialData(trial: ComparedTrial, southern: boolean) {
  const { longestSpell: spell, darkestFortnight: fortnight, inSpot } = trial;
  return {
    scenario: trial.scenario,
    spot: trial.spot,
    lamp: trial.lamp,
    verdict: trial.verdict,
    winters: trial.winters,
    nights: trial.nights,
    failed_nights: trial.failedNights,
    promised_h: rounded(trial.promised_h),
    short_h: rounded(trial.short_h),
    longest_spell: spell === undefined ? null : { from: spell.from, to: spell.to, nights: spell.nights },
    darkest_fortnight:
      fortnight === undefined
        ? null
        : {
            from: fortnight.from,
            to: fortnight.to,
            short_h: rounded(fortnight.short_h),
            failed_nights: fortnight.failedNights,
            light_on_cell_Wh_m2: rounded(fortnight.lightOnCell_Wh_m2),
          },
    smallest_reserve_J: rounded(trial.smallestReserve_J),
    smallest_reserve_night: trial.smallestReserveNight,
    light_given_lm_h: rounded(trial.lightGiven_lm_h),
    months: trial.months.map((month) => ({
      month: month.month,
      nights: month.nights,
      failed_nights: month.failedNights,
      short_h: rounded(month.short_h),
      light_given_lm_h: rounded(month.lightGiven_lm_h),
    })),
    dim_light: {
      daylight_h: rounded(inSpot.daylight_h),
      reachable_below_cutoff_h: rounded(inSpot.reachableBelowCutoff_h),
      reachable_below_capacitor_h: rounded(inSpot.reachableBelowCapacitor_h),
      unharvested_share: rounded(inSpot.unharvestedDimShare),
      leakage_share: rounded(inSpot.leakageShare),
    },
    claim: claimData(trial.claim, southern),
    flags: trial.flags,
  };
}

function claimData(claim: ChargeClaim, southern: boolean) {
  const evenings = ({ evenings, full, medianShare }: Omit<ClaimMonth, 'month'>) => ({
    evenings,
    full,
    median_share: rounded(medianShare),
  });
  return {
    in_winter: claim.inWinter,
    months_held: claim.monthsHeld,
    months_known: claim.monthsKnown,
    sentence: claimSentence(claim, southern),
    full_V: rounded(claim.full_V),
    full_J: rounded(claim.full_J),
    fill_h: rounded(claim.fill_h),
    winter: evenings(claim.winter),
    year: evenings(claim.year),
    months: claim.months.map((month) => ({ month: month.month, ...evenings(month) })),
  };
}

/** A list of numbers as JSON writes it over several lines; no string holds a line break of its own. */
const LONG_LIST = /\[\n\s+((?:-?[\d.e+-]+|null)(?:,\n\s+(?:-?[\d.e+-]+|null))*)\n\s+\]/g;

/** JSON with two spaces of indent, but lists of numbers in one line. */
function inLines(value: unknown): string {
  return JSON.stringify(value, null, 2).replace(
    LONG_LIST,
    (_, list: string) => `[${list.replace(/\n\s+/g, ' ')}]`,
  );
}
