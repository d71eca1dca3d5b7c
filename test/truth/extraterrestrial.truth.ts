import { extraterrestrialNormal } from '../../sim/sun/extraterrestrialNormal.ts';
import { sunFromHourAngle } from '../../sim/sun/solarPosition.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Outside the air';
const spencer = 'J. W. Spencer, Search 2 (1971) 172';
const fao = 'R. G. Allen et al., FAO Irrigation and Drainage Paper 56 (1998)';
const duffie = 'J. A. Duffie and W. A. Beckman, Solar Engineering of Thermal Processes';

/** Irradiation of the flat ground without air over an arc of hour angles, MJ/m2, summed in steps of a minute. */
function flat_MJ_m2(
  day: number,
  declination_deg: number,
  latitude_deg: number,
  constant_W_m2: number,
  from_h: number,
  to_h: number,
): number {
  const steps = Math.round((to_h - from_h) * 60);
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const hourAngle_deg = 15 * (from_h + ((i + 0.5) * (to_h - from_h)) / steps - 12);
    const { altitude_deg } = sunFromHourAngle(declination_deg, hourAngle_deg, latitude_deg);
    sum += Math.max(0, Math.sin((altitude_deg * Math.PI) / 180));
  }
  return (sum * extraterrestrialNormal(day, constant_W_m2) * ((to_h - from_h) * 3600)) / steps / 1e6;
}

const ratio = (day: number, expected: number): TruthCase => ({
  topic,
  what: `irradiance over solar constant, day ${day}`,
  unit: '1',
  expected,
  tolerance: 2e-5,
  why: 'the same series, five decimals',
  source: `${spencer}, series evaluated apart`,
  status: 'computed',
  compute: () => extraterrestrialNormal(day, 1),
});

/** Declination as the paper gives it, degrees. */
const faoDeclination = (day: number) => (0.409 * Math.sin((2 * Math.PI * day) / 365 - 1.39) * 180) / Math.PI;

const monthRow = (latitude_deg: number, month: 'January' | 'December', expected: number): TruthCase => ({
  topic,
  what: `day's irradiation, ${latitude_deg} N, 15 ${month}`,
  unit: 'MJ/m2',
  expected,
  tolerance: 0.1,
  why: 'one decimal; a simpler series for the distance of the sun',
  // Of the table only the column of January was seen.
  ...(month === 'January'
    ? { source: `${fao}, annex 2, table 2.6`, status: 'printed' }
    : { source: `${fao}, equations 21 to 25 evaluated apart`, status: 'computed' }),
  compute: () => {
    const day = month === 'January' ? 15 : 349;
    return flat_MJ_m2(day, faoDeclination(day), latitude_deg, 1366.7, 0, 24);
  },
});

export const cases: TruthCase[] = [
  ratio(1, 1.03505),
  ratio(3, 1.03508),
  ratio(172, 0.96744),
  ratio(185, 0.96659),
  ratio(344, 1.0319),
  ratio(355, 1.03412),
  {
    topic,
    what: "day's irradiation, 20 S, 3 September",
    unit: 'MJ/m2',
    expected: 32.2,
    tolerance: 0.16,
    why: 'another series for the distance of the sun, 0.5 percent',
    source: `${fao}, example 8`,
    status: 'printed',
    compute: () => flat_MJ_m2(246, faoDeclination(246), -20, 1366.7, 0, 24),
  },
  {
    topic,
    what: "day's irradiation, 22.9 S, 15 May",
    unit: 'MJ/m2',
    expected: 25.1,
    tolerance: 0.13,
    why: 'another series for the distance of the sun, 0.5 percent',
    source: `${fao}, example 10`,
    status: 'printed',
    compute: () => flat_MJ_m2(135, faoDeclination(135), -22.9, 1366.7, 0, 24),
  },
  monthRow(66, 'January', 0.6),
  monthRow(64, 'January', 1.4),
  monthRow(62, 'January', 2.3),
  monthRow(60, 'January', 3.3),
  monthRow(58, 'January', 4.3),
  monthRow(60, 'December', 2.2),
  monthRow(56, 'December', 4.1),
  monthRow(52, 'December', 6.3),
  monthRow(40, 'December', 13.6),
  {
    topic,
    what: "day's irradiation, 43 N, 15 April",
    unit: 'MJ/m2',
    expected: 33.8,
    tolerance: 0.1,
    why: '0.3 percent, rounding of the book',
    source: `${duffie}, example 1.10.1`,
    status: 'answer from memory',
    compute: () => flat_MJ_m2(105, 9.41, 43, 1367, 0, 24),
  },
  {
    topic,
    what: "hour's irradiation, 43 N, 15 April, 10 to 11 h solar time",
    unit: 'MJ/m2',
    expected: 3.79,
    tolerance: 0.011,
    why: '0.3 percent, rounding of the book',
    source: `${duffie}, example 1.10.2`,
    status: 'answer from memory',
    compute: () => flat_MJ_m2(105, 9.41, 43, 1367, 10, 11),
  },
];
