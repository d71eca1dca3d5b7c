import { sin } from '../common/elementary/sin.ts';
import type { CellParams } from '../lamp/cell/params.ts';
import { SingleDiodeCurve } from '../lamp/cell/SingleDiode.ts';
import { cellPhotocurrent_A, cellSaturation_A, cellThermal_V } from '../lamp/cell/step.ts';
import type { ScheduleSection } from '../lamp/schedule/schema.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { haurwitzGlobal } from '../sun/ineichenClearSky.ts';
import { geometricAltitude } from '../sun/solarPosition.ts';
import { twilightIlluminance_lx } from '../sun/twilightIlluminance_lx.ts';

/** Stretches that the lamp takes for dark, seconds from the start of the record. */
export interface DarkStretch {
  from_s: number;
  to_s: number;
}

const SAMPLE_S = 300;
const SUNSET_DEG = -0.833;
/** Lux for each W/m2 of daylight on the cell. */
const DAYLIGHT_LM_W = 115;
/** The sun stands high enough from here on to tell how cloudy the sky is. */
const CLOUD_ALTITUDE_DEG = 3;
const RAD = Math.PI / 180;

/**
 * When the lamp takes it for dark: its unloaded cell, or a light sensor beside it, falls below a threshold, until it
 * rises above another.
 *
 * While the sun is up the hour's light on the cell counts; from the last sun-up instant on, the published twilight
 * curve times the cloudiness of the nearest sun-up hour times the share of the sky that the spot sees, since an hourly
 * record says nothing of those minutes. A constant night light is added to both.
 *
 * in: light, the spot's; jar_degC, the cell's temperature by the hour; cell; sense, the thresholds; nightLight_lux on
 *   the cell
 * out: stretches in the order of time; one that is open at the record's end ends there
 * valid: 10 minutes; the sun's altitude between hours by straight lines
 * source: AMSGlossary (twilight), Littlefair1988 (lux to W/m2)
 */
export function sensedDark(
  light: SpotLight,
  jar_degC: Float64Array,
  cell: CellParams,
  sense: NonNullable<ScheduleSection['sense']>,
  nightLight_lux: number,
): DarkStretch[] {
  const { count } = light;
  const altitude_deg = light.sunAltitude_deg.map(geometricAltitude);
  const share = twilightShares(light, altitude_deg);
  const night_W_m2 = nightLight_lux / DAYLIGHT_LM_W;
  const stretches: DarkStretch[] = [];
  let darkSince_s = Number.NaN;
  for (let hour = 0; hour < count; hour++) {
    const [dark_W_m2, light_W_m2] = thresholds_W_m2(sense, cell, jar_degC[hour]!);
    for (let s = 0; s < 3600; s += SAMPLE_S) {
      const middle = s + SAMPLE_S / 2;
      const sun_deg = between(altitude_deg, hour, (middle - 1800) / 3600);
      // The hour of a sunrise or sunset is mostly night: the light of its sun-up minutes is at least that of sunset.
      const twilight_W_m2 = (twilightIlluminance_lx(sun_deg) * share[hour]!) / DAYLIGHT_LM_W;
      const day_W_m2 = sun_deg > SUNSET_DEG ? light.planeOfArray_W_m2[hour]! : 0;
      const sensed_W_m2 = night_W_m2 + Math.max(day_W_m2, twilight_W_m2);
      if (Number.isNaN(darkSince_s) && sensed_W_m2 < dark_W_m2) darkSince_s = hour * 3600 + s;
      else if (!Number.isNaN(darkSince_s) && sensed_W_m2 > light_W_m2) {
        stretches.push({ from_s: darkSince_s, to_s: hour * 3600 + s });
        darkSince_s = Number.NaN;
      }
    }
  }
  if (!Number.isNaN(darkSince_s)) stretches.push({ from_s: darkSince_s, to_s: count * 3600 });
  return stretches;
}

/** Light on the cell at which the lamp takes it for dark, and for light again. */
function thresholds_W_m2(
  sense: NonNullable<ScheduleSection['sense']>,
  cell: CellParams,
  cell_degC: number,
): [number, number] {
  if (sense.by === 'lux') return [sense.night_below_lux / DAYLIGHT_LM_W, sense.day_above_lux / DAYLIGHT_LM_W];
  const dark = new SingleDiodeCurve(
    1 / cell.shunt_ohm,
    cellThermal_V(cell, cell_degC),
    cellSaturation_A(cell, cell_degC),
  );
  const perLight_A = cellPhotocurrent_A(cell, 1, cell_degC);
  // At open circuit the junction and the shunt take all of the photocurrent.
  const lightFor = (open_V: number) => {
    dark.at(open_V);
    return -dark.cell_A / perLight_A;
  };
  return [lightFor(sense.night_below_V), lightFor(sense.day_above_V)];
}

/** Cloudiness times sky share for the twilight of every hour, from the nearest hour with the sun high enough. */
function twilightShares(light: SpotLight, altitude_deg: Float64Array): Float64Array {
  const { count } = light;
  const known = new Float64Array(count).fill(Number.NaN);
  const sky = skyShare(light);
  for (let hour = 0; hour < count; hour++) {
    if (altitude_deg[hour]! < CLOUD_ALTITUDE_DEG) continue;
    const clear_W_m2 = haurwitzGlobal(sin(altitude_deg[hour]! * RAD));
    const seen_W_m2 = Number.isNaN(light.ghi_W_m2[hour]!)
      ? light.planeOfArray_W_m2[hour]!
      : light.ghi_W_m2[hour]! * sky;
    known[hour] = Math.min(1.2, seen_W_m2 / clear_W_m2);
  }
  // Evening hours take the last known, morning hours the next: whichever is nearer.
  const target = new Float64Array(count);
  let last = Number.NEGATIVE_INFINITY;
  const next = new Int32Array(count);
  for (let hour = count - 1, seen = 2 * count; hour >= 0; hour--) {
    if (!Number.isNaN(known[hour]!)) seen = hour;
    next[hour] = seen;
  }
  for (let hour = 0; hour < count; hour++) {
    if (!Number.isNaN(known[hour]!)) last = hour;
    const nearer = hour - last <= next[hour]! - hour ? last : next[hour]!;
    target[hour] = nearer >= 0 && nearer < count ? known[nearer]! : sky;
  }
  return target;
}

/** Share of the diffuse light that reaches the cell from the sky; 1 where the light was logged on the cell. */
function skyShare(light: SpotLight): number {
  let sky = 0;
  let diffuse = 0;
  for (let hour = 0; hour < light.count; hour++) {
    if (!(light.dhi_W_m2[hour]! > 0)) continue;
    sky += light.sky_W_m2[hour]! + light.reflected_W_m2[hour]!;
    diffuse += light.dhi_W_m2[hour]!;
  }
  return diffuse > 0 ? sky / diffuse : 1;
}

/** Straight line between the middles of the hours; place is -0.5 to 0.5 from the middle of the hour. */
function between(column: Float64Array, hour: number, place: number): number {
  const other = Math.min(Math.max(place < 0 ? hour - 1 : hour + 1, 0), column.length - 1);
  return column[hour]! + (column[other]! - column[hour]!) * Math.abs(place);
}
