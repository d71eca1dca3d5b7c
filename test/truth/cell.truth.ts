import { THERMAL_VOLTAGE_V_PER_K } from '../../sim/common/constants.ts';
import { MEASURED_CELL } from '../common/measuredCell.ts';
import { type BareCell, cellCurve } from '../lamp/cellCurve.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Solar cell';
const masters = (example: string) =>
  `G. M. Masters, Renewable and Efficient Electric Power Systems (Wiley 2004), example ${example}; from memory`;

const one = (
  what: string,
  unit: string,
  expected: number,
  tolerance: number,
  why: string,
  source: string,
  status: TruthCase['status'],
  compute: () => number,
): TruthCase => ({ topic, what, unit, expected, tolerance, why, source, status, compute });

/** The ideality that turns kT/q at 25 degC into the book's 1/38.9 V. */
const BOOK_IDEALITY = 1 / (38.9 * THERMAL_VOLTAGE_V_PER_K * 298.15);

/** Example 8.4: cells of 3.4 A, 6e-10 A, 6.6 ohm and 5 mohm each. */
const cell84 = (junctions: number): BareCell => ({
  photocurrent_A: 3.4,
  saturation_A: 6e-10,
  ideality: BOOK_IDEALITY,
  series_ohm: 0.005 * junctions,
  shunt_ohm: 6.6 * junctions,
  junctions,
});
/** The module where each junction stands at a voltage: its current is explicit, its terminal voltage follows. */
const module84 = (junction_V: number) => {
  const path = cellCurve(cell84(36));
  const current_A =
    path.photocurrent_A -
    path.saturation_A * Math.expm1((36 * junction_V) / path.thermal_V) -
    36 * junction_V * path.shunt_S;
  const voltage_V = 36 * (junction_V - 0.005 * current_A);
  return { voltage_V, current_A: path.solve(voltage_V) };
};
const book = 'rounding of the book';
const jain =
  'A. Jain and A. Kapoor, Sol. Energy Mater. Sol. Cells 81 (2004) 269, explicit form on the data of Masters 8.4, both from memory, evaluated apart';

/** Example 8.3: 100 cm2, 1e-12 A/cm2 and 40 mA/cm2. */
const cell83: BareCell = {
  photocurrent_A: 4,
  saturation_A: 1e-10,
  ideality: 1,
  series_ohm: 0.001,
  shunt_ohm: 1e9,
  junctions: 1,
};

/**
 * The 57 mm cell at 33 degC by the parameters that later papers report as the optimum (from memory): run at 25 degC with
 * the ideality that gives the thermal voltage of 33 degC.
 */
const small: BareCell = {
  photocurrent_A: 0.76077553,
  saturation_A: 3.2302083e-7,
  ideality: (1.48118359 * 306.15) / 298.15,
  series_ohm: 0.03637709,
  shunt_ohm: 53.71852771,
  junctions: 1,
};
const CURVE =
  'the 57 mm cell of T. Easwarakhanthan et al., Int. J. Solar Energy 4 (1986) 1 (33 degC, 1000 W/m2), by the parameters of later papers (from memory)';
const points = `values that a public script of later work states for its measured curve; ${CURVE}`;
const residual = `least residual as later papers report it, from memory; ${CURVE}; six of the 26 points from memory`;
const evaluated = `evaluated apart: ${CURVE}`;
const rootMeanSquare = (off: (voltage_V: number, current_A: number) => number) =>
  Math.sqrt(MEASURED_CELL.reduce((sum, [v, i]) => sum + off(v, i) ** 2, 0) / MEASURED_CELL.length);

/** A module of 42.8 V and 72 junctions that loses 0.37 percent a kelvin. */
const warm = () => {
  const path = cellCurve(
    {
      photocurrent_A: 4.5,
      saturation_A: 4.5 / Math.expm1(42.8 / (72 * 1.2 * THERMAL_VOLTAGE_V_PER_K * 298.15)),
      ideality: 1.2,
      series_ohm: 0.2,
      shunt_ohm: 1e9,
      junctions: 72,
    },
    { voltage_tempco_mV_K: (-0.0037 * 42.8 * 1000) / 72, current_tempco_percent_K: 0 },
  );
  path.setConditions(1000, 63.75);
  return path.openCircuit_V;
};

