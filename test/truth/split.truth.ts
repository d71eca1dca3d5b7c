import { splitGlobal } from '../../sim/spot/sky/skyColumns.ts';
import type { TruthCase } from './TruthCase.ts';

const erbs = (clearness: number, expected: number): TruthCase => ({
  topic: 'Split of the global light',
  what: `diffuse share at clearness ${clearness}`,
  unit: '1',
  expected,
  tolerance: 1e-4,
  why: 'the same polynomial, four decimals',
  source: 'D. G. Erbs, S. A. Klein and J. A. Duffie, Solar Energy 28 (1982) 293, evaluated apart',
  status: 'computed',
  compute: () => splitGlobal(clearness),
});

export const cases: TruthCase[] = [
  erbs(0.1, 0.991),
  erbs(0.22, 0.9802),
  erbs(0.3, 0.9486),
  erbs(0.4, 0.84),
  erbs(0.5, 0.6591),
  erbs(0.6, 0.4395),
  erbs(0.7, 0.244),
  erbs(0.8, 0.1653),
  erbs(0.9, 0.165),
];
