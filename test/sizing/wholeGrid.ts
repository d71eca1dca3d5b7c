import { expect } from 'vitest';
import { HOUR_MS } from '../../sim/common/time.ts';
import { DesignBounds } from '../../sim/sizing/DesignBounds.ts';
import { type DesignSpace, designSpace } from '../../sim/sizing/DesignSpace.ts';
import { DesignTrials } from '../../sim/sizing/DesignTrials.ts';
import { designAt } from '../../sim/sizing/designAt.ts';
import type { SizedDesign, SizingAnswer } from '../../sim/sizing/SizedDesign.ts';
import { type SizingOptions, sizeLamp } from '../../sim/sizing/sizeLamp.ts';
import { scenarioLights } from '../../sim/trial/scenarioLights.ts';
import type { WeatherRecord } from '../../sim/weather/WeatherRecord.ts';
import { inventedRecord } from '../climate/inventedRecord.ts';
import { changed, load } from '../scenario/writeScenario.ts';

/** Spaces that differ in what a bound could stumble over: pieces of the sound scenario changed, and its choices. */
export const SPACES: Readonly<Record<string, { changes: [string, string][]; choices: string }>> = {
  'an inductor, capacitors and cells': {
    changes: [],
    choices:
      '{ stand: { cell_tilt_deg: [10, 60] }, cell: { parallel: [1, 2] }, capacitor: { capacitance_F: 150..1000 by E3, delayed_share: [0, 0.2] }, driver: { inductance_uH: [330, 680] } }',
  },
  'a restart far above the cut-off, needing dusk': {
    changes: [
      [
        'driver: { part: inductor-driver }',
        'driver: { part: inductor-driver, restart_V: 1.6, restart_needs: dusk }',
      ],
    ],
    choices:
      '{ cell: { shunt_V: [30, 300] }, capacitor: { capacitance_F: [47, 150, 470], limiter: [none, { at_V: 2 }] }, driver: { restart_V: [1.1, 1.6], inductance_uH: [330, 1000] } }',
  },
  'constant power, dimmed until dawn': {
    changes: [
      [
        'driver: { part: inductor-driver }',
        'driver: { kind: power, power_mW: 10, efficiency: 0.8, cutoff_V: 0.9, standby_uA: 10, below_cutoff_uA: 2, price: 1 }',
      ],
      [
        'schedule: { on: dusk, hours: 8 }',
        'schedule: { on: dusk, until: dawn, dim: [{ after_h: 4, light_share: 0.4 }] }',
      ],
      ['promise: { from: dusk, hours: 6,', 'promise: { from: dusk, hours: 9,'],
    ],
    choices:
      '{ cell: { parallel: [1, 2, 3] }, capacitor: { capacitance_F: [220, 680], parallel: [1, 2] }, driver: { power_mW: [4, 10, 20] }, led: { count: [1, 2] } }',
  },
  'a conductance that fades, lit by the clock also by day': {
    changes: [
      [
        'driver: { part: inductor-driver }',
        'driver: { kind: conductance, conductance_mS: 6, efficiency: 0.7, cutoff_V: 0.8, standby_uA: 5, below_cutoff_uA: 5, price: 1 }',
      ],
      ['schedule: { on: dusk, hours: 8 }', "schedule: { on: '16:00', until: '23:30' }"],
      ['promise: { from: dusk, hours: 6,', "promise: { from: '18:00', until: '23:00',"],
    ],
    choices:
      '{ cell: { parallel: [1, 2] }, capacitor: { capacitance_F: [100, 330, 1000], delayed_share: [0.05, 0.2] }, driver: { conductance_mS: [2, 4, 8] } }',
  },
  'motion, sensed dark and a start': {
    changes: [
      [
        'schedule: { on: dusk, hours: 8 }',
        'schedule: { on: dark, sense: { by: cell-voltage, night_below_V: 0.8, day_above_V: 1 }, motion: { triggers_per_h: 6, shines_s: 120 } }',
      ],
      ['spots:', 'start: { capacitor_V: 1.3 }\nspots:'],
    ],
    choices:
      '{ cell: { parallel: [1, 2] }, capacitor: { capacitance_F: [10, 22, 100] }, driver: { inductance_uH: [150, 330] }, schedule: { on_share: [1, 0.5] } }',
  },
};

/** A part with a price. */
const JAR = ['    schedule:', '    jar: { part: small-jar }\n    schedule:'] as const;

/** A space of the list. in: text, added to the scenario */
export function spaceOf({ changes, choices }: (typeof SPACES)[string]): DesignSpace {
  return designSpace(load(`${changed(...changes, JAR)}choices: ${choices}\n`));
}

