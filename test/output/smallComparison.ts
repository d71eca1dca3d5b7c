import type { ComparedSpot, ComparedTrial, Comparison } from '../../sim/trial/Comparison.ts';
import type { ChargeClaim } from '../../sim/trial/chargeClaim.ts';
import { seasonMonths } from '../../sim/trial/monthlyLight.ts';

const MONTHS = seasonMonths(false);

const CLAIM: ChargeClaim = {
  full_V: 2.184,
  full_J: 1009.6,
  fill_h: 0.3545,
  months: MONTHS.map((month) => ({ month, evenings: 30, full: 15, medianShare: 0.91 })),
  winter: { evenings: 90, full: 10, medianShare: 0.684 },
  year: { evenings: 365, full: 170, medianShare: 0.886 },
  inWinter: 'fails',
  monthsHeld: 6,
  monthsKnown: 12,
};

/** An invented trial that failed on 18 nights; `changes` say what is different. */
export function smallCompared(changes: Partial<ComparedTrial> = {}): ComparedTrial {
  return {
    scenario: 'invented',
    spot: 'lawn',
    lamp: 'single',
    verdict: 'broken',
    winters: 1,
    nights: 365,
    failedNights: 18,
    failedOut: 5,
    promised_h: 2190,
    short_h: 30.84,
    dim_h: 20.04,
    out_h: 10.8,
    longestSpell: { from: '2025-12-29', to: '2026-01-03', nights: 6 },
    darkestFortnight: {
      from: '2025-12-17',
      to: '2025-12-30',
      short_h: 18.9,
      failedNights: 11,
      lightOnCell_Wh_m2: 850,
      lowestCapacitor_V: 0.9,
    },
    smallestReserve_J: 71.2,
    smallestReserveNight: '2025-12-30',
    lightGiven_lm_h: 9679,
    months: MONTHS.map((month) => ({
      month,
      nights: 30,
      failedNights: month === 12 ? 18 : 0,
      short_h: month === 12 ? 30.84 : 0,
      lightGiven_lm_h: 800 + 1 / 3,
    })),
    inSpot: {
      daylight_h: 497,
      reachableBelowCutoff_h: 76,
      reachableBelowCapacitor_h: 127,
      unharvestedShare: 0.0833,
      leakageShare: 0.00158,
    },
    claim: CLAIM,
    money: { currency: 'EUR', price: 12.5, unpriced: [], lightForUnit_lm_h: 774.32 },
    flags: [],
    ...changes,
  };
}

/** An invented spot behind a wall, with a picture of four cells; `changes` say what is different. */
export function smallSpot(changes: Partial<ComparedSpot> = {}): ComparedSpot {
  return {
    scenario: 'invented',
    spot: 'lawn',
    months: MONTHS.map((month) => ({
      month,
      days: 30,
      lightOnCell_Wh_m2_day: 200 + month / 3,
      beam_Wh_m2_day: 50,
      sky_Wh_m2_day: 140,
      reflected_Wh_m2_day: 10 + month / 3,
      ghi_Wh_m2_day: 412,
      shareOfOpen: (200 + month / 3) / 412,
    })),
    limits: {
      months: [12, 1],
      coverShare: 0.71,
      lightShare: 0.5,
      skyShare: 0.9,
      beamShare: 0,
      sunshine_h: 114,
      beam_h: 0,
      snowShare: 0,
      reflectedShare: 0.014,
      mostLost: 'beam',
    },
    cover: 'flat',
    dullShare: 0.87,
    limitedBy: 'beam',
    picture: {
      grid: {
        bearing_deg: [45, 135, 225, 315],
        elevation_deg: [22.5, 67.5],
        inLeaf: [
          [1, 0, 0, 1],
          [1, 1, 1 / 3, 1],
        ],
        bare: undefined,
      },
      outlines: [
        { name: 'wall', kind: 'wall', points: [{ bearing_deg: 180, from_deg: 0, to_deg: 100 / 3 }] },
      ],
      sunPaths: [{ month: 12, points: [{ bearing_deg: 180, elevation_deg: 12.56789, passes: 0 }] }],
      months: MONTHS.map((month) => ({ month, sun_h: 8, beam_h: 0.4 })),
    },
    hasSurroundings: true,
    ...changes,
  };
}

/** An invented comparison by spot. */
export function smallComparison(changes: Partial<Comparison> = {}): Comparison {
  const weather = {
    sha256: 'cd'.repeat(32),
    first_utc: '2025-01-01T00:00:00Z',
    hours: 8760,
    filled_hours: 0,
    options: { stamp: 'start_utc, UTC' },
  };
  const trials = [smallCompared(), smallCompared({ spot: 'north-of-the-house', verdict: 'kept' })];
  return {
    by: 'spot',
    scenarios: [
      {
        name: 'invented',
        file: '/home/someone/invented.yaml',
        sha256: 'ab'.repeat(32),
        seed: 7,
        latitude_deg: 54,
        longitude_deg: 10,
        timeZone: 'Europe/Berlin',
        promise: { from: 'dusk', hours: 6, least_lumen: 0.5, tolerance_h: 0.25 },
        questions: [],
        weather,
      },
    ],
    southern: false,
    sameWeather: true,
    differences: [],
    months: MONTHS,
    axes: {
      light_Wh_m2_day: 412,
      failedNights_month: 18,
      short_h_month: 30.84,
      lightGiven_lm_h_month: 800 + 1 / 3,
    },
    spots: [smallSpot(), smallSpot({ spot: 'north-of-the-house' })],
    trials,
    decisive: (changes.trials ?? trials).map((_, place) => place),
    tables: [{ name: 'single', trials: [0, 1] }],
    cautions: ['A charged supercapacitor gives hundreds of amperes when shorted.'],
    ...changes,
  };
}
