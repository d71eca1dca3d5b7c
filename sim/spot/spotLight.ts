import { InputProblem } from '../common/InputProblem.ts';
import { type NightCalendar, nightCalendar } from '../sun/NightCalendar.ts';
import type { Site } from '../sun/Site.ts';
import { sunColumns } from '../sun/sunColumns.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../weather/WeatherRecord.ts';
import { type SnowLying, throughSnow } from './cover/snowLying.ts';
import { loggedColumns } from './measured/loggedColumns.ts';
import { type MeasuredShares, sharesFromLog } from './measured/sharesFromLog.ts';
import { type PlaneLight, planeLightInto } from './planeLight.ts';
import { heldPart, type LoggedHours, type SpotFiles } from './SpotFiles.ts';
import { type SpotPlace, spotPlace } from './SpotPlace.ts';
import { skyCalendar } from './sky/SkyCalendar.ts';
import { type OpenSky, openSky, type SkyColumns } from './sky/skyColumns.ts';
import type { LoggedLight, SpotParams } from './spotParams.ts';

/**
 * The light on a cell in one spot, hour by hour (constant within the hour), beside the sky it came from.
 * A NaN in ghi, dni or dhi says 'does not apply': the light was measured on the cell itself.
 */
export interface SpotLight extends PlaneLight, SkyColumns {
  start_ms: number;
  count: number;
  /** Light that the cell takes behind its cover, all parts together: as much as straight on would do the same. */
  planeOfArray_W_m2: Float64Array;
  air_degC: Float64Array;
  /** Altitude of the sun's centre at mid-hour, refracted. */
  sunAltitude_deg: Float64Array;
  /** Same arrays as nights.dusk_ms and nights.dawn_ms. */
  dusk_ms: Float64Array;
  dawn_ms: Float64Array;
  nights: NightCalendar;
  /** The place the light falls on, where it was not logged on the cell. */
  place?: SpotPlace | undefined;
  /** Light of a street or porch lamp on the cell, all night; only a lamp that senses the dark cares. */
  nightLight_lux: number;
  /** Snow, where the weather tells of it. */
  snow?: SpotSnow | undefined;
  /** What a log of light at the spot gave, where one was named. */
  measured?: MeasuredShares | undefined;
}

/** Snow in a spot: hours with it on the lid and on the ground. */
export interface SpotSnow extends Pick<SnowLying, 'from'> {
  lid_h: number;
  ground_h: number;
  /** What lies on the lid by the hour, as water, and the light were it brushed off; where any stays there. */
  lid: { lying_mm: Float64Array; brushed_W_m2: Float64Array } | undefined;
}

/**
 * The light on a cell in one spot, in W/m2, hour by hour: sun, sky, and what ground and obstacles reflect, behind
 * obstacles, cover, front, dirt, snow and shading; or the light that was logged on the cell. All at once; for many spots or
 * many years of weather see `skyCalendar`, `spotPlace`, `openSky` and `lightInSpot`.
 *
 * in: weather, not needed where the light was logged; site; spot; files, what those say that the spot names
 *   (`readSpotFiles`); open, the sky of the same weather and site where several spots share it
 * out: columns over the hours of the weather, or of the log
 * throws: SCENARIO_MISSING_KEY without weather and log; what `spotPlace` and `lightInSpot` throw
 * valid: see `planeFactors`, `snowLying`
 */
export function spotLight(
  weather: WeatherRecord | undefined,
  site: Site,
  spot: SpotParams,
  files: SpotFiles = {},
  open?: OpenSky,
): SpotLight {
  const { loggedLight: logged } = spot;
  if (logged !== undefined)
    return loggedLight(logged, heldPart(files.loggedLight, logged), weather, site, spot);
  if (weather === undefined) {
    throw new InputProblem({
      code: 'SCENARIO_MISSING_KEY',
      field: 'weather',
      got: 'neither weather nor light_on_cell',
      expected: 'hourly weather, or light logged on the cell of every spot',
      fix: 'add weather: { file: ... }.',
    });
  }
  const sky = open ?? openSky(weather, skyCalendar(weather, site));
  return lightInSpot(spotPlace(spot, sky.calendar, files), sky);
}

