import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { ValueProblem } from '../../../sim/common/InputProblem.ts';
import { capacitorParams } from '../../../sim/lamp/capacitor/params.ts';
import { capacitorSchema } from '../../../sim/lamp/capacitor/schema.ts';
import {
  capacitorCharge_C,
  capacitorEnergy_J,
  capacitorVoltage_V,
  leakageCurrent_A,
  leakageWarming,
  seriesGrowthAt,
} from '../../../sim/lamp/capacitor/step.ts';

const SHEET = { capacitance_F: 500, rated_V: 2.7, leakage_uA: 1000 } as const;

function read(input: z.input<typeof capacitorSchema>) {
  const problems: ValueProblem[] = [];
  return {
    capacitor: capacitorParams(capacitorSchema.parse(input), (problem) => problems.push(problem)),
    problems,
  };
}

describe('the voltage that a capacitor must not fall below', () => {
  it('is that of each part, 2.2 V of a lithium hybrid and none of others where it is not stated', () => {
    const lowest = (more: object) => read({ ...SHEET, rated_V: 3.8, ...more }).capacitor!.lowest_V;
    expect(lowest({})).toBe(0);
    expect(lowest({ kind: 'double-layer' })).toBe(0);
    expect(lowest({ kind: 'lithium-hybrid', series: 2 })).toBeCloseTo(4.4, 12);
    expect(lowest({ kind: 'lithium-hybrid', lowest_V: 2.5 })).toBe(2.5);
  });

  it('is below the rated voltage', () => {
    expect(read({ ...SHEET, kind: 'lithium-hybrid' }).problems).toEqual([]);
    expect(read({ ...SHEET, lowest_V: 2.7 }).problems).toMatchObject([
      { code: 'SCENARIO_CONFLICT', path: ['lowest_V'], expected: 'less than the rated voltage of 2.7 V' },
    ]);
  });
});

describe('the series resistance in the cold', () => {
  it('is what the sheet says at -20 and -40 degC, grows evenly between, and stays as it is beyond and in warmth', () => {
    const growth = (more: object, degC: number) =>
      seriesGrowthAt(read({ ...SHEET, ...more }).capacitor!, degC);
    const sheet = { esr_factor_minus20: 2, esr_factor_minus40: 8 };
    expect(growth(sheet, 25)).toBe(1);
    expect(growth(sheet, 60)).toBe(1);
    expect(growth(sheet, -20)).toBeCloseTo(2, 12);
    expect(growth(sheet, -40)).toBeCloseTo(8, 12);
    expect(growth(sheet, -60)).toBeCloseTo(8, 12);
    expect(growth(sheet, 2.5)).toBeCloseTo(Math.SQRT2, 12);
    expect(growth(sheet, -30)).toBeCloseTo(4, 12);
    expect(growth({}, -20)).toBeCloseTo(1.5, 12);
    expect(growth({}, -40)).toBeCloseTo(2.5, 12);
  });

  it('belongs to a datasheet: the resistance of model parameters does not move', () => {
    const { capacitor } = read({ raw: { capacitance_F: 500, series_ohm: 50 }, rated_V: 2.7 });
    expect(seriesGrowthAt(capacitor!, -40)).toBe(1);
  });

  it('does not fall as it gets colder', () => {
    expect(read({ ...SHEET, esr_factor_minus20: 3 }).problems).toMatchObject([
      { code: 'SCENARIO_CONFLICT', path: ['esr_factor_minus40'] },
    ]);
  });
});

