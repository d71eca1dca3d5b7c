import { describe, expect, it } from 'vitest';
import { examineQuality } from '../../../sim/weather/quality/examineQuality.ts';
import { GARDEN, gardenYear, madeRecord, YEAR_2021_MS } from './madeRecord.ts';

/** What is found of a range that ends, in a year of light changed hour by hour. */
function found(change: (ghi_W_m2: number) => number, record = gardenYear(3)) {
  const { findings } = examineQuality({ ...record, ghi_W_m2: record.ghi_W_m2.map(change) }, GARDEN);
  return findings.filter(({ kind }) => kind === 'range-end');
}
const sorted = gardenYear(3).ghi_W_m2.toSorted();
/** The value that so many hours reach. */
const reachedIn = (hours: number): number => sorted.at(-hours)!;

describe('a sensor whose range ends', () => {
  it.each([300, 600])('is told where light stands at its highest value, %d W/m2', (top) => {
    const [finding] = found((value) => Math.min(value, top));
    const hours = sorted.filter((value) => value >= top).length;
    expect(finding).toMatchObject({
      column: 'ghi_W_m2',
      effect: 'kept',
      hours,
      evidence: `stands at its highest value, ${top} W/m2, in ${hours} hours: the sensor or its range ends there`,
    });
  });

  it('is told from twelve such hours on', () => {
    // Nothing just below, so that the count alone decides.
    const clipped = (hours: number) => {
      const top = reachedIn(hours);
      return found((value) => (value >= top ? 900 : Math.min(value, 800)));
    };
    expect(clipped(11)).toEqual([]);
    expect(clipped(12)).toHaveLength(1);
  });

  it('is told where they are three times as many as those near below', () => {
    const clipped = (near: number) => {
      const [top, below] = [reachedIn(30), reachedIn(30 + near)];
      return found((value) => (value >= top ? 900 : value >= below ? 890 : Math.min(value, 800)));
    };
    expect(clipped(10)).toHaveLength(1);
    expect(clipped(11)).toEqual([]);
  });

  it.each([0.1, 1, 10, 50])('is none where light is written in steps of %d W/m2', (step_W_m2) => {
    const sky = { ...GARDEN, start_ms: YEAR_2021_MS, hours: 8760, step_W_m2, mean: 0.7 };
    for (const seed of [1, 2, 3]) expect(found((value) => value, madeRecord({ ...sky, seed }))).toEqual([]);
  });
});