/**
 * The light on a cell in W/m2, hour by hour, from a place and the sky over it: a pass of sums, so that many years of
 * weather cost little on one place. They must be of the same hours; others need a calendar and a place of their own.
 *
 * in: place; open, the sky over the hours of the place's calendar
 * out: columns over the hours
 * throws: FIT_UNDETERMINED; Error where place and sky are of different calendars
 * source: HayDavies1980, Perez1990, LiuJordan1963, DuffieBeckman2020
 */
export function lightInSpot(place: SpotPlace, open: OpenSky): SpotLight {
  const { spot, calendar, log } = place;
  if (calendar !== open.calendar) throw new Error('place and sky are of different calendars');
  const measured = place.measured ?? (log && sharesFromLog(log, open));
  const { sun, nights } = calendar;
  const { count } = sun;
  const column = () => new Float64Array(count);
  const parts = { beam_W_m2: column(), sky_W_m2: column(), reflected_W_m2: column() };
  planeLightInto(parts, place.factors, open, 0, count);
  const planeOfArray_W_m2 = column();
  const { beam_W_m2, sky_W_m2, reflected_W_m2 } = parts;
  const { beam = 1, diffuse = 1 } = measured ?? {};
  const lying_mm = open.snow !== undefined && !lidIsClear(spot) ? open.snow.lid_mm : undefined;
  const lid = lying_mm && { lying_mm, brushed_W_m2: column() };
  for (let i = 0; i < count; i++) {
    const snowed = lid === undefined || lid.lying_mm[i] === 0 ? 1 : throughSnow(lid.lying_mm[i]!);
    const brushed = place.shading[i]! * (1 - spot.dirtLoss);
    const passing = brushed * snowed;
    if (lid !== undefined)
      lid.brushed_W_m2[i] = brushed * (beam * beam_W_m2[i]! + diffuse * (sky_W_m2[i]! + reflected_W_m2[i]!));
    beam_W_m2[i] = beam_W_m2[i]! * beam * passing;
    sky_W_m2[i] = sky_W_m2[i]! * diffuse * passing;
    reflected_W_m2[i] = reflected_W_m2[i]! * diffuse * passing;
    planeOfArray_W_m2[i] = beam_W_m2[i]! + sky_W_m2[i]! + reflected_W_m2[i]!;
  }
  return {
    ...hoursOf(sun, nights, spot),
    place,
    ...parts,
    planeOfArray_W_m2,
    ...open.sky,
    air_degC: open.weather.air_degC,
    sunAltitude_deg: sun.altitude_deg,
    snow: open.snow && snowHours(open.snow, lid),
    measured,
  };
}

/**
 * Sun and sky are by-passed, all of the light stands under `sky`; dusk, dawn and the sun come from the site. The log
 * counts as it is: what the cell's front loses is in it only where the cell itself was the sensor.
 */
function loggedLight(
  logged: LoggedLight,
  log: LoggedHours,
  weather: WeatherRecord | undefined,
  site: Site,
  spot: SpotParams,
): SpotLight {
  const { planeOfArray_W_m2, air_degC, airStandsIn, ...hours } = loggedColumns(logged, log, weather);
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

/** From this tilt snow slides off a lid. */
const SLIDES_DEG = 45;

/** Whether no snow stays on the lid of a spot: brushed off, steep, or the side of a jar. */
function lidIsClear({ cover, snow, cellTilt_deg }: SpotParams): boolean {
  return !snow.on_lid || cellTilt_deg >= SLIDES_DEG || (cover !== 'none' && cover.kind === 'side-lit');
}

/** Below this snow on a lid takes less than a hundredth of the light. */
export const LEAST_SNOW_MM = 0.02;

function snowHours({ from, ground }: SnowLying, lid: SpotSnow['lid']): SpotSnow {
  let lid_h = 0;
  for (const lying_mm of lid?.lying_mm ?? []) if (lying_mm > LEAST_SNOW_MM) lid_h++;
  return { from, lid_h, ground_h: ground.reduce((hours, white) => hours + white, 0), lid };
}
