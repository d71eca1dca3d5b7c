import { loadTable } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';
import type { CapacitorAge } from './capacitorWear.ts';

/** A lamp's age: what is left of each part, or has grown, against a new one. */
export interface LampAge {
  capacitor: CapacitorAge;
  /** Light that the LED gives of the same current. */
  led: number;
  /** Current that the cell makes of the same light, and light that its cover lets through. */
  cell: number;
  cover: number;
}

/** A lamp of its first year. */
export const NEW: LampAge = {
  capacitor: { capacitance: 1, resistance: 1, leakage: 1 },
  led: 1,
  cell: 1,
  cover: 1,
};

/**
 * A lamp at an age.
 *
 * in: lamp, as new; age
 * out: delayed charge falls with the capacitance, its time stays
 */
export function agedLamp(
  lamp: LampParams,
  { capacitor: aged, led: ledLeft, cell: current, cover }: LampAge,
): LampParams {
  const { capacitance, resistance, leakage } = aged;
  const { capacitor, cell } = lamp;
  const led = { ...lamp.led, efficacy_lm_W: lamp.led.efficacy_lm_W.map((each) => each * ledLeft) };
  const [slow, quick] = capacitor.delayed.map(({ resistance_ohm, capacitance_F }) => ({
    resistance_ohm: resistance_ohm / capacitance,
    capacitance_F: capacitance_F * capacitance,
  }));
  return {
    ...lamp,
    cell: { ...cell, photocurrent_A: cell.photocurrent_A * current * cover },
    capacitor: {
      ...capacitor,
      capacitance_F: capacitor.capacitance_F * capacitance,
      rise_F_V: capacitor.rise_F_V * capacitance,
      series_ohm: capacitor.series_ohm * resistance,
      leakage_A: capacitor.leakage_A * leakage,
      delayed: [slow!, quick!],
    },
    led,
    load: ledLeft === 1 ? lamp.load : loadTable(lamp.driver, led, lamp.load.highest_V),
  };
}
