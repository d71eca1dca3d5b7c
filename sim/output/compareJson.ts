import type { SkyPicture } from '../spot/skyPicture.ts';
import type { ComparedSpot, ComparedTrial, Comparison } from '../trial/Comparison.ts';
import type { ScenarioOdds } from '../trial/OddsJobs.ts';
import { jsonText, published } from './json.ts';
import { CLAIM, claimSentence, limitSentence } from './limitSentence.ts';
import type { Program } from './program.ts';

/** Angles and shares of a picture need no more significant digits than these. */
const PICTURE_DIGITS = 4;

/**
 * The text of compare.json, schema 1: a comparison without clock or absolute path, keys in a fixed order; months follow
 * `months`, and `axes` holds the highest values of all, for pictures on one scale.
 *
 * in: comparison; program, what made it; odds, of its scenarios in their order, where they were asked for
 * out: JSON text, ending in LF
 */
export function compareJson(
  comparison: Comparison,
  program: Program,
  odds: readonly ScenarioOdds[] = [],
): string {
  const { by, sameWeather, differences, months, axes, cautions } = comparison;
  return jsonText(program, {
    by,
    same_weather: sameWeather,
    differences,
    scenarios: comparison.scenarios.map(({ file, timeZone, promise, weather, ...facts }) => ({
      ...facts,
      time_zone: timeZone,
      promise,
      weather,
    })),
    months,
    axes: published(axes),
    spots: comparison.spots.map((spot) => spotData(spot, comparison)),
    claim: CLAIM,
    trials: comparison.trials.map((trial) => trialData(trial, comparison.southern)),
    tables: published(comparison.tables),
    ...(odds.length === 0 ? {} : { odds: published(odds, 6) }),
    cautions,
  });
}

function spotData(spot: ComparedSpot, comparison: Comparison) {
  return {
    scenario: spot.scenario,
    spot: spot.spot,
    limited_by: spot.limitedBy,
    sentence: limitSentence(spot, comparison),
    limits: published(spot.limits),
    dull_days_light_share: published(spot.dullShare),
    months: published(spot.months),
    has_surroundings: spot.hasSurroundings,
    picture: published(spot.picture && pictureData(spot.picture), PICTURE_DIGITS),
  };
}

/** A picture with its points as short lists. */
function pictureData({ grid, outlines, sunPaths, months }: SkyPicture) {
  return {
    grid,
    outlines: outlines.map(({ name, kind, points }) => ({
      name,
      kind,
      bearing_from_to_deg: points.map(({ bearing_deg, from_deg, to_deg }) => [bearing_deg, from_deg, to_deg]),
    })),
    sunPaths: sunPaths.map(({ month, points }) => ({
      month,
      bearingElevationPasses: points.map(({ bearing_deg, elevation_deg, passes }) => [
        bearing_deg,
        elevation_deg,
        passes,
      ]),
    })),
    months,
  };
}

function trialData({ inSpot, claim, ...trial }: ComparedTrial, southern: boolean) {
  return published({
    ...trial,
    dimLight: inSpot,
    claim: { ...claim, sentence: claimSentence(claim, southern) },
  });
}