export const cases: TruthCase[] = [
  one(
    'module current, junctions at 0.50 V',
    'A',
    3.16,
    0.01,
    book,
    masters('8.4'),
    'from memory',
    () => module84(0.5).current_A,
  ),
  one(
    'module voltage, junctions at 0.50 V',
    'V',
    17.43,
    0.01,
    book,
    masters('8.4'),
    'from memory',
    () => module84(0.5).voltage_V,
  ),
  ...(
    [
      [0.49, 54.802],
      [0.5, 55.02],
      [0.51, 54.754],
      [0.52, 53.756],
      [0.55, 41.587],
    ] as const
  ).map(([junction_V, power_W]) =>
    one(
      `module power, junctions at ${junction_V} V`,
      'W',
      power_W,
      1e-3,
      'five digits, evaluated apart',
      masters('8.4'),
      'computed, from memory',
      () => {
        const { voltage_V, current_A } = module84(junction_V);
        return voltage_V * current_A;
      },
    ),
  ),
  ...(
    [
      [0, 3.397426],
      [0.3, 3.351871],
      [0.4842, 3.156413],
      [0.5, 3.019778],
      [0.55, 1.685221],
    ] as const
  ).map(([cell_V, current_A]) =>
    one(
      `current of one cell at ${cell_V} V`,
      'A',
      current_A,
      2e-6,
      'seven digits, evaluated apart',
      jain,
      'computed, from memory',
      () => cellCurve(cell84(1)).solve(cell_V),
    ),
  ),
  one(
    'open-circuit voltage, full sun',
    'V',
    0.627,
    0.001,
    book,
    masters('8.3'),
    'from memory',
    () => cellCurve(cell83).openCircuit_V,
  ),
  one('open-circuit voltage, half sun', 'V', 0.61, 0.001, book, masters('8.3'), 'from memory', () => {
    const path = cellCurve(cell83);
    path.setConditions(500, 25);
    return path.openCircuit_V;
  }),
  one(
    'open-circuit voltage of a 42.8 V module at 63.75 degC',
    'V',
    36.7,
    0.05,
    book,
    masters('8.5'),
    'from memory',
    warm,
  ),
  one(
    '57 mm cell: short-circuit current',
    'A',
    0.7603,
    5e-4,
    'readings of four digits',
    points,
    'printed',
    () => cellCurve(small).solve(0),
  ),
  one(
    '57 mm cell: open-circuit voltage',
    'V',
    0.5728,
    5e-4,
    'readings of four digits',
    points,
    'printed',
    () => cellCurve(small).openCircuit_V,
  ),
  one(
    '57 mm cell: voltage of the best point',
    'V',
    0.4507,
    5e-4,
    'readings of four digits',
    points,
    'printed',
    () => {
      const path = cellCurve(small);
      // The path's own series resistance lacks the wire's milliohm, which is part of the cell.
      let best_W = 0;
      let best_V = 0;
      for (let v = 0.4; v < 0.5; v += 1e-5) {
        const power_W = v * path.solve(v);
        if (power_W > best_W) [best_W, best_V] = [power_W, v];
      }
      return best_V;
    },
  ),
  one(
    '57 mm cell: power at the best point',
    'W',
    0.31065,
    5e-4,
    'readings of four digits; wire of 1 mohm',
    evaluated,
    'computed, from memory',
    () => cellCurve(small).bestPower_W(),
  ),
  one(
    '57 mm cell: residual over the 26 points',
    'mA',
    0.98602,
    1e-4,
    'five digits',
    residual,
    'from memory',
    () => {
      const path = cellCurve(small);
      return (
        1000 *
        rootMeanSquare((v, i) => {
          const u = v + i * small.series_ohm;
          return (
            path.photocurrent_A - path.saturation_A * Math.expm1(u / path.thermal_V) - u * path.shunt_S - i
          );
        })
      );
    },
  ),
  one(
    '57 mm cell: error of the solved current over the 26 points',
    'mA',
    0.7754,
    1e-3,
    'four digits',
    `${evaluated}; six of the 26 points from memory`,
    'computed, from memory',
    () => {
      const path = cellCurve(small);
      return 1000 * rootMeanSquare((v, i) => path.solve(v) - i);
    },
  ),
];
