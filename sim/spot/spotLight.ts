import { InputProblem } from '../common/InputProblem.ts';
import type { NightCalendar } from '../sun/NightCalendar.ts';
import type { Site } from '../sun/Site.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { coverCurve } from './cover/coverCurve.ts';
import { type SnowLying, snowLying, throughSnow } from './cover/snowLying.ts';
import { loggedSpotLight } from './loggedSpotLight.ts';
import { type MeasuredShares, sharesFromLog } from './measured/sharesFromLog.ts';
import { planeLightInto } from './planeLight.ts';
import { OPEN_SURROUNDINGS, seasonDomes, surroundings } from './shade/seasonDomes.ts';
import { shadingTrace } from './shade/shadingTrace.ts';
import { type OpenSky, openSky } from './sky/skyColumns.ts';
import type { SpotParams } from './spotParams.ts';

/**
 * The light on a cell in one spot, hour by hour (constant within the hour), beside the sky it came from.
 * A NaN in ghi, dni or dhi says 'does not apply': the light was measured on the cell itself.
 */
export interface SpotLight {
  start_ms: number;
  count: number;
  /** Light that reaches the cell behind its cover, all parts together. */
  planeOfArray_W_m2: Float64Array;
  /** Part of planeOfArray that comes straight from the sun (circumsolar light included). */
  beam_W_m2: Float64Array;
  /** Part of planeOfArray from the sky. */
  sky_W_m2: Float64Array;
  /** Part of planeOfArray returned by ground and obstacles. */
  reflected_W_m2: Float64Array;
  ghi_W_m2: Float64Array;
  dni_W_m2: Float64Array;
  dhi_W_m2: Float64Array;
  air_degC: Float64Array;
  /** Index into WEATHER_MARKS: measured, closed, split, filled, stand-in. */
  mark: Uint8Array;
  /** Altitude of the sun's centre at mid-hour, refracted. */
  sunAltitude_deg: Float64Array;
  /** Same arrays as nights.dusk_ms and nights.dawn_ms. */
  dusk_ms: Float64Array;
  dawn_ms: Float64Array;
  nights: NightCalendar;
  /** Hours whose beam was capped at the clear-sky beam, the excess going to diffuse. */
  cappedHours: number;
  /** Light of a street or porch lamp on the cell, all night; only a lamp that senses the dark cares. */
  nightLight_lux: number;
  /** Hours with snow on the lid and on the ground, where the weather tells of snow. */
  snow?: { from: string; lid_h: number; ground_h: number };
  /** What a log of light at the spot gave, where one was named. */
  measured?: MeasuredShares;
}

/** Gives the bytes of a file that a spot names, under the name the scenario gives it. */
export type ReadFile = (file: string) => Uint8Array;

/**
 * The light on a cell in one spot, in W/m2, hour by hour: sun, sky, and what ground and obstacles return, behind
 * obstacles, cover, dirt, snow and shading; or the light that was logged on the cell.
 *
 * in: weather, not needed where the light was logged; site; spot; readFile, for the files the spot names; open, sun,
 *   nights and sky of the same weather and site where several spots share them
 * out: columns over the hours of the weather, or of the log
 * throws: SCENARIO_MISSING_KEY without weather and log; SPOT_PROFILE, FIT_UNDETERMINED and the codes of files
 * valid: see `planeLightInto`, `snowLying`
 * source: HayDavies1980, Perez1990, LiuJordan1963, DuffieBeckman2020
 */
