import { expect, test } from 'vitest';
import { lifeCsv } from '../../sim/output/lifeCsv.ts';
import { lifeJson } from '../../sim/output/lifeJson.ts';
import { smallLives, smallSweep, smallTrialLife } from './smallLives.ts';
import { csvRecords, smallRun } from './smallRun.ts';

const PROGRAM = { version: '0.1.0', nodeMajor: 20 };
const lives = smallLives([
  smallTrialLife(),
  smallTrialLife([undefined, undefined, undefined], { spot: 'roof' }),
]);
const { scenario } = smallRun();

test('life.json holds what made it, the lives by factor as lists of their winters, and sums of the files', () => {
  const text = lifeJson({ lives, sweeps: [smallSweep()], scenario }, PROGRAM, { 'life.csv': 'ab' });
  expect(text.endsWith('}\n')).toBe(true);
  const data = JSON.parse(text);
  expect(data).toMatchObject({
    schema: 1,
    longnight: '0.1.0',
    scenario: { name: 'invented', sha256: 'ab'.repeat(32) },
    years: 40,
    cleaned_each_spring: true,
    winters_of_weather: 1,
    files: { 'life.csv': 'ab' },
  });
  const [{ factors, renewal, dry_share }, roof] = data.trials;
  expect(factors.map(({ factor }: { factor: string }) => factor)).toEqual(['low', 'middle', 'high']);
  expect(factors[1].first_broken_winter).toBe(15);
  expect(roof.factors[1].first_broken_winter).toBeNull();
  expect(roof.factors[1].ended_by).toBeNull();
  for (const list of ['capacitance_left', 'failed_nights', 'light_given_lm_h', 'led_left', 'broken_share'])
    expect(factors[0][list]).toHaveLength(40);
  expect(factors[1].ended_by).toMatchObject({ winter: 15, by: 'capacitor' });
  expect(renewal[0]).toEqual({ law: 'low', part: 'capacitor', winter: 12, cost: 9.6, breaks: 20 });
  expect(dry_share[39]).toBeCloseTo(0.99 ** 40, 6);
  const { values, best } = data.sweeps[0];
  expect(values[best].label).toBe('2.4 V');
  expect(values.at(-1)).toEqual({
    label: '3 V',
    value: 3,
    unit: 'V',
    cannot_be: 'its capacitors are rated for 2.7 V',
  });
});

test('life.csv has a row per trial, factor and winter', () => {
  const rows = csvRecords(lifeCsv(lives));
  expect(rows).toHaveLength(2 * 3 * 40);
  expect(rows[40 + 19]).toMatchObject({
    spot: 'lawn',
    lamp: 'double',
    factor: 'middle',
    winter: '20',
    capacitance_left: (0.7 ** (0.026 * 19)).toFixed(5),
    led_left: (0.99 ** 19).toFixed(5),
    failed_nights: '3.000',
    broken_share: '1.0000',
  });
});
