import type { Bench, Prior, Reading } from '../../common/Bench.ts';
import { FULL_SUN_W_M2, STANDARD_TEMPERATURE_DEG_C } from '../../common/constants.ts';
import { NO_ERROR, ROUNDING, STATED_OVER_STANDARD, standardShare } from '../../common/Estimate.ts';
import { exp } from '../../common/elementary/exp.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { log } from '../../common/elementary/log.ts';
import type { Unknown } from '../../common/leastValues.ts';
import type { CellParams } from './params.ts';
import { type Load, SILICON, type SingleDiode, SingleDiodeCurve } from './SingleDiode.ts';
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

/** A cell at the bench. */
export interface BenchCell extends Bench {
  cellAt: (values: readonly number[]) => SingleDiode;
  /** What a further open-circuit reading in a share of full sun would show at 25 degC (or a current at a voltage). */
  further: (values: readonly number[], share: number, voltage_V?: number) => number;
}

/** One reading, with what a cell with these unknowns would show. */
interface CellReading extends Reading {
  shown: (values: readonly number[]) => number;
}

/**
 * The unknowns of a cell at the bench and what its readings would be, for a least-squares fit.
 *
 * The errors that all readings of a meter share, the temperature of each light and the light itself are unknowns too,
 * each with what is known of it beforehand.
 *
 * in: section, the cell; readings
 * out: unknowns and readings
 * valid: errors of a meter in percent are shared by all its readings, last digits and the wandering of the light are not
 * source: JCGM100 (stated errors with a coverage factor of 2, rounding as a rectangle)
 */
export function benchCell(section: CellSection, readings: CellReadings): BenchCell {
  const model = new CellModel(section, readings);
  const shown = readings.lights.flatMap((_, k) => readingsIn(model, k));
  return {
    unknowns: model.unknowns,
    priors: model.priors,
    readings: shown,
    shownInto: (target, values) => {
      shown.forEach((reading, i) => {
        target[i] = reading.shown(values);
      });
    },
    cellAt: (values) => model.cellAt(values),
    further: (values, share, voltage_V) => {
      const light_A = model.light_A(values, model.brightest) * share;
      const load = voltage_V === undefined ? undefined : { voltage_V, ohm: 0 };
      const at = model.at(values, light_A, STANDARD_TEMPERATURE_DEG_C, load);
      return voltage_V === undefined ? at.junction_V : at.current_A;
    },
  };
}

/** The unknowns of a cell and its lights, and the cell that they make. */
class CellModel {
  readonly section: CellSection;
  readonly bench: CellReadings;
  readonly unknowns: Unknown[];
  readonly priors: Prior[];
  /** The brightest light. */
  readonly brightest: number;
  private readonly tempco_V_K: number;

  constructor(section: CellSection, bench: CellReadings) {
    const { lights } = bench;
    this.section = section;
    this.bench = bench;
    this.brightest = lights.reduce(
      (best, light, k) => (light.short_circuit_mA > lights[best]!.short_circuit_mA ? k : best),
      0,
    );
    this.tempco_V_K = (section.voltage_tempco_mV_K / 1000) * section.cells_in_series;
    const full = lights[this.brightest]!;
    const full_A = full.short_circuit_mA / 1000;
    const open_V = full.open_circuit_V - this.tempco_V_K * (full.cell_degC - STANDARD_TEMPERATURE_DEG_C);
    const warmth_K = Math.max(bench.temperature_error_K / STATED_OVER_STANDARD, NO_ERROR);
    this.unknowns = [
      { start: open_V, scale: 0.05 * open_V, least: 0.01 * open_V },
      { start: SILICON.usualIdeality, scale: 0.3, least: SILICON.leastIdeality },
      { start: (0.03 * open_V) / full_A, scale: (0.05 * open_V) / full_A, least: 0 },
      { start: full_A / 200, scale: full_A / 20 },
      { start: 0, scale: standardShare(bench.full_sun_error_percent) },
      { start: 0, scale: standardShare(bench.voltage_error_percent) },
      { start: 0, scale: standardShare(bench.current_error_percent) },
      ...lights.map(({ short_circuit_mA }) => ({ start: log(short_circuit_mA / 1000), scale: 0.05 })),
      ...lights.map(() => ({ start: 0, scale: warmth_K })),
    ];
    const known = [AT.fullSun, AT.voltmeter, AT.ammeter, ...lights.map((_, k) => this.warmthAt(k))];
    this.priors = known.map((at) => ({ at, value: 0, error: this.unknowns[at]!.scale }));
  }

  private warmthAt(k: number): number {
    return AT.lights + this.bench.lights.length + k;
  }

  private cell_degC(values: readonly number[], k: number): number {
    return this.bench.lights[k]!.cell_degC + values[this.warmthAt(k)]!;
  }

  /** Photocurrent in a light. */
  light_A(values: readonly number[], k: number): number {
    return exp(values[AT.lights + k]!);
  }

