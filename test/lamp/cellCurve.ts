import { CellDiodeCircuit } from '../../sim/lamp/CellDiodeCircuit.ts';
import { type LampInput, makeLamp, RAW_LED } from './makeLamp.ts';

/** Resistance of the wire that stands in for the blocking diode; the cells here have it taken off their own. */
const WIRE_OHM = 1e-3;

export interface BareCell {
  photocurrent_A: number;
  saturation_A: number;
  ideality: number;
  series_ohm: number;
  shunt_ohm: number;
  junctions: number;
}

/** The path of a cell on a wire that conducts both ways, at 1000 W/m2 and 25 degC: `solve` is the cell's own curve. */
export function cellCurve(cell: BareCell, changes: Partial<LampInput['cell']> = {}): CellDiodeCircuit {
  const { junctions, series_ohm, ...raw } = cell;
  const lamp = makeLamp({
    cell: { raw: { ...raw, series_ohm: series_ohm - WIRE_OHM }, cells_in_series: junctions, ...changes },
    diode: { switch_on_ohm: WIRE_OHM },
    capacitor: { raw: { capacitance_F: 1 }, rated_V: 2.7 },
    driver: { kind: 'power', power_mW: 1 },
    led: RAW_LED,
    schedule: { on: 'dusk', hours: 1 },
  });
  const path = new CellDiodeCircuit(lamp.cell, { ...lamp.diode, leak_S: 1 / WIRE_OHM });
  path.setConditions(1000, 25);
  return path;
}
