import { LampStepper } from '../../sim/year/LampStepper.ts';
import { type LampInput, makeLamp, RAW_LED } from '../lamp/makeLamp.ts';

/**
 * A capacitor fed by a cell of so much voltage that in full sun it is a source of constant current; nothing else draws.
 * In the dark an ideal switch cuts it off.
 */
export function currentSource(
  raw: NonNullable<LampInput['capacitor']['raw']>,
  current_A: number,
): LampStepper {
  const lamp = makeLamp({
    cell: {
      raw: {
        photocurrent_A: current_A,
        saturation_A: 1e-12,
        ideality: 1,
        series_ohm: 0,
        shunt_ohm: 1e9,
      },
      cells_in_series: 12,
    },
    diode: { switch_on_ohm: 1e-3 },
    capacitor: { raw, rated_V: 2.7 },
    driver: { kind: 'power', power_mW: 10, standby_uA: 0, below_cutoff_uA: 0 },
    led: RAW_LED,
    jar: { fixed_degC: 25 },
    schedule: { on: 'dusk', hours: 1 },
  });
  return new LampStepper(lamp);
}
