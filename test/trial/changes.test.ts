import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { driverSchema } from '../../sim/lamp/driver/schema.ts';
import { terminalRun } from '../../sim/output/terminalRun.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { spotSchema } from '../../sim/spot/schema.ts';
import { longestEvening } from '../../sim/trial/longestEvening.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import { type Stated, singleChanges } from '../../sim/trial/singleChanges.ts';
import type { RunResult } from '../../sim/trial/Trial.ts';
import { readmeSection } from '../readmeSection.ts';

let run: RunResult;
let stated: Stated;

beforeAll(async () => {
  const scenario = loadScenario('scenarios/invented-garden.yaml');
  run = await runAll(scenario);
  stated = {
    lamp: scenario.lamps[0]!.settled,
    spot: scenario.spots[0]!.section,
    promise: scenario.promise,
  };
});

describe('changes', () => {
  it('are given for trials that break their promise, and only for those', () => {
    for (const trial of run.trials) {
      expect(trial.changes.length > 0).toBe(trial.statistics.verdict === 'broken');
      expect(trial.changes.length).toBeLessThanOrEqual(12);
    }
    expect(run.trials.some((trial) => trial.statistics.verdict === 'broken')).toBe(true);
  });

  it('start from the failed nights of the trial, fewest left first', () => {
    for (const { changes, statistics } of run.trials) {
      const before = statistics.winters.reduce((sum, winter) => sum + winter.failedNights, 0);
      const left = changes.map((change) => change.failedNights);
      expect(changes.every((change) => change.failedNightsBefore === before)).toBe(true);
      expect(left).toEqual([...left].sort((a, b) => a - b));
    }
  });

  it('are for the demo these, in this order', () => {
    const told = run.trials.map(({ spot, lamp, statistics, changes }) => [
      `${lamp} on ${spot}`,
      statistics.winters[0]!.failedNights,
      changes.map(({ change, failedNights }) => `${failedNights}: ${change}`),
    ]);
    expect(told).toEqual([
      [
        'single on lawn',
        9,
        [
          '0: a second capacitor in parallel',
          '0: a shorter evening',
          '1: a solar cell that is good in dim light',
          '2: a second solar cell in parallel',
          '6: a larger inductor',
          '7: a solar cell of higher voltage',
          '14: tilt the cell 60 degrees to the south',
        ],
      ],
      ['double on lawn', 0, []],
      [
        'single on north-side',
        18,
        [
          '0: a shorter evening',
          '1: a second capacitor in parallel',
          '3: a second solar cell in parallel',
          '5: a solar cell that is good in dim light',
          '9: moved to lawn',
          '10: a larger inductor',
          '18: a solar cell of higher voltage',
          '82: tilt the cell 60 degrees to the south',
        ],
      ],
      ['double on north-side', 0, []],
    ]);
  });

  it('name the longest evening that is kept every night: ten minutes more would fail', async () => {
    const broken = run.trials.find((trial) => trial.changes.length > 0)!;
    const told = broken.changes.find((change) => change.change === 'a shorter evening')!;
    const [, h, min] = /^(\d+) h(?: (\d+) min)? instead of 6 h/.exec(told.detail)!;
    const failuresWith = async (hours: number) => {
      const scenario = loadScenario('scenarios/invented-garden.yaml');
      scenario.promise.hours = hours;
      for (const lamp of scenario.lamps) lamp.params.schedule.hours = hours;
      const again = (await runAll(scenario, { withChanges: false })).trials.find(
        (trial) => trial.spot === broken.spot && trial.lamp === broken.lamp,
      )!;
      return again.statistics.winters.reduce((sum, winter) => sum + winter.failedNights, 0);
    };
    const hours = Number(h) + Number(min ?? 0) / 60;
    expect(told.failedNights).toBe(0);
    expect(await failuresWith(hours)).toBe(0);
    expect(await failuresWith(hours + 1 / 6)).toBeGreaterThan(0);
  });

  it('move the lamp to another spot of the scenario where that helps, and say what it would be there', () => {
    const failed = (spot: string) =>
      run.trials.find((trial) => trial.lamp === 'single' && trial.spot === spot)!.statistics.winters[0]!
        .failedNights;
    const north = run.trials.find((trial) => trial.lamp === 'single' && trial.spot === 'north-side')!;
    const moved = north.changes.find(({ change }) => change === 'moved to lawn')!;
    expect(moved.failedNights).toBe(failed('lawn'));
    const lawn = run.trials.find((trial) => trial.lamp === 'single' && trial.spot === 'lawn')!;
    expect(lawn.changes.map(({ change }) => change)).not.toContain('moved to north-side');
  });

  it('say of each what it does, worse as worse, and leave out what does nothing', () => {
    for (const { changes } of run.trials) {
      for (const { failedNights, failedNightsBefore, short_h, shortBefore_h, effect } of changes) {
        expect(
          Math.abs(short_h - shortBefore_h) + Math.abs(failedNights - failedNightsBefore),
        ).toBeGreaterThan(0.05);
        expect(effect === 'mends').toBe(failedNights === 0);
        const worse =
          failedNights > failedNightsBefore ||
          (failedNights > 0 && failedNights === failedNightsBefore && short_h > 1.1 * shortBefore_h);
        expect(effect === 'worse').toBe(worse);
      }
    }
    const text = terminalRun(run, { details: true });
    expect(text).toMatch(/- worse: tilt the cell 60 degrees to the south \(\d+\)/);
  });
});