  private paramsAt(values: readonly number[]): CellParams {
    const { brightest, bench, section } = this;
    const alpha = section.current_tempco_percent_K / 100;
    const warmer_K = this.cell_degC(values, brightest) - STANDARD_TEMPERATURE_DEG_C;
    const share = (bench.full_sun_W_m2 / FULL_SUN_W_M2) * exp(values[AT.fullSun]!);
    return {
      photocurrent_A: this.light_A(values, brightest) / (share * (1 + alpha * warmer_K)),
      saturation_A: Number.NaN,
      idealityTimesJunctions: values[AT.ideality]! * section.cells_in_series,
      series_ohm: values[AT.series_ohm]!,
      shunt_ohm: 1 / values[AT.shunt_S]!,
      openCircuit_V: values[AT.open_V]!,
      currentTempco_per_K: alpha,
      voltageTempco_V_per_K: this.tempco_V_K,
      area_m2: Number.NaN,
    };
  }

  cellAt(values: readonly number[]): SingleDiode {
    const params = this.paramsAt(values);
    return {
      photocurrent_A: params.photocurrent_A,
      saturation_A: cellSaturation_A(params, STANDARD_TEMPERATURE_DEG_C),
      ideality: values[AT.ideality]!,
      series_ohm: params.series_ohm,
      shunt_ohm: params.shunt_ohm,
    };
  }

  /** Current into a load, and the junction's voltage there. */
  at(values: readonly number[], photocurrent_A: number, cell_degC: number, load: Load | undefined) {
    const params = this.paramsAt(values);
    const saturation_A = cellSaturation_A(params, cell_degC);
    const thermal_V = cellThermal_V(params, cell_degC);
    const curve = new SingleDiodeCurve(values[AT.shunt_S]!, thermal_V, saturation_A, photocurrent_A);
    return curve.intoLoad(params.series_ohm, load);
  }

  inLight(values: readonly number[], k: number, load: Load | undefined) {
    return this.at(values, this.light_A(values, k), this.cell_degC(values, k), load);
  }
}

/** A meter that shows too much has a positive error: shown = true (1 + error). */
function readingsIn(model: CellModel, k: number): CellReading[] {
  const { bench, section } = model;
  const light = bench.lights[k]!;
  const path = ['readings', 'lights', k];
  const drift = bench.light_drift_percent / 100 / STATED_OVER_STANDARD;
  const step_V = (light.voltage_step_mV / 1000) * ROUNDING;
  const step_A = (light.current_step_mA / 1000) * ROUNDING;
  const short_A = light.short_circuit_mA / 1000;
  /** How far an open-circuit voltage wanders with the light: an e-fold of it, guessed. */
  const wander_V = 1.3 * section.cells_in_series * 0.0257 * drift;
  const amperes = (values: readonly number[], load: Load | undefined) =>
    model.inLight(values, k, load).current_A * (1 + values[AT.ammeter]!);
  return [
    {
      what: `light ${k + 1}, short circuit`,
      unit: 'A',
      path: [...path, 'short_circuit_mA'],
      measured: short_A,
      error: hypot(step_A, drift * short_A),
      shown: (values) => amperes(values, { voltage_V: 0, ohm: light.burden_ohm }),
    },
    {
      what: `light ${k + 1}, open circuit`,
      unit: 'V',
      path: [...path, 'open_circuit_V'],
      measured: light.open_circuit_V,
      error: hypot(step_V, wander_V),
      shown: (values) => model.inLight(values, k, undefined).junction_V * (1 + values[AT.voltmeter]!),
    },
    ...light.loaded.map(({ voltage_V, current_mA, load_ohm }, j): CellReading => {
      const here = [...path, 'loaded', j];
      if (current_mA === undefined) {
        const ohm = load_ohm!;
        const resistor_V = voltage_V * standardShare(bench.resistor_error_percent);
        return {
          what: `light ${k + 1}, voltage on ${ohm} ohm`,
          unit: 'V',
          path: [...here, 'voltage_V'],
          measured: voltage_V,
          error: hypot(step_V, Math.min(voltage_V, short_A * ohm * drift + wander_V), resistor_V),
          shown: (values) =>
            model.inLight(values, k, { voltage_V: 0, ohm }).current_A * ohm * (1 + values[AT.voltmeter]!),
        };
      }
      // How much the current moves with a last digit of the voltage, from the start values.
      const start = model.unknowns.map((unknown) => unknown.start);
      const at = (v: number) => model.inLight(start, k, { voltage_V: v, ohm: 0 }).current_A;
      const slope_S = Math.abs(at(voltage_V + 1e-3) - at(voltage_V - 1e-3)) / 2e-3;
      return {
        what: `light ${k + 1}, current at ${voltage_V} V`,
        unit: 'A',
        path: [...here, 'current_mA'],
        measured: current_mA / 1000,
        error: hypot(step_A, drift * short_A, slope_S * step_V),
        shown: (values) => amperes(values, { voltage_V: voltage_V / (1 + values[AT.voltmeter]!), ohm: 0 }),
      };
    }),
  ];
}