describe('a capacitor by its datasheet', () => {
  it('gives its rated capacitance between 0.8 and 0.4 of the rated voltage, whatever the rise', () => {
    for (const capacitance_rise of [0, 0.15, 1]) {
      const capacitor = read({ ...SHEET, capacitance_rise }).capacitor!;
      const charge_C = capacitorCharge_C(capacitor, 2.16) - capacitorCharge_C(capacitor, 1.08);
      expect(charge_C / 1.08).toBeCloseTo(500, 9);
      expect(capacitor.rise_F_V * 2.7).toBeCloseTo(capacitance_rise * capacitor.capacitance_F, 9);
    }
  });

  it('holds 5 to 15 percent in its delayed branches by default, and none where that is switched off', () => {
    const delayed = read(SHEET).capacitor!.delayed;
    const share = (delayed[0].capacitance_F + delayed[1].capacitance_F) / 500;
    expect(share).toBeGreaterThanOrEqual(0.05);
    expect(share).toBeLessThanOrEqual(0.15);
    expect(delayed[1].resistance_ohm * delayed[1].capacitance_F).toBeCloseTo(3 * 3600, 6);
    const none = read({ ...SHEET, delayed_share: 0 }).capacitor!.delayed;
    expect(none[0].capacitance_F + none[1].capacitance_F).toBe(0);
  });

  it('does not count twice what the delayed branches still draw when the leakage is read', () => {
    const rest = (leakage_rest_h: number) => read({ ...SHEET, leakage_rest_h }).capacitor!.leakage_A;
    expect(rest(72)).toBeCloseTo(1e-3, 9);
    // Delayed branch: 25 F, 3 h: 2.7 V * 25 F / 10800 s * exp(-12 / 3) = 0.1145 mA.
    expect(rest(12)).toBeCloseTo(1e-3 - ((2.7 * 25) / 10_800) * Math.exp(-4), 8);
  });

  it('leaks by its law: a factor e each fold, doubling each 10 K, nothing when empty', () => {
    const capacitor = read({ ...SHEET, delayed_share: 0 }).capacitor!;
    expect(leakageCurrent_A(capacitor, 2.7)).toBeCloseTo(1e-3, 12);
    expect(leakageCurrent_A(capacitor, 2.7) / leakageCurrent_A(capacitor, 2.4)).toBeCloseTo(Math.E, 2);
    expect(leakageCurrent_A(capacitor, 0)).toBe(0);
    expect(leakageWarming(capacitor, 45)).toBeCloseTo(4, 12);
    const resistor = read({ ...SHEET, delayed_share: 0, leakage_law: 'resistance' }).capacitor!;
    expect(leakageCurrent_A(resistor, 1.35)).toBeCloseTo(0.5e-3, 12);
  });

  it('turns charge into voltage and back', () => {
    const capacitor = read(SHEET).capacitor!;
    for (const volts of [0, 1e-6, 0.9, 2.7, 5])
      expect(capacitorVoltage_V(capacitor, capacitorCharge_C(capacitor, volts))).toBeCloseTo(volts, 12);
  });
});

describe('a bank of capacitors', () => {
  it('holds in energy what its parts hold, in parallel and in series', () => {
    const one = read(SHEET).capacitor!;
    for (const [parallel, series] of [
      [2, 1],
      [1, 3],
      [2, 2],
    ] as const) {
      const bank = read({ ...SHEET, parallel, series }).capacitor!;
      expect(capacitorEnergy_J(bank, 2.4 * series)).toBeCloseTo(
        parallel * series * capacitorEnergy_J(one, 2.4),
        8,
      );
      expect(leakageCurrent_A(bank, 2 * series)).toBeCloseTo(parallel * leakageCurrent_A(one, 2), 12);
      expect(bank.series_ohm).toBeCloseTo((one.series_ohm * series) / parallel, 12);
      expect(bank.rated_V).toBe(2.7 * series);
      expect(bank.delayed[0].resistance_ohm * bank.delayed[0].capacitance_F).toBeCloseTo(1080, 6);
    }
  });

  it('bleeds through a balancing resistor across each part', () => {
    const bank = read({ ...SHEET, series: 2, balancing_kohm: 10 }).capacitor!;
    // Two of 10 kohm in series.
    expect(bank.balancing_S).toBeCloseTo(1 / 20_000, 12);
    expect(read({ ...SHEET, series: 2, parallel: 3, balancing_kohm: 10 }).capacitor!.balancing_S).toBeCloseTo(
      3 / 20_000,
      12,
    );
  });
});

