import { Matrix, solve } from 'ml-matrix';
import { expect, it } from 'vitest';
import { truncatedNormalMean } from '../../sim/common/fitReadings.ts';
import { leastSquares } from '../../sim/common/leastSquares.ts';
import { leastValues, standardError } from '../../sim/common/leastValues.ts';
import { randomStream } from '../../sim/common/random.ts';
import { MEASURED_CELL } from './measuredCell.ts';

/** k T / q at 33 degC with the constants of those papers. */
const THERMAL_V = (1.3806503e-23 / 1.60217646e-19) * 306.15;

it('the measured 57 mm cell is fitted to the optimum that later papers report, residual and parameters', () => {
  const fit = leastSquares(
    [
      { start: 0.7, scale: 0.05 },
      { start: Math.log(1e-6), scale: 1 },
      { start: 1.3, scale: 0.2 },
      { start: 0.02, scale: 0.02 },
      { start: 0.01, scale: 0.02 },
    ],
    MEASURED_CELL.length,
    (target, [light_A, logSaturation, ideality, series_ohm, shunt_S]) => {
      MEASURED_CELL.forEach(([voltage_V, current_A], i) => {
        const u = voltage_V + current_A * series_ohm!;
        const diode_A = Math.exp(logSaturation!) * Math.expm1(u / (ideality! * THERMAL_V));
        target[i] = (light_A! - diode_A - u * shunt_S! - current_A) / 1e-3;
      });
    },
  );
  const rms_A = 1e-3 * Math.sqrt(fit.sumOfSquares / MEASURED_CELL.length);
  // 9.8602e-4 A, as widely reported for these points (from memory); 1.01 times that is asked for.
  expect(rms_A).toBeLessThan(9.8603e-4);
  expect(rms_A).toBeGreaterThan(9.86e-4);
  const [light_A, logSaturation, ideality, series_ohm, shunt_S] = fit.values;
  // The digits of the optimum as reported (from memory); the sum of squares is flat there.
  expect(light_A).toBeCloseTo(0.7607755, 5);
  expect(Math.exp(logSaturation!) / 3.23021e-7).toBeCloseTo(1, 2);
  expect(ideality).toBeCloseTo(1.48118, 3);
  expect(series_ohm).toBeCloseTo(0.0363771, 4);
  expect(1 / shunt_S! / 53.7185).toBeCloseTo(1, 2);
});

it('a straight line has the covariance of the textbook formula', () => {
  const xs = [0, 1, 2, 3, 4];
  const fit = leastSquares(
    [
      { start: 0, scale: 1 },
      { start: 0, scale: 1 },
    ],
    5,
    (target, [a, b]) => {
      xs.forEach((x, i) => {
        target[i] = (a! + b! * x - (2 + 3 * x)) / 0.1;
      });
    },
  );
  // Variance of slope: error^2 / sum (x - mean)^2; of the value at 0: error^2 (1/n + mean^2 / that sum).
  expect(fit.errors[1]).toBeCloseTo(0.1 / Math.sqrt(10), 8);
  expect(fit.errors[0]).toBeCloseTo(0.1 * Math.sqrt(1 / 5 + 4 / 10), 8);
  expect(fit.values[0]).toBeCloseTo(2, 8);
  expect(fit.values[1]).toBeCloseTo(3, 8);
});

it('an unknown that no residual depends on keeps its start and an error far above its scale', () => {
  const fit = leastSquares(
    [
      { start: 1, scale: 1 },
      { start: 5, scale: 2 },
    ],
    1,
    (target, [a]) => {
      target[0] = a! - 3;
    },
  );
  expect(fit.values[0]).toBeCloseTo(3, 6);
  expect(fit.values[1]).toBe(5);
  expect(fit.errors[1]).toBeGreaterThan(1000);
});

it('the mean of a quantity known to be positive is its own value far above 0, and small and positive far below', () => {
  expect(truncatedNormalMean(50, 1)).toBeCloseTo(50, 10);
  // Far below 0 the mean tends to error^2 / |value|.
  expect(truncatedNormalMean(-8, 1)).toBeGreaterThan(0.11);
  expect(truncatedNormalMean(-8, 1)).toBeLessThan(0.13);
});

it('a model that breaks down on the way is no obstacle', () => {
  const fit = leastSquares([{ start: 5, scale: 10 }], 3, (target, [a]) => {
    for (let i = 0; i < 3; i++) target[i] = (Math.log(a!) - Math.log(2)) / 0.1;
  });
  expect(fit.values[0]).toBeCloseTo(2, 4);
});

it('of six straight unknowns it finds what a library of matrices finds', () => {
  const draw = randomStream(17, 'least values');
  const rows = Array.from({ length: 9 }, () => Array.from({ length: 6 }, () => draw.uniform() - 0.5));
  const right = rows.map(() => draw.uniform());
  const unknowns = Array.from({ length: 6 }, (_, k) => ({ start: 0, scale: 1 + k }));
  const residualsInto = (target: Float64Array, at: readonly number[]) => {
    rows.forEach((row, i) => {
      target[i] = row.reduce((sum, each, k) => sum + each * at[k]!, -right[i]!);
    });
  };
  const least = leastValues(unknowns, 9, residualsInto, { gain: 1e-15 });
  const { values, errors } = leastSquares(unknowns, 9, residualsInto, { gain: 1e-15 });
  const found = solve(new Matrix(rows), Matrix.columnVector(right), true).to1DArray();
  // What keeps open unknowns finite pulls each by 1e-8 of itself.
  for (const [k, value] of values.entries()) {
    expect(value).toBeCloseTo(found[k]!, 6);
    expect(least.values[k]).toBe(value);
    expect(standardError(least, unknowns, k) / errors[k]!).toBeCloseTo(1, 10);
  }
});