export function spotLight(
  weather: WeatherRecord | undefined,
  site: Site,
  spot: SpotParams,
  readFile: ReadFile,
  open?: OpenSky,
): SpotLight {
  if (spot.loggedLight !== undefined) {
    const logged = loggedSpotLight(spot.loggedLight, readFile(spot.loggedLight.file), weather, site);
    return { ...logged, nightLight_lux: spot.nightLight_lux };
  }
  if (weather === undefined) {
    throw new InputProblem({
      code: 'SCENARIO_MISSING_KEY',
      field: 'weather',
      got: 'neither weather nor light_on_cell',
      expected: 'hourly weather, or light logged on the cell of every spot',
      fix: 'add weather: { file: ... }.',
    });
  }
  const { start_ms, count } = weather;
  const { sun, sky, nights } = open ?? openSky(weather, site);
  if (sun.start_ms !== start_ms || sun.count !== count) {
    throw new Error('the open sky handed in is that of other hours than the weather');
  }
  const light: SpotLight = {
    start_ms,
    count,
    planeOfArray_W_m2: new Float64Array(count),
    beam_W_m2: new Float64Array(count),
    sky_W_m2: new Float64Array(count),
    reflected_W_m2: new Float64Array(count),
    ghi_W_m2: sky.ghi_W_m2,
    dni_W_m2: sky.dni_W_m2,
    dhi_W_m2: sky.dhi_W_m2,
    air_degC: weather.air_degC,
    mark: sky.mark,
    sunAltitude_deg: sun.altitude_deg,
    dusk_ms: nights.dusk_ms,
    dawn_ms: nights.dawn_ms,
    nights,
    cappedHours: sky.cappedHours,
    nightLight_lux: spot.nightLight_lux,
  };
  const snow = snowLying(weather);
  const { measured } = spot;
  const around = measured?.replaces === 'geometry' ? OPEN_SURROUNDINGS : surroundings(spot, readFile);
  const scene = {
    sun,
    sky,
    domes: seasonDomes(around, start_ms, count, site),
    plane: {
      tilt_deg: spot.cellTilt_deg,
      bearing_deg: spot.cellBearing_deg,
      cover: coverCurve(spot.cover, spot.cellTilt_deg),
    },
    skyModel: spot.skyModel,
    site,
    ...albedoOf(snow, spot, site),
  };
  planeLightInto(light, scene, 0, count);
  if (measured !== undefined) {
    const shares = sharesFromLog({ name: measured.file, bytes: readFile(measured.file) }, measured, scene);
    scale(light.beam_W_m2, () => shares.beam);
    scale(light.sky_W_m2, () => shares.diffuse);
    scale(light.reflected_W_m2, () => shares.diffuse);
    light.measured = shares;
  }
  const passing = passingShares(light, spot, snow, readFile);
  for (const column of [light.beam_W_m2, light.sky_W_m2, light.reflected_W_m2]) {
    if (passing !== undefined) scale(column, (i) => passing[i]!);
  }
  for (let i = 0; i < count; i++) {
    light.planeOfArray_W_m2[i] = light.beam_W_m2[i]! + light.sky_W_m2[i]! + light.reflected_W_m2[i]!;
  }
  if (snow !== undefined) {
    const lid = lidIsClear(spot) ? 0 : snow.lid_mm.filter((lying_mm) => lying_mm > LEAST_SNOW_MM).length;
    light.snow = { from: snow.from, lid_h: lid, ground_h: snow.ground.filter((white) => white === 1).length };
  }
  return light;
}

/** Below this snow on a lid takes less than a hundredth of the light. */
const LEAST_SNOW_MM = 0.02;
/** From this tilt snow slides off a lid. */
const SLIDES_DEG = 45;

function scale(column: Float64Array, share: (i: number) => number): void {
  for (let i = 0; i < column.length; i++) column[i]! *= share(i);
}

function albedoOf(snow: SnowLying | undefined, spot: SpotParams, site: Site): { albedo?: Float64Array } {
  if (snow === undefined) return {};
  const white = Math.max(spot.snow.groundAlbedo, site.albedo);
  return { albedo: Float64Array.from(snow.ground, (lies) => (lies === 1 ? white : site.albedo)) };
}

function lidIsClear(spot: SpotParams): boolean {
  const { cover, snow, cellTilt_deg } = spot;
  return !snow.onLid || cellTilt_deg >= SLIDES_DEG || (cover !== 'none' && cover.kind === 'side-lit');
}

/** Share of all light that passes dirt, snow and shading, by hour; undefined where all of it does. */
function passingShares(
  light: SpotLight,
  spot: SpotParams,
  snow: SnowLying | undefined,
  readFile: ReadFile,
): Float64Array | undefined {
  const { shading, dirtLoss } = spot;
  const snowy = snow !== undefined && !lidIsClear(spot);
  if (shading === undefined && dirtLoss === 0 && !snowy) return undefined;
  const shares =
    shading === undefined
      ? new Float64Array(light.count).fill(1)
      : 'factor' in shading
        ? new Float64Array(light.count).fill(shading.factor)
        : shadingTrace({ name: shading.file, bytes: readFile(shading.file) }, shading, light);
  for (let i = 0; i < light.count; i++) {
    shares[i]! *= (1 - dirtLoss) * (snowy ? throughSnow(snow.lid_mm[i]!) : 1);
  }
  return shares;
}
