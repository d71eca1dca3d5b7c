import { nearestValues } from '../../common/Bench.ts';
import { FULL_SUN_W_M2, thermalVoltage_V } from '../../common/constants.ts';
import { exp } from '../../common/elementary/exp.ts';
import { log } from '../../common/elementary/log.ts';
import type { LeastValues, Unknown } from '../../common/leastValues.ts';
import { SILICON, type SingleDiode, SingleDiodeCurve, saturationBetween_A } from './SingleDiode.ts';

/** The four values of a cell's datasheet, in full sun at 25 degC. */
export interface Sheet {
  shortCircuit_A: number;
  openCircuit_V: number;
  best_A: number;
  best_V: number;
  junctions: number;
}

/** An open-circuit voltage in dim light, at 25 degC. */
export interface DimPoint {
  irradiance_W_m2: number;
  open_V: number;
}

/** So much of its best current a cell may miss: the usual tolerance of a datasheet, from memory. */
const BEST_TOLERANCE = 0.05;

/** The curve of a cell at 25 degC, in a light. */
export function curveOf(cell: SingleDiode, junctions: number, irradiance_W_m2: number = FULL_SUN_W_M2) {
  const thermal_V = cell.ideality * junctions * thermalVoltage_V();
  const light_A = cell.photocurrent_A * (irradiance_W_m2 / FULL_SUN_W_M2);
  return new SingleDiodeCurve(1 / cell.shunt_ohm, thermal_V, cell.saturation_A, light_A);
}

/**
 * The cell of a datasheet with a given ideality and shunt: it meets short circuit, open circuit and the best point,
 * or, where that takes more than a cell without series resistance gives, comes as near as it can.
 *
 * in: sheet; ideality of one junction; shunt_S, conductance of the shunt, above 0
 * out: the cell at 1000 W/m2 and 25 degC
 * valid: the three points to 1e-12
 * source: DeSoto2006 (three of its four conditions). departs: that power is flat at the best point is left out: a
 *   voltage there rounded by 2 percent moves the ideality by 0.5, and silicon is known better than that
 */
export function cellOfSheet(sheet: Sheet, ideality: number, shunt_S: number): SingleDiode {
  const { shortCircuit_A: short_A, openCircuit_V: open_V, junctions } = sheet;
  const thermal_V = ideality * junctions * thermalVoltage_V();
  const series_ohm = seriesThroughBest_ohm(sheet, thermal_V, shunt_S);
  const shunt_ohm = 1 / shunt_S;
  const saturation_A = saturationBetween_A(short_A, open_V, { thermal_V, series_ohm, shunt_ohm });
  const photocurrent_A = saturation_A * (exp(open_V / thermal_V) - 1) + open_V * shunt_S;
  return { photocurrent_A, saturation_A, ideality, series_ohm, shunt_ohm };
}

/** Series resistance that leads the curve through the best point; 0 where it stays below it. */
function seriesThroughBest_ohm(sheet: Sheet, thermal_V: number, shunt_S: number): number {
  const { shortCircuit_A: short_A, openCircuit_V: open_V, best_A, best_V } = sheet;
  const grown = exp(open_V / thermal_V);
  let series_ohm = 0;
  for (let round = 0; round < 100; round++) {
    // What junction and shunt take at the best point beyond short circuit, over what they take at open circuit.
    const lost_A = short_A - best_A - best_V * shunt_S + series_ohm * shunt_S * (short_A - best_A);
    const share = lost_A / (short_A - open_V * shunt_S + short_A * series_ohm * shunt_S);
    const atShort = exp((short_A * series_ohm) / thermal_V);
    const next = (thermal_V * log(share * grown + (1 - share) * atShort) - best_V) / best_A;
    if (!(next > 0)) return 0;
    if (Math.abs(next - series_ohm) < 1e-14) return next;
    series_ohm = next;
  }
  return series_ohm;
}

/** Share of the stated current that a cell gives at the stated best voltage. */
export function bestShare(sheet: Sheet, cell: SingleDiode): number {
  const load = { voltage_V: sheet.best_V, ohm: 0 };
  return curveOf(cell, sheet.junctions).intoLoad(cell.series_ohm, load).current_A / sheet.best_A;
}

/**
 * Ideality of a junction before anything is read in dim light: what silicon usually has, or less where the best point
 * would otherwise be out of reach with a fair shunt.
 */
