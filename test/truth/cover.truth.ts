import {
  coverTransmittance,
  fresnelReflectance,
  resinTransmittance,
} from '../../sim/spot/cover/coverTransmittance.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Cover';
const duffie = (where: string) =>
  `J. A. Duffie and W. A. Beckman, Solar Engineering of Thermal Processes, ${where}; from memory`;
const clear = { refractiveIndex: 1.526, absorption_per_m: 0, thickness_m: 0.003 };
const book = { refractiveIndex: 1.526, absorption_per_m: 32, thickness_m: 0.0023 };

const of = (
  what: string,
  expected: number,
  tolerance: number,
  where: string,
  status: TruthCase['status'],
  compute: () => number,
): TruthCase => ({
  topic,
  what,
  unit: '1',
  expected,
  tolerance,
  why: tolerance > 1e-4 ? 'rounding of the book' : 'the same equations, four decimals',
  source: duffie(where),
  status,
  compute,
});
const oneClear = (angle_deg: number, expected: number) =>
  of(
    `one clear cover at ${angle_deg} deg`,
    expected,
    1e-4,
    'equation 5.1.8 evaluated apart',
    'computed, from memory',
    () => coverTransmittance(angle_deg, clear).transmittance,
  );
const layer = { refractiveIndex: 1.526, absorption_per_m: 4, thickness_m: 0.002 };
const oneSurface = (angle_deg: number, expected: number): TruthCase => ({
  topic,
  what:
    angle_deg === 0
      ? 'layer with one surface, straight through'
      : `the same at ${angle_deg} deg over straight through`,
  unit: '1',
  expected,
  tolerance: 1e-5,
  why: 'the same equations, five decimals',
  source:
    'W. De Soto, S. A. Klein and W. A. Beckman, Solar Energy 80 (2006) 78, equation for one surface evaluated apart; from memory',
  status: 'computed, from memory',
  compute: () => resinTransmittance(angle_deg, layer) / (angle_deg === 0 ? 1 : resinTransmittance(0, layer)),
});

export const cases: TruthCase[] = [
  oneSurface(0, 0.94902),
  oneSurface(30, 0.99789),
  oneSurface(45, 0.98798),
  oneSurface(60, 0.946),
  oneSurface(70, 0.85972),
  oneSurface(75, 0.77406),
  oneSurface(80, 0.63412),
  oneSurface(85, 0.40088),
  of(
    'reflectance of one surface at 0 deg',
    0.0434,
    2e-4,
    'example 5.1.1',
    'from memory',
    () => fresnelReflectance(0, 1.526).parallel,
  ),
  of(
    'across the plane of incidence, 60 deg',
    0.185,
    0.002,
    'example 5.1.1',
    'from memory',
    () => fresnelReflectance(60, 1.526).perpendicular,
  ),
  of(
    'in the plane of incidence, 60 deg',
    0.001,
    0.0005,
    'example 5.1.1',
    'from memory',
    () => fresnelReflectance(60, 1.526).parallel,
  ),
  {
    topic,
    what: 'angle inside the glass, incidence 60 deg',
    unit: 'deg',
    expected: 34.58,
    tolerance: 0.01,
    why: 'rounding of the book',
    source: duffie('example 5.1.1'),
    status: 'from memory',
    compute: () => fresnelReflectance(60, 1.526).refraction_deg,
  },
  oneClear(0, 0.9169),
  oneClear(30, 0.9145),
  oneClear(40, 0.908),
  oneClear(50, 0.8897),
  oneClear(60, 0.8421),
  oneClear(70, 0.7236),
  oneClear(80, 0.4554),
  oneClear(85, 0.2453),
  of(
    'absorption on one way, 2.3 mm of 32 /m at 60 deg',
    0.914,
    0.002,
    'example 5.2.1',
    'from memory',
    () => coverTransmittance(60, book).oneWay,
  ),
  of(
    'transmittance of that cover',
    0.768,
    0.002,
    'example 5.2.1',
    'from memory',
    () => coverTransmittance(60, book).transmittance,
  ),
  of(
    'reflectance of that cover',
    0.147,
    0.002,
    'example 5.2.1',
    'from memory',
    () => coverTransmittance(60, book).reflectance,
  ),
  of(
    'absorptance of that cover',
    0.085,
    0.002,
    'example 5.2.1',
    'from memory',
    () => coverTransmittance(60, book).absorptance,
  ),
  of(
    'transmittance of that cover straight through',
    0.8516,
    1e-4,
    'equations 5.3.1 to 5.3.3 evaluated apart',
    'computed, from memory',
    () => coverTransmittance(0, book).transmittance,
  ),
];
