import { expect, it } from 'vitest';
import { ledRating, ledWear } from '../../sim/ageing/ledFade.ts';
import { lightLeft, lightLoss } from '../../sim/ageing/lightLoss.ts';
import { cellSchema } from '../../sim/lamp/cell/schema.ts';
import { ledSchema } from '../../sim/lamp/led/schema.ts';
import { coverSchema } from '../../sim/spot/cover/schema.ts';
import { emptyYearColumns } from '../../sim/year/YearColumns.ts';

it('an LED lit for its rated hours at its rated current and temperature has spent its life', () => {
  const led = ledSchema.parse({ life: { hours: 20_000, at_mA: 20, light_left: 0.7 }, count: 2 });
  const columns = emptyYearColumns(8760);
  const lit_h = 2000;
  columns.led_C.fill(0.04 * 3600, 0, lit_h);
  columns.jar_degC.fill(25);
  expect(ledWear(columns, ledRating(led), 2)).toBeCloseTo(lit_h / 20_000, 12);
  columns.jar_degC.fill(45);
  expect(ledWear(columns, ledRating(led), 2)).toBeCloseTo((1.5 * lit_h) / 20_000, 12);
});

const cell = cellSchema.parse({ cells_in_series: 4, decline_percent_year: 0.5 });
const cover = (kind: string) => coverSchema.parse({ kind });

it('a cleaned glass lid leaves the decline of the cell alone', () => {
  const loss = lightLoss(cell, cover('flat'));
  expect(lightLeft(loss, 0, true)).toBe(1);
  expect(lightLeft(loss, 20, true)).toBeCloseTo(0.995 ** 20, 12);
});

it('dirt that nobody takes off gathers, up to what rain takes', () => {
  const loss = lightLoss(cell, cover('flat'));
  const after = (years: number) => lightLeft(loss, years, false) / lightLeft(loss, years, true);
  expect(after(1)).toBeLessThan(1);
  expect(after(10)).toBeLessThan(after(1));
  expect(after(40)).toBeGreaterThan(0.85);
});

it('resin yellows and no cover gathers no dirt', () => {
  const yellow = lightLeft(lightLoss(cell, cover('resin')), 10, true);
  expect(yellow).toBeCloseTo((0.995 * 0.99) ** 10, 12);
  expect(lightLoss(cell, cover('none')).dirt).toBe(0);
});
