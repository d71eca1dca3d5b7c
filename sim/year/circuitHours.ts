import { KELVIN_AT_ZERO_CELSIUS, THERMAL_VOLTAGE_V_PER_K } from '../common/constants.ts';
import { exp } from '../common/elementary/exp.ts';
import { Kept } from '../common/Kept.ts';
import { quickLog } from '../common/quickLog.ts';
import { jarTemperatureInto } from '../lamp/jar/step.ts';
import type { LampParams } from '../lamp/params.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import {
  THERMAL,
  THERMAL_COLUMNS,
  THERMAL_ROWS_PER_K,
  type ThermalTable,
  thermalTable,
} from './thermalTable.ts';

/** Numbers of an hour, in this order; those after `seriesGrowth` are 0 in the dark, where nothing asks for them. */
export const HOUR = {
  /** Of the diode. */
  thermal_V: 0,
  perThermal_V: 1,
  reverse_A: 2,
  leak_S: 3,
  /** Factors of the capacitor's leakage and series resistance. */
  warming: 4,
  seriesGrowth: 5,
  photocurrent_A: 6,
  /** Of the cell. */
  openCircuit_V: 7,
  perPhotocurrent: 8,
  cellThermal_V: 9,
  cellSaturation_A: 10,
  lnCellSaturation: 11,
  lnLightOverDiode: 12,
  /** Of the reduced voltage by which `passTable` is read. */
  shift: 13,
} as const;
export const HOUR_COLUMNS = 14;

const OPEN_V = 1e-5;

/**
 * What light and temperature make of a lamp's cell, diode and capacitor hour by hour: all that does not depend on the
 * voltage. The hours stand free of each other, so that the processor works on several at once; within the loop each
 * would be waited for.
 *
 * in: lamp; light_W_m2 on the cell and degC of everything, by the hour
 * out: rows of HOUR_COLUMNS numbers, see HOUR
 * valid: as `thermalTable`; the open circuit to 1e-8 V
 */
export function circuitHours(
  lamp: LampParams,
  light_W_m2: ArrayLike<number>,
  degC: ArrayLike<number>,
): Float64Array {
  const hours = new Float64Array(degC.length * HOUR_COLUMNS);
  fillHours(hours, new CellAndDiode(lamp), thermalTable(lamp, degC), light_W_m2, degC);
  return hours;
}

/** What of a lamp the hours need: lamps come in many shapes, and for each the engine would compile the loop anew. */
class CellAndDiode {
  /** Times the junctions of the cell, and of the diode. */
  readonly cellIdeality: number;
  readonly diodeIdeality: number;
  readonly shunt_ohm: number;

  constructor({ cell, diode }: LampParams) {
    this.cellIdeality = cell.idealityTimesJunctions;
    this.diodeIdeality = diode.ideality;
    this.shunt_ohm = cell.shunt_ohm;
  }
}

function fillHours(
  hours: Float64Array,
  parts: CellAndDiode,
  { rows, lowest_degC }: ThermalTable,
  light_W_m2: ArrayLike<number>,
  degC: ArrayLike<number>,
): void {
  const cellPerK = parts.cellIdeality * THERMAL_VOLTAGE_V_PER_K;
  const diodePerK = parts.diodeIdeality * THERMAL_VOLTAGE_V_PER_K;
  for (let hour = 0, to = 0; hour < degC.length; hour++, to += HOUR_COLUMNS) {
    // Split before the table's start is taken off: where a table begins may not move the last bits.
    const place = degC[hour]! * THERMAL_ROWS_PER_K;
    const whole = Math.floor(place);
    const part = place - whole;
    const at = ((whole - lowest_degC * THERMAL_ROWS_PER_K) * THERMAL_COLUMNS) | 0;
    const kelvin = degC[hour]! + KELVIN_AT_ZERO_CELSIUS;
    const thermal_V = diodePerK * kelvin;
    hours[to + HOUR.thermal_V] = thermal_V;
    hours[to + HOUR.perThermal_V] = 1 / thermal_V;
    hours[to + HOUR.reverse_A] = between(rows, at + THERMAL.diodeSaturation_A, part);
    hours[to + HOUR.leak_S] = between(rows, at + THERMAL.diodeLeak_S, part);
    hours[to + HOUR.warming] = between(rows, at + THERMAL.warming, part);
    hours[to + HOUR.seriesGrowth] = between(rows, at + THERMAL.seriesGrowth, part);
    if (!(light_W_m2[hour]! > 0)) continue;
    hours[to + HOUR.photocurrent_A] =
      light_W_m2[hour]! * between(rows, at + THERMAL.photocurrent_A_per_W_m2, part);
    hours[to + HOUR.cellThermal_V] = cellPerK * kelvin;
    hours[to + HOUR.cellSaturation_A] = between(rows, at + THERMAL.cellSaturation_A, part);
    hours[to + HOUR.lnCellSaturation] = between(rows, at + THERMAL.lnCellSaturation, part);
    const lnLight = quickLog(light_W_m2[hour]!) + between(rows, at + THERMAL.lnPhotocurrent, part);
    setLight(hours, to, lnLight, between(rows, at + THERMAL.lnDiodeSaturation, part), parts);
  }
}

