import { beforeAll, describe, expect, it } from 'vitest';
import { changedLamp } from '../../sim/ageing/changedLamp.ts';
import { lifeFlags } from '../../sim/ageing/lifeAssumptions.ts';
import { lifeSweeps } from '../../sim/ageing/lifeSweep.ts';
import { type LifeWeather, recordedLife } from '../../sim/ageing/lifeWeather.ts';
import { lifePremises, scenarioLives } from '../../sim/ageing/ScenarioLives.ts';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import { loadWeather } from '../../sim/trial/loadWeather.ts';
import { namedTrials } from '../../sim/trial/namedTrials.ts';

const HERE = { threads: 0 };
let scenario: Scenario;
let weather: LifeWeather;
beforeAll(async () => {
  scenario = loadScenario('scenarios/invented-garden.yaml');
  weather = recordedLife(scenario, await loadWeather(scenario), ['lawn', 'north-side']);
});

const wishes = { years: 3, cleaned: true, spot: 'lawn', lamp: 'double' };

describe('lives of a scenario', () => {
  it('add up light and price, a cheap lamp beside them, and say what they assume', async () => {
    const lives = await scenarioLives(
      scenario,
      weather,
      { ...wishes, cheap: { price: 8, winters: 2 } },
      HERE,
    );
    const [trial] = lives!.trials;
    expect(lives).toMatchObject({ years: 3, winters: 1, cleaned: true });
    expect(lives!.partial).toBeUndefined();
    expect(trial!.bands.map(({ law }) => law)).toEqual(['low', 'middle', 'high']);
    const [first] = trial!.bands[0]!.winters;
    const sum = trial!.bands[0]!.winters.reduce((light, { light_lm_h }) => light + light_lm_h, 0) / 1000;
    expect(trial!.totals[0]!.overAll_klm_h).toBeCloseTo(sum, 9);
    expect(trial!.totals[0]!.untilBreak_klm_h).toBeCloseTo(sum, 9);
    expect(trial!.totals[0]!.cost_per_klm_h).toBeCloseTo(trial!.price! / sum, 9);
    // Two lamps at 8 over three winters, each with the light of the first.
    expect(trial!.cheapLamp!.cost).toBe(16);
    expect(trial!.cheapLamp!.klm_h).toBeCloseTo((3 * first!.light_lm_h) / 1000, 9);
    expect(trial!.dry.map((share) => share.toFixed(4))).toEqual(['1.0000', '0.9800', '0.9604']);
    expect(lives!.assumptions.join('\n')).toMatch(/life.*1000 h at 2.7 V and 65 degC/);
    expect(lives!.assumptions.join('\n')).toMatch(/seal_fails_percent_year: 2; no source/);
  });

  it('name parts in series that share the voltage by themselves', async () => {
    const lives = await scenarioLives(scenario, weather, { ...wishes, years: 1 }, HERE);
    const [spot] = scenario.spots;
    const lamp = scenario.lamps.find(({ name }) => name === 'double')!;
    const flagsOf = (keys: object) => {
      const capacitor = { ...lamp.section.capacitor, ...keys };
      const pair = { spot: spot!, lamp: { ...lamp, section: { ...lamp.section, capacitor } } };
      return lifeFlags([pair], lives!.trials).join();
    };
    expect(flagsOf({ series: 2 })).toMatch(/double in lawn: parts in series without balancing/);
    expect(flagsOf({ series: 2, balancing_kohm: 10 })).not.toMatch(/balancing/);
    expect(flagsOf({})).not.toMatch(/balancing/);
  });

  it('report the facts of the trade against each published factor, and tune nothing', async () => {
    const lives = await scenarioLives(scenario, weather, { ...wishes, years: 1 }, HERE);
    const { facts, bands } = lives!.trials[0]!;
    const half = facts.filter(({ says }) => says.startsWith('from 2.7 to 2.2 V'));
    expect(half.map(({ law, value, holds }) => [law, value, holds])).toEqual([
      ['low', '3.7 times', false],
      ['middle', '5.7 times', false],
      ['high', '32 times', false],
    ]);
    const service = facts.filter(({ says }) => says.startsWith('20 to 50 years'));
    expect(service.map(({ holds }) => holds)).toEqual(
      bands.map(({ firstWear }) => 1 / firstWear >= 20 && 1 / firstWear <= 50),
    );
  });

  it('refuse a record of less than a year', async () => {
    const record = (await loadWeather(scenario))!;
    const cut = (hours: number) =>
      Object.fromEntries(
        Object.entries(record).map(([key, value]) =>
          ArrayBuffer.isView(value) ? [key, (value as Float64Array).slice(0, hours)] : [key, value],
        ),
      );
    const short = { ...record, ...cut(4000), count: 4000 } as unknown as typeof record;
    delete short.sun;
    expect(() => recordedLife(scenario, short, ['lawn'])).toThrow(InputProblem);
    expect(() => recordedLife(scenario, short, ['lawn'])).toThrow(/166 days; expected a year/);
  });
});

describe('sweeps', () => {
  it('hold light tonight against winters, and name what cannot be', async () => {
    const pairs = namedTrials(scenario, wishes);
    const [limit, current, capacitors] = await lifeSweeps(
      scenario,
      pairs,
      lifePremises(weather, { ...wishes, years: 2 }),
      [
        { what: 'limit', values: [0.8, 2, 2.7, 2.9] },
        { what: 'led-current', values: [0.5, 1] },
        { what: 'capacitors', values: [1, 2] },
      ],
      HERE,
    );
    const [below, low, rated, above] = limit!.variants;
    expect(below!.cannotBe).toMatch(/not above the 0.9 V at which the driver stops/);
    expect(above!.cannotBe).toMatch(/above the 2.7 V that the capacitor is rated for/);
    expect(low!.bands.map(({ firstWear }, k) => firstWear < rated!.bands[k]!.firstWear)).toEqual([
      true,
      true,
      true,
    ]);
    expect(low!.tonight.light_lm_h).toBeLessThan(rated!.tonight.light_lm_h);
    expect(limit!.best).toBe(2);
    const [half, stated] = current!.variants;
    expect(half!.tonight.light_lm_h).toBeLessThan(stated!.tonight.light_lm_h);
    // One capacitor in place of two breaks the promise in the first winter.
    expect(capacitors!.variants[0]!.untilBreak_klm_h).toEqual([0, 0, 0]);
    expect(capacitors!.variants[1]!.bands[1]!.winters).toEqual(stated!.bands[1]!.winters);
    expect(capacitors!.best).toBe(1);
  });

  it('leave a lamp as it is but for the value', () => {
    const lamp = scenario.lamps[0]!;
    const changed = changedLamp(lamp, { what: 'limit', value: 2.2 }, 'cyclic');
    expect('lamp' in changed && changed.lamp.params).toEqual({
      ...lamp.params,
      capacitor: { ...lamp.params.capacitor, limiter_V: 2.2, limiter_ohm: 0.1 },
    });
  });
});
