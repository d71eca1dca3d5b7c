import { describe, expect, test } from 'vitest';
import {
  INVENTED_DISCHARGE,
  type InventedDischarge,
  inventedDischarge,
} from '../../data-samples/make/dischargeCurve.ts';
import { InputProblem, type Problem } from '../../sim/common/InputProblem.ts';
import type { StatedFacts } from '../../sim/fitting/dischargeFacts.ts';
import { fitDischarge } from '../../sim/fitting/fitDischarge.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const { current_A: _, ...WITHOUT_CURRENT } = INVENTED_DISCHARGE;
const BY_LOAD: InventedDischarge = { ...WITHOUT_CURRENT, load_ohm: 10, delayed_share: 0.06, series_ohm: 0.3 };

/** A curve as a logger may write it. */
function curveText(
  of: InventedDischarge,
  heading = 'time [s],voltage [V]',
  above: readonly string[] = [],
): string {
  const rows = inventedDischarge(of).map(([time_s, volts]) => `${time_s.toFixed(2)},${volts.toFixed(4)}`);
  return [...above, heading, ...rows, ''].join('\n');
}

const fitted = (text: string, said: StatedFacts = {}) =>
  fitDischarge({ name: 'curve.csv', bytes: bytes(text) }, said);

async function problemOf(text: string, said: StatedFacts = {}): Promise<Problem> {
  try {
    await fitted(text, said);
  } catch (error) {
    if (error instanceof InputProblem) return error.problems[0]!;
    throw error;
  }
  throw new Error('no problem was found');
}

describe('fitDischarge finds what a discharge was made with', () => {
  test.each([
    ['a constant current', INVENTED_DISCHARGE, { rated_V: 2.7, current_A: 0.2 }],
    ['a load resistor', BY_LOAD, { rated_V: 2.7, load_ohm: 10 }],
  ])('by %s', async (_way, of, said) => {
    const found = await fitted(curveText(of), said);
    // What comes late within the fall counts as capacitance: up to 1 percent at a delayed share of 8 percent.
    expect(found.capacitance_F / of.capacitance_F).toBeGreaterThan(0.999);
    expect(found.capacitance_F / of.capacitance_F).toBeLessThan(1.012);
    // Of steps of a second the instant is not known: the drop is known within what falls in one.
    expect(found.series!.low_mohm / 1000).toBeLessThan(of.series_ohm);
    expect(found.series!.high_mohm / 1000).toBeGreaterThan(of.series_ohm);
    expect(Math.abs(found.delayed_share! - of.delayed_share)).toBeLessThan(0.01);
    expect(found.keys.rated_V).toBe(2.7);
  });

  test('the series resistance to 4 percent, twice the noise of a reading over the drop, where steps are fine', async () => {
    const of = { ...INVENTED_DISCHARGE, step_s: 0.02, rest_s: 0 };
    const found = await fitted(curveText(of), { rated_V: 2.7, current_A: 0.2 });
    expect(Math.abs(found.series!.mohm / 120 - 1)).toBeLessThan(0.04);
    expect(found.delayed_share).toBeUndefined();
  });

  test('capacitance exactly, of a constant one without anything late', async () => {
    const of = { ...INVENTED_DISCHARGE, rise: 0, delayed_share: 0, noise_V: 0, rest_s: 0 };
    const found = await fitted(curveText(of), { rated_V: 2.7, current_A: 0.2 });
    expect(found.capacitance_F / 25).toBeCloseTo(1, 3);
  });
});

describe('fitDischarge reads the file as it is', () => {
  const fine = { ...INVENTED_DISCHARGE, rest_s: 0 };
  test.each([
    ['words above the rows', curveText(fine, 'time,value', ['rated voltage: 2.7 V', 'current: 200 mA'])],
    ['signs of the trade', curveText(fine, 't,U', ['U_R,2.7', 'I_dc,0.2'])],
    [
      'units in the names',
      curveText(fine, 'elapsed (s),volts', ['rated_voltage_mV = 2700', 'discharge_current_mA = 200']),
    ],
  ])('%s', async (_way, text) => {
    expect((await fitted(text)).facts).toEqual({ rated_V: 2.7, current_A: 0.2 });
  });

  test('minutes, millivolts, a column of the current and one that counts rows', async () => {
    const rows = inventedDischarge(fine).map(([time_s, volts], i) =>
      [i + 1, (time_s / 60).toFixed(5), (volts * 1000).toFixed(1), i > 30 ? -200 : 0].join('\t'),
    );
    const text = ['no\ttime [min]\tU [mV]\tI [mA]', ...rows, ''].join('\n');
    const found = await fitted(text, { rated_V: 2.7 });
    expect(found.facts.current_A).toBeCloseTo(0.2, 9);
    expect(found.capacitance_F / 25).toBeCloseTo(1, 1);
  });

  test('stamps of date and time', async () => {
    const rows = inventedDischarge(fine).map(
      ([time_s, volts]) =>
        `${new Date(Date.UTC(2025, 0, 1) + time_s * 1000).toISOString().slice(0, 19)},${volts.toFixed(4)}`,
    );
    const found = await fitted(['time,volts', ...rows, ''].join('\n'), { rated_V: 2.7, current_A: 0.2 });
    expect(found.capacitance_F / 25).toBeCloseTo(1, 1);
  });
});

describe('fitDischarge refuses, and says what is missing', () => {
  const text = curveText({ ...INVENTED_DISCHARGE, rest_s: 0 });
  test.each<[string, string, StatedFacts, Partial<Problem>]>([
    ['no rated voltage', text, { current_A: 0.2 }, { code: 'SCENARIO_MISSING_KEY', field: 'rated_V' }],
    [
      'neither current nor load',
      text,
      { rated_V: 2.7 },
      { code: 'SCENARIO_MISSING_KEY', field: 'current_A' },
    ],
    [
      'both current and load',
      `current: 0.2 A\nload resistor: 10 ohm\n${text}`,
      { rated_V: 2.7 },
      { code: 'SCENARIO_CONFLICT', typed: ['--current 0.2', '--ohms 10'] },
    ],
    ['another rated voltage', text, { rated_V: 5, current_A: 0.2 }, { code: 'WEATHER_COLUMN_MISSING' }],
    [
      'a curve that ends too early',
      text.split('\n').slice(0, 120).join('\n'),
      { rated_V: 2.7, current_A: 0.2 },
      { code: 'WEATHER_PARTIAL_YEAR' },
    ],
    [
      'two curves one after the other',
      `${text}${text.split('\n').slice(1).join('\n')}`,
      { rated_V: 2.7, current_A: 0.2 },
      { code: 'WEATHER_DISORDER' },
    ],
  ])('%s', async (_what, given, said, problem) => {
    expect(await problemOf(given, said)).toMatchObject(problem);
  });
});
