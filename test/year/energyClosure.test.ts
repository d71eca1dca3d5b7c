import { describe, expect, it } from 'vitest';
import { energyClosure } from '../../sim/year/energyClosure.ts';
import { emptyYearColumns } from '../../sim/year/YearColumns.ts';

/** Hours in which a cell's joules go into LED and capacitor, but for what is left over; a diode's may be below 0. */
function hours(rows: readonly { cell_J: number; diode_J?: number; left_J: number }[]) {
  const columns = emptyYearColumns(rows.length);
  rows.forEach(({ cell_J, diode_J = 0, left_J }, hour) => {
    columns.cell_J[hour] = cell_J;
    columns.diodeLoss_J[hour] = diode_J;
    columns.led_J[hour] = 0.5 * cell_J;
    columns.storedChange_J[hour] = 0.5 * cell_J - diode_J - left_J;
    columns.residual_J[hour] = left_J;
  });
  return columns;
}

describe('how well the energy of a run closes', () => {
  it('does not let hours of opposite sign cancel', () => {
    const { energyResidual, worstHour } = energyClosure(
      hours([
        { cell_J: 100, left_J: 10 },
        { cell_J: 100, left_J: -12 },
        { cell_J: 100, left_J: 2 },
      ]),
    );
    // Half of what the cell gave and what LED and capacitor took, the left over joules taken off: 300.
    expect(energyResidual).toBeCloseTo(24 / 300, 3);
    expect(worstHour).toBe(1);
  });

  it('is not hidden by a loss below 0', () => {
    const { energyResidual } = energyClosure(hours([{ cell_J: 1, diode_J: -50, left_J: 43 }]));
    expect(energyResidual).toBeGreaterThan(0.5);
  });

  it('is 0 of a run in which nothing moves, and no number where an hour has none', () => {
    expect(energyClosure(hours([{ cell_J: 0, left_J: 0 }]))).toEqual({ energyResidual: 0, worstHour: 0 });
    const columns = hours([
      { cell_J: 1, left_J: 0.1 },
      { cell_J: 1, left_J: Number.NaN },
      { cell_J: 1, left_J: 0.5 },
    ]);
    expect(energyClosure(columns)).toEqual({ energyResidual: Number.NaN, worstHour: 1 });
  });
});
