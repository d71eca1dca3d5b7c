import { InputProblem } from '../common/InputProblem.ts';
import { nightCalendar } from '../sun/NightCalendar.ts';
import type { Site } from '../sun/Site.ts';
import { type SunColumns, sunColumns } from '../sun/sunColumns.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { coverCurve } from './cover/coverCurve.ts';
import { loggedSpotLight } from './loggedSpotLight.ts';
import type { SpotLight } from './SpotLight.ts';
import { beamOverHour, type Plane } from './shade/beamOverHour.ts';
import { domeShares } from './shade/domeShares.ts';
import { horizonDome } from './shade/horizonDome.ts';
import { horizonProfile } from './shade/horizonProfile.ts';
import { OPEN_DOME, type SkyDome } from './shade/SkyDome.ts';
import { shadingTrace } from './shade/shadingTrace.ts';
import { groundReflected } from './sky/groundReflected.ts';
import { hayDaviesSky } from './sky/hayDaviesSky.ts';
import { isotropicSky } from './sky/isotropicSky.ts';
import { type SkyColumns, skyColumns } from './sky/skyColumns.ts';
import type { SpotParams } from './spotParams.ts';

/** Gives the bytes of a file that a spot names, under the name the scenario gives it. */
export type ReadFile = (file: string) => Uint8Array;

/**
 * The light on a cell in one spot, in W/m2, hour by hour: sun, sky, and what ground and obstacles return, behind
 * horizon, cover and shading; or the light that was logged on the cell.
 *
 * in: weather, not needed where the light was logged; site; spot; readFile, for the files the spot names
 * out: columns over the hours of the weather, or of the log
 * throws: SCENARIO_MISSING_KEY without weather and log; SPOT_PROFILE and the codes of files
 * valid: see `skyColumns`, `beamOverHour`, `domeShares`; obstacles are upright, as bright as their irradiance (half
 *   the sky, half the ground, and the sun when the spot itself sees it) times their reflectance, and the ground at
 *   the spot takes what a flat plane there takes
 * source: HayDavies1980, LiuJordan1963, DuffieBeckman2020
 */
export function spotLight(
  weather: WeatherRecord | undefined,
  site: Site,
  spot: SpotParams,
  readFile: ReadFile,
): SpotLight {
  if (spot.loggedLight !== undefined) {
    return loggedSpotLight(spot.loggedLight, readFile(spot.loggedLight.file), weather, site);
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
  const sun = sunColumns(start_ms, count, site);
  const sky = skyColumns(weather, sun, site);
  const nights = nightCalendar(start_ms, count, site);
  const light: SpotLight = {
    start_ms,
    count,
    onCell_W_m2: new Float64Array(count),
    beam_W_m2: new Float64Array(count),
    sky_W_m2: new Float64Array(count),
    returned_W_m2: new Float64Array(count),
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
  };
  const dome = domeOf(spot, readFile);
  lightInto(light, sky, sun, dome, spot, site);
  shadeInto(light, spot, readFile);
  return light;
}

function domeOf(spot: SpotParams, readFile: ReadFile): SkyDome {
  if (spot.horizon === undefined) return OPEN_DOME;
  const { file } = spot.horizon;
  return horizonDome(horizonProfile({ name: file, bytes: readFile(file) }));
}

/** Fills beam, sky, returned and their sum. */
function lightInto(
  light: SpotLight,
  sky: SkyColumns,
  sun: SunColumns,
  dome: SkyDome,
  spot: SpotParams,
  site: Site,
): void {
  const plane: Plane = {
    tilt_deg: spot.cellTilt_deg,
    bearing_deg: spot.cellBearing_deg,
    cover: coverCurve(spot.cover, spot.cellTilt_deg),
  };
  const shares = domeShares(dome, plane.tilt_deg, plane.bearing_deg);
  const flatSky = domeShares(dome, 0, 0).sky;
  const reflectance = spot.horizon?.reflectance ?? site.albedo;
  const parts = spot.skyModel === 'isotropic' ? isotropicSky : hayDaviesSky;
  const { cover } = plane;
  for (let i = 0; i < light.count; i++) {
    const diffuse_W_m2 = sky.dhi_W_m2[i]!;
    const direct_W_m2 = sky.dni_W_m2[i]!;
    if (!(diffuse_W_m2 > 0 || direct_W_m2 > 0)) continue;
    const up = sun.upShare[i]!;
    const cosZenith = sun.upCosZenith[i]!;
    const { circumsolar_W_m2, even_W_m2 } = parts(
      diffuse_W_m2,
      up > 0 ? direct_W_m2 / up : 0,
      sun.extraterrestrial_W_m2[i]!,
      cosZenith,
    );
    // straight: what comes from the sun's direction, on a plane facing it, over the sun-up part of the hour
    const straight_W_m2 = up > 0 ? (direct_W_m2 + circumsolar_W_m2) / up : 0;
    let ground_W_m2 = even_W_m2 * flatSky;
    let face_W_m2 = (even_W_m2 * shares.obstacles) / 2;
    if (straight_W_m2 > 0) {
      const beam = beamOverHour(sun, i, dome, plane);
      light.beam_W_m2[i] = straight_W_m2 * beam.cell;
      ground_W_m2 += straight_W_m2 * beam.flat;
      const level = Math.cos(sun.upAltitude_deg[i]! * RADIANS);
      const sunlit = shares.sunOnObstacles[Math.round(sun.upAzimuth_deg[i]!)]!;
      face_W_m2 += straight_W_m2 * up * beam.seen * level * sunlit;
    }
    face_W_m2 += (ground_W_m2 * site.albedo * shares.obstacles) / 2;
    light.sky_W_m2[i] = even_W_m2 * shares.sky * cover.sky;
    light.returned_W_m2[i] =
      groundReflected(ground_W_m2, site.albedo, plane.tilt_deg) * cover.ground +
      face_W_m2 * reflectance * cover.sky;
    light.onCell_W_m2[i] = light.beam_W_m2[i]! + light.sky_W_m2[i]! + light.returned_W_m2[i]!;
  }
}

/** Multiplies all light with the share that a trace or a fixed factor lets pass. */
function shadeInto(light: SpotLight, spot: SpotParams, readFile: ReadFile): void {
  const { shading } = spot;
  if (shading === undefined) return;
  const shares =
    'factor' in shading
      ? new Float64Array(light.count).fill(shading.factor)
      : shadingTrace({ name: shading.file, bytes: readFile(shading.file) }, shading, light);
  for (const column of [light.onCell_W_m2, light.beam_W_m2, light.sky_W_m2, light.returned_W_m2]) {
    for (let i = 0; i < light.count; i++) column[i]! *= shares[i]!;
  }
}

const RADIANS = Math.PI / 180;
