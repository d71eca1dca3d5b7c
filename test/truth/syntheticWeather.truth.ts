import { dailyClearness } from '../../data-samples/make/dailyClearness.ts';
import { bendt, highestClearness, hollandsHuget } from '../../sim/climate/ClearnessDistribution.ts';
import { randomStream } from '../../sim/common/random.ts';
import { hourShare } from '../../sim/sun/dayShape.ts';
import type { TruthCase } from './TruthCase.ts';

const TOPIC = 'Made-up weather';

/** Mean clearness, brightest day, slope, share of days below 0.1 and below 0.2. */
const BENDT_ROWS = [
  [0.15, 0.4715, -9.1733, 0.3757, 0.7634],
  [0.2, 0.5851, -5.6267, 0.2579, 0.5996],
  [0.25, 0.6516, -3.5941, 0.1859, 0.4709],
  [0.3, 0.6914, -2.1252, 0.1355, 0.3668],
  [0.35, 0.717, -0.9086, 0.0977, 0.2804],
  [0.4, 0.7354, 0.1863, 0.0687, 0.2081],
  [0.5, 0.7646, 2.272, 0.0295, 0.0997],
  [0.6, 0.7915, 4.6209, 0.0087, 0.0336],
] as const;

const BENDT_SOURCE =
  'Bendt, Collares-Pereira and Rabl, Solar Energy 27 (1981) 1; ends as in Duffie and Beckman eqs. 2.9.4 to 2.9.6; slope from the exact equation of the mean, solved apart from this project';

function bendtCase(what: string, expected: number, compute: () => number): TruthCase {
  return {
    topic: TOPIC,
    what,
    unit: '1',
    expected,
    tolerance: 1e-4,
    why: 'four decimals',
    source: BENDT_SOURCE,
    status: 'computed',
    compute,
  };
}

const bendtCases = BENDT_ROWS.flatMap(([mean, highest, slope, below1, below2]) => [
  bendtCase(`brightest day at mean clearness ${mean}`, highest, () => highestClearness(mean)),
  bendtCase(`slope of the distribution at mean clearness ${mean}`, slope, () => bendt(mean).slope),
  bendtCase(`share of days below 0.1 at mean clearness ${mean}`, below1, () => bendt(mean).shareDuller(0.1)),
  bendtCase(`share of days below 0.2 at mean clearness ${mean}`, below2, () => bendt(mean).shareDuller(0.2)),
]);

/** Mean clearness, share of days below 0.1 and below 0.2, by the printed fit of the slope. */
const HOLLANDS_ROWS = [
  [0.25, 0.2696, 0.4844],
  [0.3, 0.2034, 0.3869],
  [0.4, 0.1066, 0.2261],
  [0.5, 0.0454, 0.1084],
] as const;

const hollandsCases = HOLLANDS_ROWS.flatMap(([mean, ...shares]) =>
  shares.map(
    (share, i): TruthCase => ({
      topic: TOPIC,
      what: `share of days below 0.${i + 1} at mean clearness ${mean}, the other distribution`,
      unit: '1',
      expected: share,
      tolerance: 1e-3,
      why: 'the printed fit misses the mean by up to 0.0004; ours solves it',
      source:
        'Hollands and Huget, Solar Energy 30 (1983) 195, the fit of its slope (from memory), computed apart from this project',
      status: 'computed, from memory',
      compute: () => hollandsHuget(mean).shareDuller((i + 1) / 10),
    }),
  ),
);

/** Month, mean clearness, limit, share of days below it, evaluated by ourselves from measured hours. */
const MEASURED_ROWS = [
  ['November', 0.29, 0.1, 0.148],
  ['November', 0.29, 0.2, 0.406],
  ['December', 0.251, 0.1, 0.208],
  ['December', 0.251, 0.2, 0.501],
  ['January', 0.291, 0.1, 0.141],
  ['January', 0.291, 0.2, 0.413],
] as const;

const measuredCases = MEASURED_ROWS.map(
  ([month, mean, limit, share]): TruthCase => ({
    topic: TOPIC,
    what: `measured share of days below ${limit} in ${month} at 57.7 N, mean clearness ${mean}`,
    unit: '1',
    expected: share,
    tolerance: 2 * Math.sqrt((share * (1 - share)) / 330),
    why: 'two standard errors of a share of about 330 days',
    source:
      'own evaluation of open hourly observations of global irradiance at Göteborg, 57.69 N, 2011 to 2021',
    status: 'own evaluation',
    compute: () => bendt(mean).shareDuller(limit),
  }),
);

