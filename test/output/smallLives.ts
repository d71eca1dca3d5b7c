import { NEW } from '../../sim/ageing/agedLamp.ts';
import { LIFE_LAWS } from '../../sim/ageing/capacitorWear.ts';
import type { LifeWinter } from '../../sim/ageing/LifeRun.ts';
import type { LampLife } from '../../sim/ageing/lampLife.ts';
import type { LifeSweep, LifeVariant, ScenarioLives, TrialLife } from '../../sim/ageing/ScenarioLives.ts';

/** Shares of the rated life that a year spends, by the low, the middle and the high factor: invented. */
const WEAR = [0.044, 0.026, 0.004];

/** An invented life: even fades, and failed nights from the winter that breaks the promise on. */
function smallLife(law: number, breaks: number | undefined, years: number, limit = 1): LampLife {
  const wear = WEAR[law]! * limit;
  const winters = Array.from({ length: years }, (_, k): LifeWinter => {
    const failedNights = breaks === undefined || k + 1 < breaks ? 0 : 1 + Math.floor((k + 1 - breaks) / 2);
    return {
      winter: k + 1,
      age: {
        ...NEW,
        capacitor: { capacitance: 0.7 ** (wear * k), resistance: 2 ** (wear * k), leakage: 2 ** (wear * k) },
        led: 0.99 ** k,
        cell: 0.995 ** k,
      },
      nights: 365,
      failedNights,
      short_h: 1.5 * failedNights,
      light_lm_h: 11_700 * 0.985 ** k * 0.7 ** (wear * k),
      broken: failedNights > 0 ? 1 : 0,
      smallestReserve_J: 200 - 12 * k,
    };
  });
  return {
    law: LIFE_LAWS[law]!.name,
    winters,
    breaks,
    throughWinters: 1,
    firstWear: wear,
    firstWearAtRated: 2 * wear,
    beyondRating_h: 0,
    pastRating: wear * years > 1 ? Math.ceil(1 / wear) + 1 : undefined,
  };
}

function smallBands(breaks: readonly (number | undefined)[], years: number): LampLife[] {
  return breaks.map((winter, law) => smallLife(law, winter, years));
}

function klm_h({ winters, breaks }: LampLife, all = false): number {
  const told = all || breaks === undefined ? winters : winters.slice(0, breaks - 1);
  return told.reduce((sum, { light_lm_h }) => sum + light_lm_h, 0) / 1000;
}

/** An invented trial whose promise first breaks in these winters, by the low, the middle and the high factor. */
export function smallTrialLife(
  breaks: readonly (number | undefined)[] = [12, 15, 21],
  changes: Partial<TrialLife> = {},
  years = 40,
): TrialLife {
  const bands = smallBands(breaks, years);
  return {
    spot: 'lawn',
    lamp: 'double',
    bands,
    ends: bands.map((life) => {
      if (life.breaks === undefined) return undefined;
      const { breaks: winter } = life;
      if (winter === 1) return { winter, withNew: [], by: undefined, together: false, renewed: undefined };
      const by = life.law === 'high' ? 'led' : 'capacitor';
      const renewed = { keeps: true, breaks: winter + 8 };
      return { winter, withNew: [{ part: by, failedNights: 0, ...renewed }], by, together: false, renewed };
    }),
    price: 38.2,
    totals: bands.map((life) => {
      const untilBreak_klm_h = klm_h(life);
      const cost_per_klm_h = untilBreak_klm_h > 0 ? 38.2 / untilBreak_klm_h : undefined;
      return { law: life.law, untilBreak_klm_h, overAll_klm_h: klm_h(life, true), cost_per_klm_h };
    }),
    renewal: bands.flatMap(({ law, breaks: winter }) =>
      winter === undefined || winter === 1
        ? []
        : [
            {
              law,
              part: law === 'high' ? ('led' as const) : ('capacitor' as const),
              winter,
              cost: law === 'high' ? 0.6 : 9.6,
              breaks: winter + 8 > years ? undefined : winter + 8,
            },
          ],
    ),
    cheapLamp: { price: 5, winters: 2, klm_h: 468, cost: 100, cost_per_klm_h: 100 / 468 },
    dry: Array.from({ length: years }, (_, k) => 0.99 ** (k + 1)),
    facts: bands.map(({ law }, k) => ({
      says: 'from 2.7 to 2.2 V a bit more than twice the life',
      law,
      holds: false,
      value: `${[3.7, 5.7, 32][k]} times`,
    })),
    ...changes,
  };
}

export function smallLives(trials = [smallTrialLife()], changes: Partial<ScenarioLives> = {}): ScenarioLives {
  return {
    scenario: 'invented',
    currency: 'EUR',
    years: trials[0]?.bands[0]?.winters.length ?? 0,
    cleaned: true,
    weather: 'the year of the scenario over and over',
    winters: 1,
    trials,
    assumptions: ['the lid is cleaned each spring', 'a seal fails in 1 of 100 years'],
    flags: [],
    ...changes,
  };
}

/** An invented sweep of the charge limit: the lower, the longer it lasts and the less it shines. */
export function smallSweep(values = [1.8, 2, 2.2, 2.4, 2.6]): LifeSweep {
  const variants = values.map((value): LifeVariant => {
    const bands = WEAR.map((_, law) =>
      smallLife(law, Math.round((10 + 3 * law) * (3.6 - value)), 40, value - 1.5),
    );
    return {
      label: `${value} V`,
      value,
      unit: 'V',
      bands,
      tonight: { failedNights: value < 2 ? 4 : 0, light_lm_h: 4000 * value },
      untilBreak_klm_h: bands.map((life) => klm_h(life) * (value - 1)),
    };
  });
  const cannot: LifeVariant = {
    label: '3 V',
    value: 3,
    unit: 'V',
    bands: [],
    tonight: { failedNights: 0, light_lm_h: 0 },
    untilBreak_klm_h: [],
    cannotBe: 'its capacitors are rated for 2.7 V',
  };
  const totals = variants.map(({ untilBreak_klm_h }) => untilBreak_klm_h[1]!);
  return {
    what: 'limit',
    spot: 'lawn',
    lamp: 'double',
    variants: [...variants, cannot],
    best: totals.indexOf(Math.max(...totals)),
  };
}
