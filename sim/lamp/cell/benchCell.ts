import { FULL_SUN_W_M2, STANDARD_TEMPERATURE_DEG_C } from '../../common/constants.ts';
import { STATED_OVER_STANDARD } from '../../common/Estimate.ts';
import type { Unknown } from '../../common/leastSquares.ts';
import { benchCurrent_A } from './benchCurrent.ts';
import type { CellParams } from './params.ts';
import type { SingleDiode } from './SingleDiode.ts';
import type { CellReadings, CellSection } from './schema.ts';
import { cellSaturation_A, cellThermal_V } from './step.ts';

/** Places of the unknowns: open-circuit voltage in full sun at 25 degC, ideality, ..., then two for each light. */
export const AT = {
  open_V: 0,
  ideality: 1,
  series_ohm: 2,
  shunt_S: 3,
  fullSun: 4,
  voltmeter: 5,
  ammeter: 6,
  lights: 7,
} as const;

/** One reading of a cell, in the order of the residuals. */
export interface CellReading {
  what: string;
  unit: 'V' | 'A';
  path: readonly (string | number)[];
  measured: number;
  /** Standard deviation, without what all readings of a meter share. */
  error: number;
  /** What a cell with these unknowns would show. */
  shown: (values: readonly number[]) => number;
}

/** A cell at the bench: its unknowns, what is known of them beforehand, and its readings. */
export interface BenchCell {
  unknowns: Unknown[];
  readings: CellReading[];
  /** What is known beforehand: an unknown, its value and standard deviation. */
  known: { at: number; value: number; error: number }[];
  cellAt: (values: readonly number[]) => SingleDiode;
  /** What a further open-circuit reading in a share of full sun would show at 25 degC (or a current at a voltage). */
  further: (values: readonly number[], share: number, voltage_V?: number) => number;
}

/** Standard deviation of rounding to a last digit. */
const ROUNDING = 1 / Math.sqrt(12);
const NOTHING = 1e-9;

/**
 * The unknowns of a cell at the bench and what its readings would be, for a least-squares fit.
 *
 * The errors that all readings of a meter share, the temperature of each light and the light itself are unknowns too,
 * each with what is known of it beforehand.
 *
 * in: section, the cell; bench, its readings
 * out: unknowns and readings
 * valid: errors of a meter in percent are shared by all its readings, last digits and the wandering of the light are not
 * source: JCGM100 (stated errors with a coverage factor of 2, rounding as a rectangle)
 */
