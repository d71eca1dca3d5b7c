import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { ValueProblem } from '../../../sim/common/InputProblem.ts';
import { CellDiodeCircuit } from '../../../sim/lamp/CellDiodeCircuit.ts';
import { type CellParams, cellParams } from '../../../sim/lamp/cell/params.ts';
import { cellSchema } from '../../../sim/lamp/cell/schema.ts';
import { cellSaturation_A } from '../../../sim/lamp/cell/step.ts';
import { diodeParams } from '../../../sim/lamp/diode/params.ts';
import { diodeSchema } from '../../../sim/lamp/diode/schema.ts';
import { PARTS } from '../../../sim/scenario/parts.ts';

const SHEET = {
  short_circuit_mA: 500,
  open_circuit_V: 2.45,
  best_current_mA: 460,
  best_voltage_V: 1.95,
  cells_in_series: 4,
} as const;

function read(input: z.input<typeof cellSchema>): { cell: CellParams | undefined; problems: ValueProblem[] } {
  const problems: ValueProblem[] = [];
  const cell = cellParams(cellSchema.parse(input), (problem) => problems.push(problem));
  return { cell, problems };
}

function sound(input: z.input<typeof cellSchema>): CellParams {
  const { cell, problems } = read(input);
  if (cell === undefined) throw new Error(JSON.stringify(problems));
  return cell;
}

/** Current of a cell at a voltage in full sun at 25 degC, by its own equation. */
function current_A(cell: CellParams, voltage_V: number): number {
  const a = cell.idealityTimesJunctions * 0.025692579;
  let low = -10;
  let high = 10;
  for (let k = 0; k < 100; k++) {
    const i = (low + high) / 2;
    const u = voltage_V + i * cell.series_ohm;
    if (cell.photocurrent_A - cell.saturation_A * Math.expm1(u / a) - u / cell.shunt_ohm > i) low = i;
    else high = i;
  }
  return low;
}

describe('a cell by its datasheet', () => {
  it.each([
    ['the small cell', PARTS.cell['small-cell']!.values],
    ['the poor cell', PARTS.cell['poor-cell']!.values],
    ['a cell of one junction', { ...SHEET, open_circuit_V: 0.6, best_voltage_V: 0.48, cells_in_series: 1 }],
    [
      'a large panel',
      {
        short_circuit_mA: 1100,
        open_circuit_V: 6,
        best_current_mA: 1000,
        best_voltage_V: 5,
        cells_in_series: 10,
      },
    ],
  ] as const)('passes through short circuit, open circuit and the best point: %s', (_, sheet) => {
    const cell = sound(sheet);
    // kT/q enters with eight digits here.
    expect(current_A(cell, 0)).toBeCloseTo(sheet.short_circuit_mA! / 1000, 7);
    expect(current_A(cell, sheet.open_circuit_V!)).toBeCloseTo(0, 6);
    expect(current_A(cell, sheet.best_voltage_V!)).toBeCloseTo(sheet.best_current_mA! / 1000, 6);
    expect(cell.openCircuit_V).toBeCloseTo(sheet.open_circuit_V!, 9);
  });

  it('has its most power at the stated best point', () => {
    const cell = sound(SHEET);
    const power_W = (v: number) => v * current_A(cell, v);
    expect(power_W(1.95)).toBeGreaterThan(power_W(1.94));
    expect(power_W(1.95)).toBeGreaterThan(power_W(1.96));
  });

  it('takes its shunt from shunt_V, or from a point in dim light that then holds', () => {
    expect(sound({ ...SHEET, shunt_V: 100 }).shunt_ohm).toBeCloseTo(200, 6);
    const cell = sound({ ...SHEET, low_light_point: { irradiance_W_m2: 20, open_circuit_V: 1.7 } });
    const diode = diodeParams(diodeSchema.parse({ switch_on_ohm: 0.01 }), () => {})!;
    const path = new CellDiodeCircuit(cell, diode);
    path.setConditions(20, 25);
    expect(path.openCircuit_V).toBeCloseTo(1.7, 6);
    const better = sound({ ...SHEET, low_light_point: { irradiance_W_m2: 20, open_circuit_V: 1.8 } });
    expect(better.shunt_ohm).toBeGreaterThan(cell.shunt_ohm);
  });

  it('has an ideality of silicon whatever its shunt, and takes the point that its own cells show', () => {
    for (const shunt_V of [25, 30, 40, 50, 200, 2000]) {
      expect(sound({ ...SHEET, shunt_V }).idealityTimesJunctions / 4).toBe(1.35);
    }
    const cell = sound({ ...SHEET, low_light_point: { irradiance_W_m2: 50, open_circuit_V: 2 } });
    expect(cell.shunt_ohm * 0.5).toBeCloseTo(173.4, 1);
  });

  it('banks cells in parallel and in series', () => {
    const one = sound(SHEET);
    const bank = sound({ ...SHEET, parallel: 3, series: 2, area_cm2: 60 });
    expect(bank.photocurrent_A).toBeCloseTo(3 * one.photocurrent_A, 12);
    expect(bank.openCircuit_V).toBeCloseTo(2 * one.openCircuit_V, 12);
    expect(bank.series_ohm).toBeCloseTo((2 / 3) * one.series_ohm, 12);
    expect(bank.shunt_ohm).toBeCloseTo((2 / 3) * one.shunt_ohm, 9);
    expect(bank.idealityTimesJunctions).toBeCloseTo(2 * one.idealityTimesJunctions, 12);
    expect(bank.voltageTempco_V_per_K).toBeCloseTo(2 * 4 * -0.0022, 12);
    expect(bank.area_m2).toBeCloseTo(6 * 60e-4, 12);
    expect(sound(SHEET).area_m2).toBeNaN();
  });

  it('moves its open-circuit voltage by the stated coefficient, and not by a band gap', () => {
    const cell = sound(SHEET);
    const diode = diodeParams(diodeSchema.parse({ switch_on_ohm: 0.01 }), () => {})!;
    const path = new CellDiodeCircuit(cell, diode);
    for (const degC of [-20, 5, 25, 60]) {
      path.setConditions(1000, degC);
      expect(path.openCircuit_V).toBeCloseTo(2.45 - 0.0088 * (degC - 25), 6);
    }
    expect(cellSaturation_A(cell, 25) / cell.saturation_A).toBeCloseTo(1, 9);
  });
});

