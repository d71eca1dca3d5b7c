import { haurwitzGlobal, ineichenClearSky } from '../../sim/sun/ineichenClearSky.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Clear sky';
const cosine = (zenith_deg: number) => Math.cos((zenith_deg * Math.PI) / 180);

const haurwitz = (zenith_deg: number, expected: number): TruthCase => ({
  topic,
  what: `global, zenith ${zenith_deg} deg, by sun height alone`,
  unit: 'W/m2',
  expected,
  tolerance: 0.01,
  why: 'the same formula, two decimals',
  source:
    'B. Haurwitz, J. Meteorology 2 (1945) 154, with 1098 and 0.059 as later reports list them, evaluated apart',
  status: 'computed',
  compute: () => haurwitzGlobal(cosine(zenith_deg)),
});
const ineichen = (zenith_deg: number, expected: number): TruthCase => ({
  topic,
  what: `global, zenith ${zenith_deg} deg, Linke turbidity 3, sea level`,
  unit: 'W/m2',
  expected,
  tolerance: 0.02,
  why: 'the same formula, two decimals',
  source:
    'P. Ineichen and R. Perez, Solar Energy 73 (2002) 151, with exp(0.01 m^1.8) of R. Perez and others, 73 (2002) 307: from memory, evaluated apart',
  status: 'computed, from memory',
  compute: () => ineichenClearSky(90 - zenith_deg, 1367, 0, 3).ghi_W_m2,
});
const models = (zenith_deg: number): TruthCase => ({
  topic,
  what: `one clear-sky model over the other, zenith ${zenith_deg} deg`,
  unit: '1',
  expected: 1,
  tolerance: 0.03,
  why: 'two independent models of an ordinary clear sky',
  source: 'no outside value: one against the other (Ineichen and Perez from memory)',
  status: 'derived here',
  compute: () => ineichenClearSky(90 - zenith_deg, 1367, 0, 3).ghi_W_m2 / haurwitzGlobal(cosine(zenith_deg)),
});

export const cases: TruthCase[] = [
  haurwitz(0, 1035.09),
  haurwitz(30, 888.27),
  haurwitz(60, 487.89),
  haurwitz(75, 226.25),
  haurwitz(80, 135.74),
  haurwitz(85, 48.63),
  haurwitz(88, 7.07),
  ineichen(0, 1067.14),
  ineichen(30, 910.44),
  ineichen(60, 487.25),
  ineichen(75, 220.47),
  ineichen(80, 134.39),
  models(60),
  models(75),
  models(80),
];
