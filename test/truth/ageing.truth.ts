import { LIFE_LAWS, lifeRating, wearRate_per_h } from '../../sim/ageing/capacitorWear.ts';
import { lightLeft } from '../../sim/ageing/lightLoss.ts';
import { capacitorSchema } from '../../sim/lamp/capacitor/schema.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Ageing';
const DERIVED = { status: 'derived here' } as const;

const rating = lifeRating(
  capacitorSchema.parse({ capacitance_F: 360, rated_V: 2.7, life: { hours: 1000, at_degC: 65 } }),
);

/** Times that a life is longer at a voltage and a temperature than at the rating's, by a law. */
const longer = (law: number, part_V: number, part_degC: number) =>
  1 / (wearRate_per_h(rating, LIFE_LAWS[law]!, part_V, part_degC) * rating.hours);

/** A multiplier worked by hand from published factors. */
const multiplier = (law: number, expected: number, source: string): TruthCase => ({
  topic,
  what: `life of a capacitor from 65 degC and 2.7 V to 20 degC and 2.4 V, ${LIFE_LAWS[law]!.name} factor`,
  unit: 'times',
  expected,
  tolerance: expected / 500,
  why: 'three digits of the product of two factors',
  source,
  ...DERIVED,
  compute: () => longer(law, 2.4, 20),
});

/** A fact of the trade; reported, never tuned to. */
const fact = (
  what: string,
  unit: string,
  [low, high]: readonly [number, number],
  why: string,
  compute: () => number,
): TruthCase => ({
  topic,
  what,
  unit,
  expected: (low + high) / 2,
  tolerance: (high - low) / 2,
  why,
  source: 'common practice, no source',
  status: 'common practice',
  reportOnly: true,
  compute,
});

export const cases: TruthCase[] = [
  multiplier(
    0,
    49.7,
    "2 per 10 K and 1.3 per 0.1 V, a maker's guide to the prediction of life, multiplied by hand",
  ),
  multiplier(1, 64, '2 per 10 K and 2 per 0.2 V, usual guides of makers, from memory, multiplied by hand'),
  multiplier(
    2,
    181,
    '2 per 10 K and 2 per 0.1 V, Linzen et al. 2005, Bohlen et al. 2007, Koetz et al. 2010, from memory, multiplied by hand',
  ),
  {
    topic,
    what: 'activation energy of a factor of 2 for each 10 K, from 25 to 35 degC',
    unit: 'eV',
    expected: 0.549,
    tolerance: 0.001,
    why: 'three digits',
    source: 'law of Arrhenius with the Boltzmann constant, solved by hand',
    ...DERIVED,
    compute: () =>
      (8.617333e-5 * Math.log(longer(1, 2.7, 25) / longer(1, 2.7, 35))) / (1 / 298.15 - 1 / 308.15),
  },
  {
    topic,
    what: 'light of a cell after 25 years at 0.5 percent a year',
    unit: 'percent',
    expected: 88.2,
    tolerance: 0.05,
    why: 'three digits of 0.995 to the power of 25',
    source:
      'D. C. Jordan and S. R. Kurtz, Progress in Photovoltaics 21 (2013) 12: the median, from memory, multiplied by hand',
    ...DERIVED,
    compute: () => 100 * lightLeft({ cell: 0.005, yellowing: 0, dirt: 0 }, 25, true),
  },
  ...LIFE_LAWS.map(({ name }, law) =>
    fact(
      `life of a capacitor from 2.7 to 2.2 V, ${name} factor`,
      'times',
      [2, 3],
      'a bit more than twice',
      () => longer(law, 2.2, 25) / longer(law, 2.7, 25),
    ),
  ),
  ...LIFE_LAWS.map(({ name }, law) =>
    fact(
      `years of a capacitor at 2.7 V and 15 degC until 30 percent are lost, ${name} factor`,
      'a',
      [7, 14],
      'about ten years; 1000 h at 65 degC are taken',
      () => (longer(law, 2.7, 15) * rating.hours) / 8766,
    ),
  ),
  ...LIFE_LAWS.map(({ name }, law) =>
    fact(
      `years of a capacitor at 2.4 V and 15 degC until 30 percent are lost, ${name} factor`,
      'a',
      [20, 50],
      '20 to 50 years in service; 1000 h at 65 degC are taken, and a voltage and a temperature that stay',
      () => (longer(law, 2.4, 15) * rating.hours) / 8766,
    ),
  ),
];