export function benchCell(section: CellSection, bench: CellReadings): BenchCell {
  const { lights } = bench;
  const brightest = lights.reduce(
    (best, light, k) => (light.short_circuit_mA > lights[best]!.short_circuit_mA ? k : best),
    0,
  );
  const full = lights[brightest]!;
  const full_A = full.short_circuit_mA / 1000;
  const perJunction_V_K = section.voltage_tempco_mV_K / 1000;
  const tempco_V_K = perJunction_V_K * section.cells_in_series;
  const alpha = section.current_tempco_percent_K / 100;
  const start_V = full.open_circuit_V - tempco_V_K * (full.cell_degC - STANDARD_TEMPERATURE_DEG_C);
  const lightAt = (k: number) => AT.lights + k;
  const warmthAt = (k: number) => AT.lights + lights.length + k;
  const half = (percent: number) => Math.max(percent / 100 / STATED_OVER_STANDARD, NOTHING);
  const warmth_K = Math.max(bench.temperature_error_K / STATED_OVER_STANDARD, NOTHING);
  const drift = bench.light_drift_percent / 100 / STATED_OVER_STANDARD;

  const unknowns: Unknown[] = [
    { start: start_V, scale: 0.05 * start_V, least: 0.01 * start_V },
    { start: 1.3, scale: 0.3, least: 0.3 },
    { start: (0.03 * start_V) / full_A, scale: (0.05 * start_V) / full_A, least: 0 },
    { start: full_A / 200, scale: full_A / 20 },
    { start: 0, scale: half(bench.full_sun_error_percent) },
    { start: 0, scale: half(bench.voltage_error_percent) },
    { start: 0, scale: half(bench.current_error_percent) },
    ...lights.map(({ short_circuit_mA }) => ({ start: Math.log(short_circuit_mA / 1000), scale: 0.05 })),
    ...lights.map(() => ({ start: 0, scale: warmth_K })),
  ];
  const known = [AT.fullSun, AT.voltmeter, AT.ammeter, ...lights.map((_, k) => warmthAt(k))].map((at) => ({
    at,
    value: 0,
    error: unknowns[at]!.scale,
  }));

  const paramsAt = (values: readonly number[]): CellParams => {
    const warmer_K = full.cell_degC + values[warmthAt(brightest)]! - STANDARD_TEMPERATURE_DEG_C;
    const share = (bench.full_sun_W_m2 / FULL_SUN_W_M2) * Math.exp(values[AT.fullSun]!);
    return {
      photocurrent_A: Math.exp(values[lightAt(brightest)]!) / (share * (1 + alpha * warmer_K)),
      saturation_A: Number.NaN,
      idealityTimesJunctions: values[AT.ideality]! * section.cells_in_series,
      series_ohm: values[AT.series_ohm]!,
      shunt_ohm: 1 / values[AT.shunt_S]!,
      openCircuit_V: values[AT.open_V]!,
      currentTempco_per_K: alpha,
      voltageTempco_V_per_K: tempco_V_K,
      area_m2: Number.NaN,
    };
  };
  const current_A = (
    values: readonly number[],
    photocurrent_A: number,
    cell_degC: number,
    load: { voltage_V: number; ohm: number } | undefined,
  ): { current_A: number; open_V: number } => {
    const params = paramsAt(values);
    return benchCurrent_A(
      {
        photocurrent_A,
        saturation_A: cellSaturation_A(params, cell_degC),
        thermal_V: cellThermal_V(params, cell_degC),
        series_ohm: params.series_ohm,
        shunt_S: values[AT.shunt_S]!,
      },
      load,
    );
  };
  const inLight = (
    values: readonly number[],
    k: number,
    load: { voltage_V: number; ohm: number } | undefined,
  ) => current_A(values, Math.exp(values[lightAt(k)]!), lights[k]!.cell_degC + values[warmthAt(k)]!, load);
  // A meter that shows too much has a positive error: shown = true (1 + error).
  const volts = (values: readonly number[], true_V: number) => true_V * (1 + values[AT.voltmeter]!);
  const amperes = (values: readonly number[], true_A: number) => true_A * (1 + values[AT.ammeter]!);
  const eFoldGuess_V = 1.3 * section.cells_in_series * 0.0257;

  const readings = lights.flatMap((light, k): CellReading[] => {
    const path = ['readings', 'lights', k];
    const name = `light ${k + 1}`;
    const stepV_V = (light.voltage_step_mV / 1000) * ROUNDING;
    const stepI_A = (light.current_step_mA / 1000) * ROUNDING;
    const short_A = light.short_circuit_mA / 1000;
    const loaded = light.loaded.map(({ voltage_V, current_mA, load_ohm }, j): CellReading => {
      const here = [...path, 'loaded', j];
      if (current_mA === undefined) {
        const ohm = load_ohm!;
        const slope_V = short_A * ohm * drift + eFoldGuess_V * drift;
        return {
          what: `${name}, voltage on ${ohm} ohm`,
          unit: 'V',
          path: [...here, 'voltage_V'],
          measured: voltage_V,
          error: Math.hypot(
            stepV_V,
            Math.min(voltage_V, slope_V),
            voltage_V * half(bench.resistor_error_percent),
          ),
          shown: (values) => volts(values, inLight(values, k, { voltage_V: 0, ohm }).current_A * ohm),
        };
      }
      const true_V = (values: readonly number[]) => voltage_V / (1 + values[AT.voltmeter]!);
      // How much the current moves with a last digit of the voltage, from the start values.
      const start = unknowns.map((unknown) => unknown.start);
      const at = (v: number) => inLight(start, k, { voltage_V: v, ohm: 0 }).current_A;
      const slope_S = Math.abs(at(voltage_V + 1e-3) - at(voltage_V - 1e-3)) / 2e-3;
      return {
        what: `${name}, current at ${voltage_V} V`,
        unit: 'A',
        path: [...here, 'current_mA'],
        measured: current_mA / 1000,
        error: Math.hypot(stepI_A, drift * short_A, slope_S * stepV_V),
        shown: (values) =>
          amperes(values, inLight(values, k, { voltage_V: true_V(values), ohm: 0 }).current_A),
      };
    });
    return [
      {
        what: `${name}, short circuit`,
        unit: 'A',
        path: [...path, 'short_circuit_mA'],
        measured: short_A,
        error: Math.hypot(stepI_A, drift * short_A),
        shown: (values) =>
          amperes(values, inLight(values, k, { voltage_V: 0, ohm: light.burden_ohm }).current_A),
      },
      {
        what: `${name}, open circuit`,
        unit: 'V',
        path: [...path, 'open_circuit_V'],
        measured: light.open_circuit_V,
        error: Math.hypot(stepV_V, eFoldGuess_V * drift),
        shown: (values) => volts(values, inLight(values, k, undefined).open_V),
      },
      ...loaded,
    ];
  });

  return {
    unknowns,
    readings,
    known,
    cellAt: (values) => {
      const params = paramsAt(values);
      return {
        photocurrent_A: params.photocurrent_A,
        saturation_A: cellSaturation_A(params, STANDARD_TEMPERATURE_DEG_C),
        ideality: values[AT.ideality]!,
        series_ohm: params.series_ohm,
        shunt_ohm: params.shunt_ohm,
      };
    },
    further: (values, share, voltage_V) => {
      const light_A = Math.exp(values[lightAt(brightest)]!) * share;
      const load = voltage_V === undefined ? undefined : { voltage_V, ohm: 0 };
      const at = current_A(values, light_A, STANDARD_TEMPERATURE_DEG_C, load);
      return voltage_V === undefined ? at.open_V : at.current_A;
    },
  };
}
