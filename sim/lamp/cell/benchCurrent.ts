import { quickExp } from '../../common/quickExp.ts';

/** A cell in one light at one temperature; shunt as a conductance, which a fit may take below 0. */
export interface LitCell {
  photocurrent_A: number;
  saturation_A: number;
  thermal_V: number;
  series_ohm: number;
  shunt_S: number;
}

const LEAST_OHM = 1e-6;

/**
 * Current of a bare cell into a load, amperes, and its open-circuit voltage: no blocking diode, any voltage.
 *
 * in: cell; load, a voltage behind a resistance (0 V for an ammeter or a resistor, 0 ohm for a stated voltage), or
 *   undefined for none: the current is then 0
 * out: current_A; open_V, junction voltage at that current (the open-circuit voltage without a load)
 * source: DeSoto2006, eq. 1
 */
export function benchCurrent_A(
  cell: LitCell,
  load: { voltage_V: number; ohm: number } | undefined,
): { current_A: number; open_V: number } {
  const { photocurrent_A, saturation_A, thermal_V, shunt_S } = cell;
  const load_S = load === undefined ? 0 : 1 / Math.max(cell.series_ohm + load.ohm, LEAST_OHM);
  const load_V = load?.voltage_V ?? 0;
  // Right of the root, where the curve falls ever more steeply: Newton from there does not pass it.
  const surplus_A = photocurrent_A + Math.max(0, load_V) * load_S;
  let u = thermal_V * Math.log1p(surplus_A / saturation_A);
  if (shunt_S < 0) u = thermal_V * Math.log1p((surplus_A - shunt_S * u * 1.5) / saturation_A);
  if (load !== undefined) u = Math.min(u, Math.max(load_V + photocurrent_A / load_S, 0) + 1e-3);
  for (let round = 0; round < 100; round++) {
    const e = saturation_A * quickExp(u / thermal_V);
    const off = photocurrent_A - (e - saturation_A) - u * shunt_S - (u - load_V) * load_S;
    const change = off / (e / thermal_V + shunt_S + load_S);
    u += change;
    if (Math.abs(change) < 1e-12) break;
  }
  return { current_A: (u - load_V) * load_S, open_V: u };
}