describe('problems about a capacitor', () => {
  it('name what is missing', () => {
    expect(read({ rated_V: 2.7 }).problems.map(({ path }) => path)).toEqual([
      ['capacitance_F'],
      ['leakage_uA'],
    ]);
  });

  it('refuse a leakage smaller than what the delayed branches still draw after the rest', () => {
    const { capacitor, problems } = read({ ...SHEET, leakage_uA: 50, leakage_rest_h: 10 });
    expect(capacitor).toBeUndefined();
    expect(problems).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['leakage_rest_h'] }]);
    expect(problems[0]!.got).toMatch(/10 h, when the delayed charge alone still draws 2\d\d\.\d uA/);
    expect(problems[0]!.expected).toContain('50 uA');
  });

  it('refuse a limiter above the rated voltage of the bank', () => {
    expect(read({ ...SHEET, limiter: { at_V: 2.8 } }).problems).toMatchObject([
      { path: ['limiter', 'at_V'] },
    ]);
    expect(read({ ...SHEET, series: 2, limiter: { at_V: 5.3 } }).problems).toEqual([]);
  });
});

describe('what no capacitor is', () => {
  it('is one that answers in minutes: ohms times farads, on either side of 400 s', () => {
    const series = (series_ohm: number) =>
      read({ raw: { capacitance_F: 50, series_ohm }, rated_V: 2.7 }).problems;
    expect(series(8)).toEqual([]);
    expect(series(8.01)).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['raw', 'series_ohm'] }]);
    expect(read({ ...SHEET, esr_mohm: 860 }).problems).toEqual([]);
    expect(read({ ...SHEET, esr_mohm: 880 }).problems).toMatchObject([{ path: ['esr_mohm'] }]);
  });

  it('is one whose delayed share is next to nothing, yet not nothing', () => {
    for (const delayed_share of [0, 1e-4]) expect(read({ ...SHEET, delayed_share }).problems).toEqual([]);
    for (const delayed_share of [9e-5, 5e-324]) {
      expect(read({ ...SHEET, delayed_share }).problems).toMatchObject([
        { code: 'SCENARIO_OUT_OF_RANGE', path: ['delayed_share'] },
      ]);
    }
  });

  it('is one whose raw branches hold more than three times as much as it does, or follow within 10 s', () => {
    const branch = (resistance_ohm: number, capacitance_F: number) =>
      read({
        raw: { capacitance_F: 10, delayed_branches: [{ resistance_ohm, capacitance_F }] },
        rated_V: 2.7,
      }).problems;
    expect(branch(10, 30)).toEqual([]);
    expect(branch(10, 30.1)).toMatchObject([{ path: ['raw', 'delayed_branches', 0, 'capacitance_F'] }]);
    // 2 ohm / (1 / 10 F + 1 / 10 F) = 10 s.
    expect(branch(2, 10)).toEqual([]);
    expect(branch(1.99, 10)).toMatchObject([{ path: ['raw', 'delayed_branches', 0, 'resistance_ohm'] }]);
  });
});

describe('a raw capacitor', () => {
  it('is taken as it stands, without the second-order effects that it does not name', () => {
    const { capacitor } = read({ raw: { capacitance_F: 100, leakage_ohm: 27_000 }, rated_V: 2.7 });
    expect(capacitor).toMatchObject({ capacitance_F: 100, rise_F_V: 0, series_ohm: 0, balancing_S: 0 });
    expect(leakageCurrent_A(capacitor!, 2.7)).toBeCloseTo(1e-4, 12);
    expect(leakageWarming(capacitor!, 60)).toBe(1);
  });
});
