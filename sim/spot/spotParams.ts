import type { Report } from '../common/InputProblem.ts';
import type { HourlyMapping } from '../weather/examineHourlyCsv.ts';
import { type CoverParams, coverParams } from './cover/coverParams.ts';
import type { MeasuredLight } from './measured/sharesFromLog.ts';
import { type SpotSection, USUAL_SNOW } from './schema.ts';
import { type Obstacle, obstacleOf } from './shade/Obstacle.ts';
import { bearingOf } from './shade/schema.ts';

type Stamp = HourlyMapping['stamp'];

/** Light that was logged on the cell. */
export interface LoggedLight {
  file: string;
  stamp: Stamp;
  column: string;
  unit: string;
  /** Column of the same file, or one value for all hours; absent: the weather's. */
  air: { column: string; unit: string } | { constant_degC: number } | undefined;
  missing: readonly string[];
}

/** Share of the light that passes, besides the horizon. */
export type Shading = { factor: number } | { file: string; stamp: Stamp; column: string; unit: string };

/** A spot as the chain of light takes it. */
export interface SpotParams {
  cellTilt_deg: number;
  cellBearing_deg: number;
  /** Above the ground. */
  cellHeight_m: number;
  cover: CoverParams | 'none';
  /** Share of the light that dirt takes. */
  dirtLoss: number;
  obstacles: readonly Obstacle[];
  snow: { onLid: boolean; groundAlbedo: number };
  measured: MeasuredLight | undefined;
  /** Reflectance undefined: the site's albedo. */
  horizon: { file: string; reflectance: number | undefined } | undefined;
  shading: Shading | undefined;
  skyModel: SpotSection['sky_model'];
  loggedLight: LoggedLight | undefined;
  /** A constant light on the cell by night. */
  nightLight_lux: number;
}

/**
 * A spot's parameters from one entry of the scenario's `spots`.
 *
 * in: section, as the schema gives it; report, takes what cannot be, with the key path below the spot
 * out: the spot, or undefined after a problem
 */
export function spotParams(section: SpotSection, report: Report): SpotParams | undefined {
  let complete = true;
  const note: Report = (problem) => {
    complete = false;
    report(problem);
  };
  const cover = coverParams(section.cover, (problem) =>
    note({ ...problem, path: ['cover', ...problem.path] }),
  );
  if (section.cell_tilt_deg > 0 && section.cell_bearing_deg === undefined && !section.light_on_cell) {
    note({
      code: 'SCENARIO_MISSING_KEY',
      path: ['cell_bearing_deg'],
      got: `a cell tilted ${section.cell_tilt_deg} deg without a bearing`,
      expected: 'the bearing it faces, 0 to 360 deg clockwise from north',
      fix: 'add cell_bearing_deg: 180 for a cell that faces south',
    });
  }
  const cellHeight_m = section.cell_height_m ?? CELL_HEIGHT_M;
  const snow = section.snow ?? USUAL_SNOW;
  const spot: SpotParams = {
    cellTilt_deg: section.cell_tilt_deg,
    cellBearing_deg: bearingOf(section.cell_bearing_deg ?? 0),
    cellHeight_m,
    cover: cover ?? 'none',
    dirtLoss: section.cover.dirt_loss,
    obstacles: Object.entries(section.obstacles ?? {}).flatMap(([name, obstacle]) => {
      const made = obstacleOf(name, obstacle, cellHeight_m, (problem) =>
        note({ ...problem, path: ['obstacles', name, ...problem.path] }),
      );
      return made === undefined ? [] : [made];
    }),
    snow: { onLid: snow.on_lid, groundAlbedo: snow.ground_albedo },
    measured: measuredOf(section, note),
    horizon: section.horizon && {
      file: section.horizon.file,
      reflectance: section.horizon.reflectance,
    },
    shading: shadingOf(section, note),
    skyModel: section.sky_model,
    loggedLight: loggedLightOf(section, note),
    nightLight_lux: section.night_light_lux,
  };
  return complete ? spot : undefined;
}

