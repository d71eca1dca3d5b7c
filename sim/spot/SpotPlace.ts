import { cellPassage } from './cover/cellPassage.ts';
import { type PlacedLog, placedLog } from './measured/placedLog.ts';
import type { MeasuredShares } from './measured/sharesFromLog.ts';
import { type PlaneFactors, type PlaneScene, planeFactors } from './planeFactors.ts';
import { heldPart, type SpotFiles } from './SpotFiles.ts';
import { beamSight } from './shade/beamSight.ts';
import {
  OPEN_SURROUNDINGS,
  type SeasonDomes,
  type Surroundings,
  seasonDomes,
  surroundings,
} from './shade/seasonDomes.ts';
import { shadingShares } from './shade/shadingShares.ts';
import type { SkyCalendar } from './sky/SkyCalendar.ts';
import { SKY_MODELS } from './sky/skyModels.ts';
import type { MeasuredLight, SpotParams } from './spotParams.ts';

/** All of a spot that no weather changes, over the hours of a calendar. */
export interface SpotPlace {
  spot: SpotParams;
  calendar: SkyCalendar;
  around: Surroundings;
  domes: SeasonDomes;
  /** Share of the sun-up time of each hour in which the spot sees the sun, 0 to 1. */
  seen: Float64Array;
  /** Of the cell behind its cover and its own front. */
  factors: PlaneFactors;
  /** Share of the light that passes stated shading, by hour. */
  shading: Float64Array;
  /** A log of light at the spot, to be held against the weather. */
  log: PlacedLog | undefined;
  /** What the log gave beside the weather of its own days, where that is known. */
  measured: MeasuredShares | undefined;
}

/** What a spot sees of sun and sky over the hours of a calendar, however a cell lies there. */
export interface SpotScene extends Omit<PlaneScene, 'plane'> {
  around: Surroundings;
}

/**
 * What a spot sees of sun and sky: by far the dearest part of its place, and the same for any tilt, bearing, cover and
 * front of the cell.
 *
 * in: spot; calendar; files, what those say that the spot names
 */
export function spotScene(spot: SpotParams, calendar: SkyCalendar, files: SpotFiles = {}): SpotScene {
  const { site, sun, track } = calendar;
  const around =
    spot.measured?.replaces === 'geometry' ? OPEN_SURROUNDINGS : surroundings(spot, files.horizon);
  const domes = seasonDomes(around, sun.start_ms, sun.count, site);
  return {
    calendar,
    around,
    domes,
    sight: beamSight(sun, track, domes),
    skyModel: SKY_MODELS[spot.skyModel](sun),
    whiteAlbedo: Math.max(spot.snow.ground_albedo, site.albedo),
  };
}

/**
 * Place and obstacles of a spot, made once for any weather over the same hours.
 *
 * in: spot, its light not logged on the cell; calendar; files, what those say that the spot names; measured, what the
 *   log of light named by the spot gave (`SpotLight.measured`), where the calendar does not hold the days of the log;
 *   scene, where it is known
 * out: what `lightInSpot` lays the sky on
 * throws: SPOT_PROFILE, FIT_UNDETERMINED for a trace or a log of other hours
 */
export function spotPlace(
  spot: SpotParams,
  calendar: SkyCalendar,
  files: SpotFiles = {},
  measured?: MeasuredShares,
  scene = spotScene(spot, calendar, files),
): SpotPlace {
  const { around, ...seen } = scene;
  const cell = {
    tilt_deg: spot.cellTilt_deg,
    bearing_deg: spot.cellBearing_deg,
    passage: cellPassage(spot.cover, spot.cellFront),
  };
  return {
    spot,
    calendar,
    around,
    domes: seen.domes,
    seen: seen.sight.seen,
    factors: planeFactors({ ...seen, plane: cell }),
    shading: shadingShares(spot.shading, files.shading, calendar.sun),
    log: spot.measured && measured === undefined ? logOf(spot.measured, files, seen) : undefined,
    measured,
  };
}

function logOf(log: MeasuredLight, files: SpotFiles, scene: Omit<PlaneScene, 'plane'>): PlacedLog {
  const plane = { tilt_deg: log.sensor_tilt_deg, bearing_deg: log.sensorBearing_deg, passage: undefined };
  return placedLog(log, heldPart(files.measured, log), scene.calendar.sun, planeFactors({ ...scene, plane }));
}
