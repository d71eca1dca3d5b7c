import { InputProblem } from '../common/InputProblem.ts';
import { type NightCalendar, nightCalendar } from '../sun/NightCalendar.ts';
import type { Site } from '../sun/Site.ts';
import { sunColumns } from '../sun/sunColumns.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../weather/WeatherRecord.ts';
import { coverCurve } from './cover/coverCurve.ts';
import { type SnowLying, snowLying } from './cover/snowLying.ts';
import { readLoggedLight } from './measured/readLoggedLight.ts';
import { type MeasuredShares, sharesFromLog } from './measured/sharesFromLog.ts';
import { type PlaneLight, type PlaneScene, planeLightInto } from './planeLight.ts';
import { lidIsClear, passingShares } from './shade/passingShares.ts';
import { OPEN_SURROUNDINGS, seasonDomes, surroundings } from './shade/seasonDomes.ts';
import { type OpenSky, openSky, type SkyColumns } from './sky/skyColumns.ts';
import type { LoggedLight, ReadFile, SpotParams } from './spotParams.ts';

/**
 * The light on a cell in one spot, hour by hour (constant within the hour), beside the sky it came from.
 * A NaN in ghi, dni or dhi says 'does not apply': the light was measured on the cell itself.
 */
export interface SpotLight extends PlaneLight, SkyColumns {
  start_ms: number;
  count: number;
  /** Light that reaches the cell behind its cover, all parts together. */
  planeOfArray_W_m2: Float64Array;
  air_degC: Float64Array;
  /** Altitude of the sun's centre at mid-hour, refracted. */
  sunAltitude_deg: Float64Array;
  /** Same arrays as nights.dusk_ms and nights.dawn_ms. */
  dusk_ms: Float64Array;
  dawn_ms: Float64Array;
  nights: NightCalendar;
  /** Light of a street or porch lamp on the cell, all night; only a lamp that senses the dark cares. */
  nightLight_lux: number;
  /** Hours with snow on the lid and on the ground, where the weather tells of snow. */
  snow?: { from: string; lid_h: number; ground_h: number } | undefined;
  /** What a log of light at the spot gave, where one was named. */
  measured?: MeasuredShares | undefined;
}

/**
 * The light on a cell in one spot, in W/m2, hour by hour: sun, sky, and what ground and obstacles reflect, behind
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
    return loggedLight(spot.loggedLight, readFile(spot.loggedLight.file), weather, site, spot);
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
  const snow = snowLying(weather);
  const place = placeOf(spot, { start_ms, count }, site, readFile);
  const scene: PlaneScene = { ...place, sun, sky, albedo: albedoOf(snow, spot, site) };
  const column = () => new Float64Array(count);
  const parts = { beam_W_m2: column(), sky_W_m2: column(), reflected_W_m2: column() };
  planeLightInto(parts, scene, 0, count);
  const { measured: log } = spot;
  const measured = log && sharesFromLog({ name: log.file, bytes: readFile(log.file) }, log, scene);
  if (measured !== undefined) {
    scale(parts.beam_W_m2, () => measured.beam);
    scale(parts.sky_W_m2, () => measured.diffuse);
    scale(parts.reflected_W_m2, () => measured.diffuse);
  }
  const passing = passingShares(spot, snow, weather, readFile);
  if (passing !== undefined) for (const part of Object.values(parts)) scale(part, (i) => passing[i]!);
  return {
    ...hoursOf(weather, nights, spot),
    ...parts,
    planeOfArray_W_m2: parts.beam_W_m2.map((beam, i) => beam + parts.sky_W_m2[i]! + parts.reflected_W_m2[i]!),
    ...sky,
    air_degC: weather.air_degC,
    sunAltitude_deg: sun.altitude_deg,
    snow: snow && snowHours(snow, spot),
    measured,
  };
}

/** What depends on place and surroundings alone: the domes over the spot, and how the cell lies under its cover. */
function placeOf(
  spot: SpotParams,
  { start_ms, count }: { start_ms: number; count: number },
  site: Site,
  readFile: ReadFile,
): Pick<PlaneScene, 'domes' | 'plane' | 'skyModel' | 'site'> {
  const around = spot.measured?.replaces === 'geometry' ? OPEN_SURROUNDINGS : surroundings(spot, readFile);
  return {
    domes: seasonDomes(around, start_ms, count, site),
    plane: {
      tilt_deg: spot.cellTilt_deg,
      bearing_deg: spot.cellBearing_deg,
      cover: coverCurve(spot.cover, spot.cellTilt_deg),
    },
    skyModel: spot.skyModel,
    site,
  };
}

/** Sun and sky are by-passed, all of the light stands under `sky`; dusk, dawn and the sun come from the site. */
function loggedLight(
  logged: LoggedLight,
  bytes: Uint8Array,
  weather: WeatherRecord | undefined,
  site: Site,
  spot: SpotParams,
): SpotLight {
  const { planeOfArray_W_m2, air_degC, airStandsIn, ...hours } = readLoggedLight(logged, bytes, weather);
  const { start_ms, count } = hours;
  const notKnown = () => new Float64Array(count).fill(Number.NaN);
  return {
    ...hoursOf(hours, nightCalendar(start_ms, count, site), spot),
    planeOfArray_W_m2,
    beam_W_m2: new Float64Array(count),
    sky_W_m2: planeOfArray_W_m2.slice(),
    reflected_W_m2: new Float64Array(count),
    ghi_W_m2: notKnown(),
    dni_W_m2: notKnown(),
    dhi_W_m2: notKnown(),
    air_degC,
    mark: new Uint8Array(count).fill(WEATHER_MARKS.indexOf(airStandsIn ? 'stand-in' : 'measured')),
    sunAltitude_deg: sunColumns(start_ms, count, site).altitude_deg,
    cappedHours: 0,
  };
}

function hoursOf(
  { start_ms, count }: { start_ms: number; count: number },
  nights: NightCalendar,
  { nightLight_lux }: SpotParams,
) {
  return { start_ms, count, nights, dusk_ms: nights.dusk_ms, dawn_ms: nights.dawn_ms, nightLight_lux };
}

function scale(column: Float64Array, share: (i: number) => number): void {
  for (let i = 0; i < column.length; i++) column[i]! *= share(i);
}

/** Albedo by hour; undefined where no snow changes it. */
function albedoOf(snow: SnowLying | undefined, spot: SpotParams, site: Site): Float64Array | undefined {
  const white = Math.max(spot.snow.ground_albedo, site.albedo);
  return snow && Float64Array.from(snow.ground, (lies) => (lies === 1 ? white : site.albedo));
}

/** Below this snow on a lid takes less than a hundredth of the light. */
const LEAST_SNOW_MM = 0.02;

function snowHours(snow: SnowLying, spot: SpotParams): NonNullable<SpotLight['snow']> {
  const lid_h = lidIsClear(spot) ? 0 : snow.lid_mm.filter((lying_mm) => lying_mm > LEAST_SNOW_MM).length;
  return { from: snow.from, lid_h, ground_h: snow.ground.filter((white) => white === 1).length };
}