const DUFFIE_BECKMAN = 'Collares-Pereira and Rabl, Solar Energy 22 (1979) 155; Duffie and Beckman';

/** Example, hour angle and sunset angle in degrees, share as remembered. */
const HOUR_ROWS = [
  ['2.13.1 (38 S, January, 8 to 9 h)', -52.5, 107.4, 0.076],
  ['2.13.2 (43 N, 23 August, 13 to 14 h)', 22.5, 100.5, 0.118],
  ['2.13.3 (43 N, June, 13 to 14 h)', 22.5, 113.4, 0.108],
] as const;

const hourCases = HOUR_ROWS.map(
  ([example, hourAngle_deg, sunset_deg, share]): TruthCase => ({
    topic: TOPIC,
    what: `share of the day's light in the hour, example ${example}`,
    unit: '1',
    expected: share,
    tolerance: 6e-4,
    why: 'three decimals; sunset angle given to 0.1 degrees',
    source: `${DUFFIE_BECKMAN}, example ${example.slice(0, 6)}`,
    status: 'answer from memory',
    compute: () => hourShare(hourAngle_deg, sunset_deg),
  }),
);

const DAYS = 36_500;
const PERSISTENCE = 0.29;

/** A hundred years of days of one season. Every case draws the same ones. */
function manyDays(): Float64Array {
  const day = bendt(0.3);
  const persistence = new Float64Array(DAYS).fill(PERSISTENCE);
  return dailyClearness(
    Array.from({ length: DAYS }, () => day),
    persistence,
    randomStream(1, 'truth of daily clearness'),
  ).brightness;
}

function correlation(values: Float64Array, lag: number): number {
  let product = 0;
  let square = 0;
  values.forEach((value, i) => {
    square += value * value;
    if (i >= lag) product += value * values[i - lag]!;
  });
  return product / square;
}

/** Share of pairs of successive days both below a normal number. */
function bothBelow(values: Float64Array, limit: number): number {
  let both = 0;
  for (let i = 1; i < values.length; i++) if (values[i]! < limit && values[i - 1]! < limit) both++;
  return both / (values.length - 1);
}

/** Variance of the means of blocks of days. */
function varianceOfMeans(values: Float64Array, days: number): number {
  const blocks = Math.floor(values.length / days);
  let square = 0;
  for (let block = 0; block < blocks; block++) {
    const sum = values.subarray(block * days, (block + 1) * days).reduce((total, value) => total + value, 0);
    square += (sum / days) ** 2;
  }
  return square / blocks;
}

function sequenceCase(what: string, expected: number, tolerance: number, compute: () => number): TruthCase {
  return {
    topic: TOPIC,
    what,
    unit: '1',
    expected,
    tolerance,
    why: 'about three standard errors over 36500 drawn days',
    source:
      'exact for a first-order autoregression drawn with 0.29, the persistence of Graham, Hollands and Unny, Solar Energy 40 (1988) 83 (0.29 from memory)',
    status: 'derived here',
    compute,
  };
}

const sequenceCases = [
  sequenceCase('correlation of successive days', 0.29, 0.015, () => correlation(manyDays(), 1)),
  sequenceCase('correlation of days two apart', 0.0841, 0.016, () => correlation(manyDays(), 2)),
  sequenceCase('two successive days both in the dullest tenth', 0.02115, 0.0025, () =>
    bothBelow(manyDays(), -1.2815516),
  ),
  sequenceCase('two successive days both below the median', 0.29683, 0.01, () => bothBelow(manyDays(), 0)),
  sequenceCase('variance of the mean of 7 days over that of a day', 0.2361, 0.015, () =>
    varianceOfMeans(manyDays(), 7),
  ),
  sequenceCase('variance of the mean of 14 days over that of a day', 0.1239, 0.011, () =>
    varianceOfMeans(manyDays(), 14),
  ),
];

const daySum: TruthCase = {
  topic: TOPIC,
  what: 'sum of the hourly shares over a day in June at 43 N',
  unit: '1',
  expected: 1,
  tolerance: 0.005,
  why: 'the fit of the paper does not add up to 1 exactly',
  source: 'the shares of a whole add up to 1',
  status: 'derived here',
  compute: () =>
    Array.from({ length: 24 }, (_, hour) => hourShare(hour * 15 - 172.5, 113.4)).reduce((a, b) => a + b, 0),
};

/** Daily and hourly laws behind the invented year. */
export const cases: TruthCase[] = [
  ...bendtCases,
  ...hollandsCases,
  ...measuredCases,
  ...hourCases,
  daySum,
  ...sequenceCases,
];
