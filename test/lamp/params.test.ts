import { afterAll, expect, it, vi } from 'vitest';
import { lampSchema } from '../../sim/lamp/schema.ts';
import { settleLamp } from '../../sim/lamp/settleLamp.ts';
import { RAW_CELL, RAW_DIODE, RAW_LED } from './makeLamp.ts';

const SOLVER = '../../sim/common/leastSquares.ts';

// Files of a thread share their modules: those with the counter are for this file alone.
afterAll(() => {
  vi.doUnmock(SOLVER);
  vi.resetModules();
});

it('model parameters win over readings beside them, which are settled all the same', () => {
  const section = lampSchema.parse({
    cell: RAW_CELL,
    diode: { ...RAW_DIODE, readings: { forward: [{ current_mA: 10, drop_V: 0.3 }] } },
    capacitor: { raw: { capacitance_F: 100 }, rated_V: 2.7 },
    driver: { kind: 'power', power_mW: 10 },
    led: RAW_LED,
    schedule: { hours: 6 },
  });
  const { settled, params, fits } = settleLamp(section, ({ got }) => expect.fail(got))!;
  expect(settled.diode.raw).toEqual(section.diode.raw);
  expect(params.diode.saturation_A).toBe(RAW_DIODE.raw.saturation_A);
  expect(fits.diode!.keys.raw.saturation_A).not.toBeCloseTo(RAW_DIODE.raw.saturation_A, 6);
});