/** Some of invented winters, brighter or duller. in: seed; days from 1 October on; share of the light */
export function someWeather(seed: number, days: number, share = 1): WeatherRecord {
  const whole = inventedRecord(1, seed);
  const first = 92 * 24;
  const count = days === 365 ? whole.count : days * 24;
  const from = days === 365 ? 0 : first;
  const { ghi_W_m2, air_degC, mark } = whole;
  return {
    ...whole,
    start_ms: whole.start_ms + from * HOUR_MS,
    count,
    ghi_W_m2: ghi_W_m2.slice(from, from + count).map((ghi) => share * ghi),
    air_degC: air_degC.slice(from, from + count),
    mark: mark.slice(from, from + count),
  };
}

/** The answer of a search beside that of a run of every design, whose bounds are looked at too. */
export async function beside(space: DesignSpace, weather: WeatherRecord, options: SizingOptions) {
  const trials = new DesignTrials(space, scenarioLights(space.scenario, weather));
  const bounds = new DesignBounds(trials);
  const all: SizedDesign[] = [];
  for (let index = 0; index < space.count; index++) {
    const design = designAt(space, index);
    const lamp = trials.lamp(design);
    if ('why' in lamp) continue;
    const outcome = trials.outcome(design, lamp);
    if ('why' in outcome) continue;
    const atBest = bounds.of(design, lamp);
    const what = JSON.stringify([design.chosen.map(({ value }) => value), atBest, outcome]);
    expect(atBest.failedNights, what).toBeLessThanOrEqual(outcome.failedNights);
    expect(atBest.keptWinters, what).toBeGreaterThanOrEqual(outcome.keptWinters);
    expect(atBest.light_lm_h, what).toBeGreaterThanOrEqual(outcome.light_lm_h);
    expect(atBest.winters).toBe(outcome.winters);
    all.push({ design, ...outcome });
  }
  const answer = await sizeLamp(space, weather, { threads: 0, ...options });
  expect(namesIn(answer)).toEqual(namesAmong(all, options));
  expect(answer.front.map(numbersOf)).toEqual(frontOf(all).map(numbersOf));
  return { all, answer };
}

const numbersOf = ({ design, ...outcome }: SizedDesign) => ({ index: design.index, ...outcome });

/** Who is the answer to what. */
function namesIn({ cheapest, nearest, brightest, leastChange, oneOrTwo }: SizingAnswer) {
  const who = (one: SizedDesign | undefined) => one?.design.index;
  return {
    cheapest: who(cheapest),
    nearest: who(nearest),
    brightest: who(brightest),
    leastChange: who(leastChange),
    one: who(oneOrTwo?.one),
  };
}

/** The same by looking at all. */
function namesAmong(
  all: readonly SizedDesign[],
  { budget = Number.NEGATIVE_INFINITY, mustKeep = 1 }: SizingOptions,
) {
  const kept = all.filter(({ keptWinters, winters }) => keptWinters >= mustKeep * winters - 1e-9);
  const best = (some: readonly SizedDesign[], ...of: ((one: SizedDesign) => number)[]) =>
    some.toSorted((a, b) => {
      const found = of.find((value) => value(a) !== value(b));
      return found === undefined ? a.design.index - b.design.index : found(a) - found(b);
    })[0];
  const price = ({ design }: SizedDesign) => design.price!;
  const dark = ({ light_lm_h }: SizedDesign) => -light_lm_h;
  const failed = ({ failedNights }: SizedDesign) => failedNights;
  const short = ({ short_h }: SizedDesign) => short_h;
  const changes = ({ design }: SizedDesign) => design.changed.length;
  const cheapest = best(kept, price, dark);
  const bright = kept.filter(({ light_lm_h }) => light_lm_h >= 2 * (cheapest?.light_lm_h ?? 0));
  const within = kept.filter((one) => price(one) <= budget);
  return {
    cheapest: cheapest?.design.index,
    nearest: (kept.length > 0 ? undefined : best(all, failed, short, price))?.design.index,
    brightest: best(within, dark, price)?.design.index,
    leastChange: best(kept, changes, price)?.design.index,
    one: cheapest && best(bright, price, dark)?.design.index,
  };
}

/** All that nothing beats, each compared with each. */
function frontOf(all: readonly SizedDesign[]): SizedDesign[] {
  const values = ({ design, failedNights, light_lm_h }: SizedDesign) => [
    design.price!,
    failedNights,
    -light_lm_h,
  ];
  const beaten = (one: SizedDesign) =>
    all.some((other) => {
      const [a, b] = [values(other), values(one)];
      if (!a.every((value, k) => value <= b[k]!)) return false;
      return a.some((value, k) => value < b[k]!) || other.design.index < one.design.index;
    });
  return all
    .filter((one) => !beaten(one))
    .sort((a, b) => {
      const [p, q] = [values(a), values(b)];
      const k = p.findIndex((value, n) => value !== q[n]);
      return p[k]! - q[k]!;
    });
}