/** Where the cell lies on a jar that stands on the ground. */
const CELL_HEIGHT_M = 0.15;

function measuredOf(section: SpotSection, report: Report): MeasuredLight | undefined {
  const log = section.measured_light;
  if (log === undefined) return undefined;
  if (log.sensor_tilt_deg > 0 && log.sensor_bearing_deg === undefined) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: ['measured_light', 'sensor_bearing_deg'],
      got: `a sensor tilted ${log.sensor_tilt_deg} deg without a bearing`,
      expected: 'the bearing it faced, 0 to 360 deg clockwise from north, or a compass point',
      fix: 'add sensor_bearing_deg: 180 for a sensor that faced south',
    });
  }
  for (const key of ['horizon', 'obstacles'] as const) {
    if (log.replaces !== 'geometry' || section[key] === undefined) continue;
    report({
      code: 'SCENARIO_CONFLICT',
      path: [key],
      got: `${key} beside a measured_light that replaces the geometry`,
      expected: 'one of them',
      fix: `remove ${key}, or say replaces: factor to let the log correct what ${key} gives`,
    });
  }
  return {
    file: log.file,
    stamp: log.stamp,
    column: log.column,
    unit: log.unit,
    lumenPerWatt: log.lumen_per_W,
    sensorTilt_deg: log.sensor_tilt_deg,
    sensorBearing_deg: bearingOf(log.sensor_bearing_deg ?? 0),
    replaces: log.replaces,
    missing: log.missing,
  };
}

function shadingOf(section: SpotSection, report: Report): Shading | undefined {
  const shading = section.shading;
  if (shading === undefined) return undefined;
  const { factor, file, stamp, column, unit } = shading;
  if (factor !== undefined && file !== undefined) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['shading'],
      got: 'both a factor and a file',
      expected: 'one of them',
      fix: 'remove factor, or file with its stamp and column',
    });
    return undefined;
  }
  if (factor !== undefined) return { factor };
  if (file !== undefined && stamp !== undefined && column !== undefined) {
    return { file, stamp, column, unit };
  }
  for (const [key, value] of Object.entries({ file, stamp, column })) {
    if (value !== undefined) continue;
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: ['shading', key],
      got: 'nothing',
      expected: 'file, stamp and column of a trace, or a fixed factor',
      fix: `add ${key}, or factor: 0.5`,
    });
  }
  return undefined;
}

function loggedLightOf(section: SpotSection, report: Report): LoggedLight | undefined {
  const logged = section.light_on_cell;
  if (logged === undefined) return undefined;
  for (const key of ['horizon', 'obstacles', 'shading', 'measured_light'] as const) {
    if (section[key] === undefined) continue;
    report({
      code: 'SCENARIO_CONFLICT',
      path: [key],
      got: `${key} beside light_on_cell`,
      expected: 'light_on_cell alone: what was logged on the cell already holds all shade',
      fix: `remove ${key}, or light_on_cell`,
    });
  }
  const air = logged.air_temperature;
  if (air?.column !== undefined && air.constant_degC !== undefined) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['light_on_cell', 'air_temperature'],
      got: 'a column and a constant_degC',
      expected: 'one of the two',
      fix: 'remove constant_degC where the file has temperatures',
    });
  }
  return {
    file: logged.file,
    stamp: logged.stamp,
    column: logged.column,
    unit: logged.unit,
    air:
      air?.column !== undefined
        ? { column: air.column, unit: air.unit }
        : air?.constant_degC !== undefined
          ? { constant_degC: air.constant_degC }
          : undefined,
    missing: logged.missing,
  };
}

/**
 * The same cell under the same cover with nothing around it, no dirt and no shade: what a spot is held against.
 *
 * in: spot
 * out: a spot in the open
 */
export function openSpot(spot: SpotParams): SpotParams {
  return {
    ...spot,
    obstacles: [],
    horizon: undefined,
    shading: undefined,
    measured: undefined,
    loggedLight: undefined,
    dirtLoss: 0,
  };
}