describe('the README', () => {
  it('begins with what the demo says', () => {
    const readme = readFileSync('README.md', 'utf8');
    const [, quoted] = /```\n(single on lawn [^`]*?) \[\.\.\.\]\n```/.exec(readme)!;
    const flowing = (text: string) => text.replace(/\s+/g, ' ');
    expect(flowing(terminalRun(run, {}))).toContain(flowing(quoted!));
  });

  it('has the demo in its table of changes', () => {
    const cells = run.trials
      .filter(({ lamp }) => lamp === 'single')
      .map(({ nights, statistics }) => {
        const short_h = nights.reduce((total, night) => total + night.short_h, 0);
        return `${statistics.winters[0]!.failedNights} nights, ${short_h.toFixed(1)} h`;
      });
    expect(readmeSection('npm run changes')).toContain(`| the demo | ${cells.join(' | ')} |`);
  });
});

describe('singleChanges', () => {
  const SITE = { latitude_deg: 54, longitude_deg: 10, elevation_m: 0, timeZone: 'UTC', albedo: 0.2 };
  const setting = (site: typeof SITE) => ({ site, elsewhere: [], snowOnLid: false });
  const named = (changed: Stated) => singleChanges(changed, setting(SITE));

  it('name the cost of what has to be bought, where prices are given', () => {
    const { lamp } = stated;
    const priced = named({
      ...stated,
      lamp: {
        ...lamp,
        capacitor: { ...lamp.capacitor, price: 8 },
        cell: { ...lamp.cell, price: 2.5, series: 2 },
      },
    });
    const costOf = (change: string) => priced.find((one) => one.change === change)?.cost;
    expect(costOf('a second capacitor in parallel')).toBe(8);
    // Two cells in series, and a limiter of 1.
    expect(costOf('a solar cell of higher voltage')).toBe(6);
    expect(costOf('a second solar cell in parallel')).toBe(5);
    expect(costOf('tilt the cell 60 degrees to the south')).toBe(0);
    expect(costOf('a larger inductor')).toBeUndefined();
    const spare = named({ ...stated, lamp: { ...lamp, cell: { ...lamp.cell, price: 2.5, in_drawer: 2 } } });
    expect(spare.find(({ change }) => change === 'a second solar cell in parallel')?.cost).toBe(0);
  });

  it('tilt the cell to where the noon sun stands, and never dim what is promised', () => {
    const words = named(stated).map(({ change }) => change);
    expect(words).toContain('tilt the cell 60 degrees to the south');
    expect(words.join()).not.toContain('half');
    const south = singleChanges(stated, setting({ ...SITE, latitude_deg: -54 }));
    const tilted = south.find(({ change }) => change === 'tilt the cell 60 degrees to the north');
    expect(tilted!.stated.spot).toMatchObject({ cell_tilt_deg: 60, cell_bearing_deg: 0 });
  });

  it('draw two thirds of what was drawn: a larger inductor, or a smaller setting of the driver', () => {
    const smaller = (input: z.input<typeof driverSchema>) => {
      const driver = driverSchema.parse(input) as Stated['lamp']['driver'];
      const found = named({ ...stated, lamp: { ...stated.lamp, driver } });
      return found.find(({ change }) => /inductor|less current/.test(change))!;
    };
    const boost = smaller({
      kind: 'boost',
      inductance_uH: 600,
      frequency_kHz: 8,
      duty: 0.2,
      current_limit_mA: 30,
    });
    expect(boost).toMatchObject({ change: 'a larger inductor', detail: '900 uH instead of 600 uH' });
    expect(boost.stated.lamp.driver).toMatchObject({ inductance_uH: 900, current_limit_mA: 30 });
    const power = smaller({ kind: 'power', power_mW: 30 });
    expect(power).toMatchObject({ detail: '20.0 mW instead of 30 mW', cost: 0 });
    expect(power.stated.lamp.driver).toMatchObject({ power_mW: 20 });
    const conductance = smaller({ kind: 'conductance', conductance_mS: 9 });
    expect(conductance.detail).toBe('6.00 mS instead of 9 mS');
    const table = [1, 2].map((capacitor_V) => ({ capacitor_V, current_mA: 12 }));
    const less = table.map((row) => ({ ...row, current_mA: 8 }));
    expect(smaller({ kind: 'table', table }).stated.lamp.driver).toMatchObject({ table: less });
  });

  it('clean a dirty lid and trim a hedge, where there is one', () => {
    const plain = named(stated).map((one) => one.change);
    expect(plain).not.toContain('a clean lid');
    const { cover } = stated.spot;
    if (!('dirt_loss' in cover)) throw new Error('the demo lamp has no lid');
    const dirty = named({ ...stated, spot: { ...stated.spot, cover: { ...cover, dirt_loss: 0.2 } } });
    expect(dirty.map((one) => one.change)).toContain('a clean lid');
  });

  it('lower the current limit too, where there is one: above its boundary the inductor decides nothing', () => {
    const driver = driverSchema.parse({
      kind: 'boost',
      inductance_uH: 600,
      frequency_kHz: 8,
      duty: 0.2,
      current_limit_mA: 30,
    }) as Stated['lamp']['driver'];
    const words = named({ ...stated, lamp: { ...stated.lamp, driver } });
    const limit = words.find(({ change }) => change === 'a lower current limit')!;
    expect(limit.detail).toBe('20 mA instead of 30 mA');
    expect(limit.stated.lamp.driver).toMatchObject({ inductance_uH: 600, current_limit_mA: 20 });
  });

  it('solder pairs of cells in series where there are pairs, and take a cell of one junction more', () => {
    const { lamp } = stated;
    const withCells = (parallel: number) =>
      named({ ...stated, lamp: { ...lamp, cell: { ...lamp.cell, parallel } } });
    const pairs = withCells(4).find(({ change }) => change === 'cells in pairs in series')!;
    expect(pairs.stated.lamp.cell).toMatchObject({ parallel: 2, series: 2 });
    expect(withCells(3).some(({ change }) => change === 'cells in pairs in series')).toBe(false);
    const higher = named(stated).find(({ change }) => change === 'a solar cell of higher voltage')!;
    const { cell, capacitor } = higher.stated.lamp;
    expect(cell.cells_in_series).toBe(lamp.cell.cells_in_series + 1);
    // The same area gives the same power.
    expect(cell.open_circuit_V! * cell.short_circuit_mA!).toBeCloseTo(
      lamp.cell.open_circuit_V! * lamp.cell.short_circuit_mA!,
      -1,
    );
    expect(capacitor.limiter!.at_V).toBeLessThanOrEqual(capacitor.rated_V);
  });

  it('prune, trim and lower what grows or is nailed, and no wall', () => {
    const spot = spotSchema.parse({
      obstacles: {
        apple: {
          kind: 'tree',
          bearing_deg: 90,
          distance_m: 4,
          crown_base_m: 1.5,
          crown_top_m: 6,
          crown_width_m: 4,
        },
        palings: { kind: 'fence', bearing_deg: 180, distance_m: 2, width_m: 6, height_m: 1.8, openness: 0.2 },
        wall: { kind: 'wall', bearing_deg: 270, distance_m: 3, width_m: 6, height_m: 3 },
      },
    });
    const cut = named({ ...stated, spot }).filter(
      ({ stated: { spot: after } }) => after.obstacles !== spot.obstacles,
    );
    expect(cut.map(({ change, detail }) => `${change}: ${detail}`)).toEqual([
      'apple pruned: its top at 4 m instead of 6 m',
      'palings lowered: 1.2 m high instead of 1.8 m',
    ]);
  });
});

describe('longestEvening', () => {
  const longest = (hours: number) =>
    longestEvening(stated, ({ promise }) => promise.hours! <= hours + 1e-9)?.detail.replace(/,.*/, '');

  it('is found in steps of ten minutes, from the first to the last', () => {
    expect(longest(4 + 2 / 3)).toBe('4 h 40 min instead of 6 h');
    expect(longest(1 / 6)).toBe('10 min instead of 6 h');
    expect(longest(5 + 5 / 6)).toBe('5 h 50 min instead of 6 h');
    expect(longest(0)).toBeUndefined();
    expect(longest(1 / 2)).toBe('30 min instead of 6 h');
  });

  it('forgives no more of it than of the whole evening, and finds none for a lamp that never shines', () => {
    // Never lit: short for all that is promised.
    const keeps = ({ promise }: Stated) => promise.hours! <= promise.tolerance_h;
    expect(longestEvening(stated, keeps)).toBeUndefined();
    const lavish = { ...stated, promise: { ...stated.promise, tolerance_h: 6 } };
    expect(longestEvening(lavish, () => true)).toBeUndefined();
  });
});