describe('problems about a cell', () => {
  it('name every datasheet value that is missing, all together', () => {
    const { problems } = read({ cells_in_series: 4, short_circuit_mA: 500 });
    expect(problems.map(({ code, path }) => [code, path])).toEqual([
      ['SCENARIO_MISSING_KEY', ['open_circuit_V']],
      ['SCENARIO_MISSING_KEY', ['best_current_mA']],
      ['SCENARIO_MISSING_KEY', ['best_voltage_V']],
    ]);
    expect(problems[0]!.fix).toContain('small-cell');
  });

  it('refuse a best point beyond short circuit or open circuit, or of too little power', () => {
    const current = read({ ...SHEET, best_current_mA: 510 }).problems;
    expect(current).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['best_current_mA'] }]);
    expect(current[0]!.got).toBe('best point 510 mA at 1.95 V');
    expect(current[0]!.expected).toContain('500 mA and 2.45 V');
    expect(read({ ...SHEET, best_voltage_V: 2.5 }).problems).toMatchObject([{ path: ['best_voltage_V'] }]);
    expect(read({ ...SHEET, best_voltage_V: 0.5 }).problems).toMatchObject([{ code: 'SCENARIO_CONFLICT' }]);
  });

  it('refuse four values that no junction can meet with that shunt', () => {
    const { cell, problems } = read({ ...SHEET, shunt_V: 12 });
    expect(cell).toBeUndefined();
    expect(problems).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['shunt_V'] }]);
    expect(problems[0]!.expected).toContain('at least 19 V');
    expect(read({ ...SHEET, best_current_mA: 499, best_voltage_V: 2.44 }).problems).toHaveLength(1);
  });

  it('refuse a dim point that no shunt can give', () => {
    for (const open_circuit_V of [2.44, 0.1]) {
      const { cell, problems } = read({
        ...SHEET,
        low_light_point: { irradiance_W_m2: 20, open_circuit_V },
      });
      expect(cell).toBeUndefined();
      expect(problems).toMatchObject([{ code: 'SCENARIO_CONFLICT' }]);
      expect(problems[0]!.path).toEqual(['low_light_point', 'open_circuit_V']);
      expect(problems[0]!.expected).toContain('0.38 to 2.05 V');
      expect(problems[0]!.fix).toContain(open_circuit_V > 2 ? 'brighter than stated' : 'dimmer than stated');
    }
  });
});
