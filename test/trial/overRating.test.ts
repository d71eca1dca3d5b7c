import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { benchSheetText } from '../../sim/output/benchSheetText.ts';
import { benchPart } from '../../sim/output/page/benchPart.ts';
import { benchSheet } from '../../sim/trial/benchSheet.ts';
import { coldFlag, overRating } from '../../sim/trial/overRating.ts';
import { type LampInput, makeLamp, makeSettled } from '../lamp/makeLamp.ts';
import { libraryLamp } from '../year/days.ts';

/** A cell of 6.5 V on a capacitor of 2.7 V; the driver stands it. */
const OVER: LampInput = {
  ...libraryLamp(),
  cell: { ...libraryLamp().cell, open_circuit_V: 6.5, best_voltage_V: 5.2, cells_in_series: 11 },
  driver: { kind: 'power', power_mW: 20, cutoff_V: 0.9, efficiency: 0.8 },
};

function sheetOf(input: LampInput) {
  return benchSheet({ name: 'over', ...makeSettled(input), flags: [] }, []);
}

function found(input: LampInput) {
  const { params, settled } = makeSettled(input);
  return overRating(params, settled);
}

it('a lamp that drives its capacitor above its rating has no sheet, only what to change', () => {
  const sheet = sheetOf(OVER);
  expect(Object.keys(sheet).sort()).toEqual(['cautions', 'flags', 'lamp', 'withheld']);
  const text = benchSheetText([sheet]);
  expect(text).toMatch(/^No build and bench sheet of over yet$/m);
  expect(text).toMatch(/to 4\.\d\d V, and it is rated 2\.70 V/);
  expect(text).toContain('Connect nothing');
  expect(text).not.toMatch(/Wires|How|window light|supply to|Bands rest on/);
  const markup = benchPart('bench-1', sheet, makeSettled(OVER).settled);
  expect(markup).toContain('is not to be built yet');
  expect(markup).not.toMatch(/<table|<svg/);
});

describe('each change that is named is enough', () => {
  const { changes } = found(OVER)!;

  it('the limiter', () => {
    const limiter = parse(`{${/limiter: \{[^}]*\}/.exec(changes[0]!)![0]}}`) as { limiter: { at_V: number } };
    expect(found({ ...OVER, capacitor: { ...OVER.capacitor, ...limiter } })).toBeUndefined();
    expect(changes[0]).toMatch(/501 mA, 1\.4 W of heat/);
  });

  it('the cell', () => {
    const open_V = Number(/at most ([\d.]+) V open/.exec(changes[1]!)![1]);
    const cell = { ...OVER.cell, open_circuit_V: open_V, best_voltage_V: open_V * 0.8, cells_in_series: 5 };
    expect(found({ ...OVER, cell })).toBeUndefined();
    // And hardly lower than it must be.
    const more = { ...cell, open_circuit_V: open_V + 0.4, best_voltage_V: (open_V + 0.4) * 0.8 };
    expect(coldFlag(makeLamp({ ...OVER, cell: more }))).toBeDefined();
  });

  it('capacitors in series', () => {
    const series = Number(/capacitor\.series: (\d+)/.exec(changes[2]!)![1]);
    expect(series).toBe(3);
    expect(found({ ...OVER, capacitor: { ...OVER.capacitor, series, balancing_kohm: 10 } })).toBeUndefined();
  });
});

it('a limiter at the rated voltage is too high, since its own slope adds to it', () => {
  const capacitor = { ...OVER.capacitor, limiter: { at_V: 2.7 } };
  const over = found({ ...OVER, capacitor })!;
  expect(over.reachable_V).toBeCloseTo(2.75, 2);
  expect(over.changes[0]).toContain('a limiter that begins lower');
});

it('a lamp that only a clear cold day drives above it has its sheet, with a flag', () => {
  const cell = { ...libraryLamp().cell, open_circuit_V: 2.74, best_voltage_V: 2.18 };
  const input = { ...libraryLamp(), cell };
  expect(found(input)).toBeUndefined();
  expect(sheetOf(input).flags).toEqual([
    expect.stringMatching(/day of -20 degC drives the capacitor to 2\.8\d V/),
  ]);
  expect(coldFlag(makeLamp(libraryLamp()))).toBeUndefined();
});
