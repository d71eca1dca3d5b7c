import { type Report, reportBelow, unlessReported } from '../common/InputProblem.ts';
import type { CellFront } from './cover/cellFront.ts';
import { type CoverParams, coverParams } from './cover/coverParams.ts';
import { USUAL_SNOW } from './cover/snowLying.ts';
import type { SpotSection } from './schema.ts';
import { bearingOf } from './shade/bearing.ts';
import { type Obstacle, obstacleOf } from './shade/Obstacle.ts';

/** Light that was logged on the cell. */
export type LoggedLight = NonNullable<SpotSection['light_on_cell']>;

/** A log of light at the spot, beside the weather of the same days. */
export type MeasuredLight = NonNullable<SpotSection['measured_light']> & { sensorBearing_deg: number };

/** Share of the light that passes, besides the horizon. */
export type Shading =
  | { factor: number }
  | (Pick<LoggedLight, 'file' | 'stamp' | 'column'> & Pick<NonNullable<SpotSection['shading']>, 'unit'>);

/** Gives the bytes of a file that a spot names, under the name the scenario gives it. */
export type ReadFile = (file: string) => Uint8Array;

/** A spot as the chain of light takes it. */
export interface SpotParams {
  cellTilt_deg: number;
  cellBearing_deg: number;
  /** Above the ground. */
  cellHeight_m: number;
  cover: CoverParams | 'none';
  cellFront: CellFront;
  /** Share of the light that dirt takes. */
  dirtLoss: number;
  obstacles: readonly Obstacle[];
  snow: NonNullable<SpotSection['snow']>;
  measured: MeasuredLight | undefined;
  horizon: SpotSection['horizon'];
  shading: Shading | undefined;
  skyModel: SpotSection['sky_model'];
  loggedLight: LoggedLight | undefined;
  /** A constant light on the cell by night. */
  nightLight_lux: number;
  /** Degrees by which all that stands around is tried higher, or lower, than it is stated. */
  skylineOff_deg?: number;
}

/** Where the cell lies on a jar that stands on the ground. */
const CELL_HEIGHT_M = 0.15;

/**
 * A spot's parameters from one entry of the scenario's `spots`.
 *
 * in: section, as the schema gives it; report, takes what cannot be, with the key path below the spot
 * out: the spot, or undefined after a problem
 */
export function spotParams(section: SpotSection, report: Report): SpotParams | undefined {
  return unlessReported(report, (note) => checkedSpot(section, note));
}

function checkedSpot(section: SpotSection, note: Report): SpotParams {
  const cover = coverParams(section.cover, reportBelow(note, 'cover'));
  if (section.cell_bearing_deg === undefined && !section.light_on_cell) {
    checkFacing('cell', section.cell_tilt_deg, note);
  }
  if (cover !== undefined && cover !== 'none' && cover.kind === 'resin' && section.cell_front !== 'flat') {
    note({
      code: 'SCENARIO_CONFLICT',
      path: ['cell_front'],
      got: `a ${section.cell_front} front below resin`,
      expected: 'one of them: resin has no air below it and is the front of the cell',
      fix: 'remove cell_front, or name another cover',
    });
  }
  const cellHeight_m = section.cell_height_m ?? CELL_HEIGHT_M;
  return {
    cellTilt_deg: section.cell_tilt_deg,
    cellBearing_deg: bearingOf(section.cell_bearing_deg ?? 0),
    cellHeight_m,
    cover: cover ?? 'none',
    cellFront: section.cell_front,
    dirtLoss: section.cover.dirt_loss,
    obstacles: Object.entries(section.obstacles ?? {}).flatMap(([name, obstacle]) => {
      const made = obstacleOf(name, obstacle, cellHeight_m, reportBelow(note, 'obstacles', name));
      return made === undefined ? [] : [made];
    }),
    snow: section.snow ?? USUAL_SNOW,
    measured: measuredOf(section, note),
    horizon: section.horizon,
    shading: shadingOf(section.shading, note),
    skyModel: section.sky_model,
    loggedLight: loggedLightOf(section, note),
    nightLight_lux: section.night_light_lux,
  };
}

/** Refuses something tilted of which no bearing is given. */
function checkFacing(what: 'cell' | 'sensor', tilt_deg: number, report: Report): void {
  if (tilt_deg === 0) return;
  report({
    code: 'SCENARIO_MISSING_KEY',
    path: [`${what}_bearing_deg`],
    got: `a ${what} tilted ${tilt_deg} deg without a bearing`,
    expected: 'the bearing it faces, 0 to 360 deg clockwise from north',
    fix: `add ${what}_bearing_deg: 180 for a ${what} that faces south`,
  });
}

function measuredOf(section: SpotSection, report: Report): MeasuredLight | undefined {
  const log = section.measured_light;
  if (log === undefined) return undefined;
  if (log.sensor_bearing_deg === undefined) {
    checkFacing('sensor', log.sensor_tilt_deg, reportBelow(report, 'measured_light'));
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
  return { ...log, sensorBearing_deg: bearingOf(log.sensor_bearing_deg ?? 0) };
}

function shadingOf(shading: SpotSection['shading'], report: Report): Shading | undefined {
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
  if (file !== undefined && stamp !== undefined && column !== undefined) return { file, stamp, column, unit };
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
  return logged;
}

/**
 * The same cell, nothing over it and nothing lost at its front: all the light an unshaded cell could take.
 *
 * in: spot
 * out: a spot as `openSpot` gives it, without cover and front
 */
export function bareSpot(spot: SpotParams): SpotParams {
  return { ...openSpot(spot), cover: 'none', cellFront: 'none' };
}

/** The same spot with snow brushed off the lid. */
export function brushedSpot(spot: SpotParams): SpotParams {
  return { ...spot, snow: { ...spot.snow, on_lid: false } };
}

/**
 * The same cell under the same cover with nothing around it, no dirt and no shade: what a spot is held against.
 *
 * in: spot
 * out: an unshaded spot
 */
export function openSpot(spot: SpotParams): SpotParams {
  const nothing = { horizon: undefined, shading: undefined, measured: undefined, loggedLight: undefined };
  return { ...spot, ...nothing, obstacles: [], dirtLoss: 0 };
}
