import { expect, test } from 'vitest';
import { weatherChart } from '../../../sim/output/figures/weatherChart.ts';
import { smallLight } from '../smallRun.ts';
import { expectWellFormed, marksOf } from './svgMarks.ts';

test('the year of the weather draws lit hours by their step, and filled hours apart', () => {
  const light = smallLight(48, Date.UTC(2025, 0, 1));
  light.ghi_W_m2.fill(0);
  light.ghi_W_m2.set([300, 300, 900], 10);
  light.mark[11] = 3;
  const days = [0, 1].map((k) => ({
    night: `2025-01-0${k + 1}`,
    ghi_Wh_m2: 0,
    coldest_degC: -3,
    warmest_degC: 2,
    filled_h: k === 0 ? 1 : 0,
    from: 24 * k,
    to: 24 * k + 24,
    offset_min: 60,
  }));
  const figure = weatherChart('run', days, light, '');
  // 10 and 11 h UTC are 11 and 12 h by the clock: one stroke of two hours; 264 units a day.
  const [stroke] = marksOf(figure, 'path', 'step4');
  expect(stroke).toMatch(/d="M[\d.]+ ([\d.]+)h[\d.]+V([\d.]+)h/);
  const [, from, to] = /d="M[\d.]+ ([\d.]+)h[\d.]+V([\d.]+)h/.exec(stroke!)!.map(Number);
  expect(to! - from!).toBeCloseTo(22, 0);
  expect(marksOf(figure, 'path', 'step7')).toHaveLength(1);
  expect(marksOf(figure, 'path', 'step0')).toHaveLength(0);
  expect(marksOf(figure, 'path', 'filled')).toHaveLength(1);
  expectWellFormed(figure.svg);
});
