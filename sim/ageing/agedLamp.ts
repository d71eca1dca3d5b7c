import { type CapacitorChange, changedCapacitor } from '../lamp/capacitor/params.ts';
import { loadTable } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';

/** A lamp's age: what is left of each part, or has grown, against a new one. */
export interface LampAge {
  capacitor: CapacitorChange;
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
 */
export function agedLamp(
  lamp: LampParams,
  { capacitor: aged, led: ledLeft, cell: current, cover }: LampAge,
): LampParams {
  const led = { ...lamp.led, efficacy_lm_W: lamp.led.efficacy_lm_W.map((each) => each * ledLeft) };
  return {
    ...lamp,
    cell: { ...lamp.cell, photocurrent_A: lamp.cell.photocurrent_A * current * cover },
    capacitor: changedCapacitor(lamp.capacitor, aged),
    led,
    load: ledLeft === 1 ? lamp.load : loadTable(lamp.driver, led, lamp.load.highest_V),
  };
}
