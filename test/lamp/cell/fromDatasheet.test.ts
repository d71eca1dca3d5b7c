import { expect, it } from 'vitest';
import { cellSchema } from '../../../sim/lamp/cell/schema.ts';
import { sheetFlags } from '../../../sim/lamp/cell/sheetFlags.ts';

const SOUND = {
  short_circuit_mA: 500,
  open_circuit_V: 2.45,
  best_current_mA: 460,
  best_voltage_V: 1.95,
  cells_in_series: 4,
} as const;

it('a datasheet draws no word where its values go together', () => {
  expect(sheetFlags(cellSchema.parse(SOUND))).toEqual([]);
});

it('a shunt that the best point denies is told', () => {
  const [flag] = sheetFlags(cellSchema.parse({ ...SOUND, shunt_V: 25 }));
  expect(flag).toContain('With 25 V the cell gives 449 mA at 1.95 V, not 460 mA');
});

it('a point in dim light that leaves the shunt open is told, and one in dimmer light is not', () => {
  const flags = (irradiance_W_m2: number, open_circuit_V: number) =>
    sheetFlags(cellSchema.parse({ ...SOUND, low_light_point: { irradiance_W_m2, open_circuit_V } }));
  expect(flags(100, 2.11)).toHaveLength(1);
  expect(flags(100, 2.11)[0]).toMatch(/leaves the shunt open: 1\d\d? V is used.*from \d\d V up/);
  expect(flags(10, 1.59)).toEqual([]);
});