export function sheetIdeality(sheet: Sheet): number {
  const { shortCircuit_A: short_A, openCircuit_V: open_V, best_A, best_V, junctions } = sheet;
  const shunt_S = short_A / SILICON.fairShunt_V;
  const share = (short_A - best_A - best_V * shunt_S) / (short_A - open_V * shunt_S);
  // Without series resistance.
  const most = (best_V - open_V) / log(share) / (junctions * thermalVoltage_V());
  return most > SILICON.leastIdeality ? Math.min(most, SILICON.usualIdeality) : SILICON.leastIdeality;
}

/**
 * The most conductance, siemens, that a shunt may have before the cell misses its best current by the tolerance of a
 * datasheet; below 0 where no shunt helps.
 */
export function mostShunt_S(sheet: Sheet): number {
  const { shortCircuit_A: short_A, openCircuit_V: open_V, best_A, best_V, junctions } = sheet;
  const thermal_V = sheetIdeality(sheet) * junctions * thermalVoltage_V();
  const share = exp((best_V - open_V) / thermal_V);
  return (short_A * (1 - share) - (1 - BEST_TOLERANCE) * best_A) / (best_V - open_V * share);
}

/** The lowest and highest open-circuit voltage that cells of a datasheet show in a dim light. */
export function dimRange_V(sheet: Sheet, irradiance_W_m2: number): [low: number, high: number] {
  const openOf = (ideality: number, shunt_S: number) =>
    curveOf(cellOfSheet(sheet, ideality, shunt_S), sheet.junctions, irradiance_W_m2).junctionAtCurrent_V(0);
  return [
    openOf(sheetIdeality(sheet), mostShunt_S(sheet)),
    openOf(SILICON.leastIdeality, leastShunt_S(sheet)),
  ];
}

function leastShunt_S(sheet: Sheet): number {
  return sheet.shortCircuit_A / SILICON.bestShunt_V;
}

/** The unknowns of a cell with a point in dim light. */
export const DIM_UNKNOWNS = { ideality: 0, shunt_S: 1 } as const;

/** A cell by its datasheet and a point in dim light, and what was found for that. */
export interface DimCell {
  cell: SingleDiode;
  unknowns: readonly Unknown[];
  found: LeastValues;
}

/** Volts of a junction. A datasheet's values are taken as they stand: what is known of silicon moves them by no more. */
const DIM_ERROR_V = 2.5e-4;

/**
 * The cell of a datasheet with an open-circuit voltage in dim light: by least squares, the shunt free within what
 * cells have, the ideality held by what is known of silicon. So a point is laid on the shunt as far as any shunt gives
 * it, and only beyond that on the ideality: a higher voltage never gives less current in any light.
 *
 * in: sheet; dim, within dimRange_V
 */
export function dimCell(sheet: Sheet, dim: DimPoint): DimCell {
  const usual = sheetIdeality(sheet);
  const [least, most] = [leastShunt_S(sheet), mostShunt_S(sheet)];
  const curveWith = (ideality: number, shunt_S: number) => {
    const curve = curveOf(cellOfSheet(sheet, ideality, shunt_S), sheet.junctions, dim.irradiance_W_m2);
    curve.at(dim.open_V);
    return curve;
  };
  const fair_S = Math.min(sheet.shortCircuit_A / SILICON.fairShunt_V, most);
  const fair = curveWith(usual, fair_S);
  const start_S = Math.min(most, Math.max(least, fair_S + fair.cell_A / dim.open_V));
  const unknowns = [
    { start: usual, scale: SILICON.idealityError, least: SILICON.leastIdeality },
    { start: start_S, scale: fair_S, least, most },
  ];
  const found = nearestValues({
    unknowns,
    priors: [{ at: DIM_UNKNOWNS.ideality, value: usual, error: SILICON.idealityError }],
    readings: [
      {
        // Nearly a straight line in the shunt, which the voltage is not.
        what: 'current left at the open-circuit voltage in dim light',
        unit: 'A',
        path: ['low_light_point', 'open_circuit_V'],
        measured: 0,
        error: DIM_ERROR_V * sheet.junctions * fair.cellFall_S,
      },
    ],
    shownInto: (target, [ideality, shunt_S]) => {
      target[0] = curveWith(ideality!, shunt_S!).cell_A;
    },
  });
  const { ideality, shunt_S } = DIM_UNKNOWNS;
  return { cell: cellOfSheet(sheet, found.values[ideality]!, found.values[shunt_S]!), unknowns, found };
}
