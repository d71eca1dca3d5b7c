import { relativeAirMass } from '../../sim/sun/ineichenClearSky.ts';
import type { TruthCase } from './TruthCase.ts';

const paper = 'F. Kasten and A. T. Young, Applied Optics 28 (1989) 4735';

const table = (altitude_deg: number, expected: number): TruthCase => ({
  topic: 'Air mass',
  what: `air mass at ${altitude_deg} deg, table`,
  unit: '1',
  expected,
  tolerance: expected * 0.005,
  why: 'the formula is a fit to the table, within 0.5 percent',
  source: `${paper}, table II`,
  status: 'printed',
  compute: () => relativeAirMass(altitude_deg),
});
const formula = (zenith_deg: number, expected: number): TruthCase => ({
  topic: 'Air mass',
  what: `air mass at zenith ${zenith_deg} deg, formula`,
  unit: '1',
  expected,
  tolerance: 1e-4,
  why: 'the same formula, four decimals',
  source: `${paper}, equation 3 evaluated apart`,
  status: 'computed',
  compute: () => relativeAirMass(90 - zenith_deg),
});

export const cases: TruthCase[] = [
  table(0, 38.0868),
  table(1, 26.2595),
  table(5, 10.3164),
  table(10, 5.5841),
  formula(0, 0.9997),
  formula(30, 1.154),
  formula(45, 1.4126),
  formula(60, 1.9943),
  formula(75, 3.8129),
  formula(80, 5.586),
  formula(85, 10.3058),
  formula(88, 19.4332),
  formula(90, 37.9196),
];