/** Sets what goes by the logarithms of light current and saturation currents. */
function setLight(
  hours: Float64Array,
  to: number,
  lnLight: number,
  lnDiode: number,
  { cellIdeality, diodeIdeality, shunt_ohm }: CellAndDiode,
): void {
  const photocurrent_A = hours[to + HOUR.photocurrent_A]!;
  const lnCell = hours[to + HOUR.lnCellSaturation]!;
  const ratio = cellIdeality / diodeIdeality;
  hours[to + HOUR.perPhotocurrent] = 1 / photocurrent_A;
  hours[to + HOUR.lnLightOverDiode] = lnLight - lnDiode;
  hours[to + HOUR.shift] = ratio * lnCell - lnDiode + (1 - ratio) * lnLight;
  const a = hours[to + HOUR.cellThermal_V]!;
  const saturation_A = hours[to + HOUR.cellSaturation_A]!;
  const shunt_S = 1 / shunt_ohm;
  // Without a shunt, or without a junction: the open circuit lies below both.
  let u = Math.min(a * (lnLight - lnCell), photocurrent_A * shunt_ohm);
  for (let round = 0; round < 60; round++) {
    const M = saturation_A * exp(u / a);
    const change = (photocurrent_A + saturation_A - M - shunt_S * u) / (M / a + shunt_S);
    u += change;
    // What a change leaves is its square over the thermal voltage.
    if (change < OPEN_V && change > -OPEN_V) break;
  }
  hours[to + HOUR.openCircuit_V] = u;
}

function between(rows: Float64Array, at: number, part: number): number {
  return rows[at]! * (1 - part) + rows[at + THERMAL_COLUMNS]! * part;
}

/** What `circuitHours` makes of a record, and the temperature in the jar that it was made for. */
export interface JarHours {
  hours: Float64Array;
  jar_degC: Float64Array;
}

/** Of a light, for its air: the light of one air serves no other. */
const made = new WeakMap<Float64Array, { air_degC: Float64Array; kept: Kept<JarHours> }>();
/** Of a light of some years so many are kept for lamps that differ in cell or diode, a megabyte a year each; else the last. */
const MOST_LAMPS = 4;
const SOME_HOURS = 30_000;

/**
 * The same of a whole record, kept with its light for lamps that differ in neither cell nor diode nor jar.
 *
 * in: lamp; light, the spot's
 */
export function keptHours(lamp: LampParams, { planeOfArray_W_m2, air_degC }: SpotLight): JarHours {
  let known = made.get(planeOfArray_W_m2);
  if (known?.air_degC !== air_degC) {
    known = { air_degC, kept: new Kept(air_degC.length > SOME_HOURS ? 1 : MOST_LAMPS) };
    made.set(planeOfArray_W_m2, known);
  }
  const { cell, diode, jar, capacitor } = lamp;
  return known.kept.of([cell, diode, jar, capacitor.leakageDoubling_K, capacitor.seriesGrowth], () => {
    const jar_degC = new Float64Array(air_degC.length);
    jarTemperatureInto(jar_degC, air_degC, planeOfArray_W_m2, jar);
    return { hours: circuitHours(lamp, planeOfArray_W_m2, jar_degC), jar_degC };
  });
}
