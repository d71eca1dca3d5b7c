import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadWeather } from '../../sim/trial/loadWeather.ts';
import { changed, load, refused, SOUND, written } from './writeScenario.ts';

const FILE = SOUND.slice(SOUND.indexOf('  file: year.csv'), SOUND.indexOf('promise:'));
const LIGHT =
  'irradiation_kWh_m2_day: [0.6, 1.24, 2.25, 3.62, 4.61, 4.99, 4.68, 3.91, 2.82, 1.58, 0.78, 0.47]';
const AIR = 'air_degC: [1, 1, 4, 8, 12, 15, 17, 17, 14, 10, 6, 3]';
const SHARES = `clearness_shares: { days: [0, 0.5, 1], months: [${new Array(12).fill('[0.05, 0.3, 0.6]').join(', ')}] }`;

/** A scenario with a climate of these lines in place of a file. */
const climate = (...lines: string[]) =>
  changed([FILE, `  climate:\n${lines.map((line) => `    ${line}\n`).join('')}`]);

describe('a climate in place of a file', () => {
  it('is read with its defaults, and there is no year on file', () => {
    const scenario = load(climate(LIGHT, AIR));
    expect(scenario.weather).toBeUndefined();
    expect(scenario.climate?.section.irradiation_kWh_m2_day?.[11]).toBe(0.47);
    expect(scenario.climate?.section.persistence).toEqual({ daily: 0.56, lasting: 0.42, winter: 0.01 });
    expect(Object.keys(scenario.resolved.weather as object)).toEqual(['climate']);
    expect(scenario.assumptions.join()).toContain('maritime place');
  });

  it('is refused a plain run, with the way out', async () => {
    await expect(loadWeather(load(climate(LIGHT, AIR)))).rejects.toThrow('--winters 300');
  });

  it('may stand beside a file, which is the year on file then', () => {
    const scenario = load(changed(['promise:', `  climate: { ${LIGHT}, ${AIR} }\npromise:`]));
    expect(scenario.weather?.section.file).toBe('year.csv');
    expect(scenario.weather?.section).not.toHaveProperty('climate');
    expect(scenario.climate?.section.air_degC?.[0]).toBe(1);
  });

  it('takes numbers with units', () => {
    const scenario = load(climate(LIGHT.replace('0.47', '1.692 MJ/m2/day'), AIR.replace('[1,', '[34 degF,')));
    expect(scenario.climate?.section.irradiation_kWh_m2_day?.[11]).toBeCloseTo(0.47, 9);
    expect(scenario.climate?.section.air_degC?.[0]).toBeCloseTo(1.111, 3);
  });

  it('takes no light of a month without sun, as 0 or null', () => {
    const polar = LIGHT.replace(/\[.*/, '[0.02, 0.4, 1.6, 3.6, 4.8, 5.2, 4.6, 3.3, 1.8, 0.6, 0.08, null]');
    const text = climate(polar, AIR).replace('latitude_deg: 54', 'latitude_deg: 69.5');
    expect(load(text).climate?.section.irradiation_kWh_m2_day?.[11]).toBeNull();
    expect(load(text.replace('null', '0')).climate?.section.irradiation_kWh_m2_day?.[11]).toBe(0);
  });
});

describe('a climate file', () => {
  const file = (text: string) => {
    const path = written(changed([FILE, '  climate: { file: climate.yaml }\n']));
    writeFileSync(join(dirname(path), 'climate.yaml'), text);
    return changed([FILE, '  climate: { file: climate.yaml }\n']);
  };

  it('holds the same keys, and is named with its digest', () => {
    const { climate } = load(file(`${LIGHT}\n${AIR}\n`));
    expect(climate).toMatchObject({ file: 'climate.yaml', section: { air_degC: { length: 12 } } });
    expect(climate?.sha256).toMatch(/^[0-9a-f]{64}$/);
  });

  it('is refused with its own lines', () => {
    const { problems } = refused(file(`${LIGHT.replace('0.47', '4.7')}\nair_degC: [1, 2, 3]\n`));
    expect(problems).toEqual([
      expect.objectContaining({ file: 'climate.yaml', line: 2, field: 'air_degC', got: 'a list of 3' }),
    ]);
    expect(refused(file(`${LIGHT.replace('0.47', '4.7')}\n${AIR}\n`)).problems).toEqual([
      expect.objectContaining({ file: 'climate.yaml', line: 1, field: 'irradiation_kWh_m2_day.11' }),
    ]);
    expect(refused(file('a: [')).problems[0]).toMatchObject({ file: 'climate.yaml', code: 'YAML_SYNTAX' });
    expect(refused(file('file: other.yaml\n')).problems[0]).toMatchObject({ code: 'SCENARIO_CONFLICT' });
  });

  it('stands alone', () => {
    const { problems } = refused(changed([FILE, `  climate: { file: climate.yaml, ${AIR} }\n`]));
    expect(problems[0]).toMatchObject({ code: 'SCENARIO_CONFLICT', field: 'weather.climate.air_degC' });
  });
});

describe('a climate is refused', () => {
  const MJ = LIGHT.replace(/\[.*/, '[2.16, 4.46, 8.1, 13, 16.6, 18, 16.8, 14.1, 10.2, 5.7, 2.8, 1.7]');
  const W_M2 = LIGHT.replace(/\[.*/, '[25, 52, 94, 151, 192, 208, 195, 163, 117, 66, 33, 20]');
  const MONTHLY = LIGHT.replace(/\[.*/, '[18.6, 34.7, 70, 109, 143, 150, 145, 121, 85, 49, 23, 14.6]');
  const FAHRENHEIT = 'air_degC: [34, 34, 39, 46, 54, 59, 63, 63, 57, 50, 43, 37]';
  it.each([
    ['of eleven months', [LIGHT.replace(', 0.47', ''), AIR], 'irradiation_kWh_m2_day', 'one for each month'],
    ['in MJ, by belief', [MJ, AIR], 'irradiation_kWh_m2_day.0', 'did you mean MJ/m2 a day?'],
    ['in MJ, by name', [MJ.replace('kWh', 'MJ'), AIR], 'irradiation_MJ_m2_day', '0.7778, 0.4722'],
    ['in W/m2', [W_M2, AIR], 'irradiation_kWh_m2_day.0', 'did you mean W/m2, mean of day and night?'],
    ['as sums of months', [MONTHLY, AIR], 'irradiation_kWh_m2_day.0', 'did you mean kWh/m2 a month?'],
    ['in Fahrenheit, by belief', [LIGHT, FAHRENHEIT], 'air_degC.6', 'did you mean Fahrenheit?'],
    [
      'in Fahrenheit, by name',
      [LIGHT, FAHRENHEIT.replace('degC', 'degF')],
      'air_degF',
      'write air_degC: [1.111',
    ],
    [
      'with the air of the other half of the Earth',
      [LIGHT, 'air_degC: [17, 17, 14, 10, 6, 3, 1, 1, 4, 8, 12, 15]'],
      'air_degC',
      'north is positive',
    ],
    ['too bright', [LIGHT.replace('0.47', '1.4'), AIR], 'irradiation_kWh_m2_day.11', 'check the number'],
    ['too dull', [LIGHT.replace('0.47', '0.02'), AIR], 'irradiation_kWh_m2_day.11', 'check the number'],
    ['without light', [AIR], 'irradiation_kWh_m2_day', 'add irradiation_kWh_m2_day'],
    ['without air', [LIGHT], 'air_degC', 'add air_degC'],
    [
      'with null under the sun',
      [LIGHT.replace('0.47', 'null'), AIR],
      'irradiation_kWh_m2_day.11',
      'null is for',
    ],
    ['with light said twice', [LIGHT, SHARES, AIR], 'clearness_shares', 'keep the one'],
    [
      'with days learned and published',
      [SHARES, AIR, 'distribution: bendt'],
      'distribution',
      'take distribution',
    ],
    [
      'with shares that fall',
      [SHARES.replace('0.5, 1]', '1, 0.5]'), AIR],
      'clearness_shares.days',
      'begin with 0',
    ],
    [
      'with a short row',
      [SHARES.replace('0.3, 0.6', '0.6'), AIR],
      'clearness_shares.months.0',
      'one for each',
    ],
    [
      'with more days of snow than any month has',
      [LIGHT, AIR, `snow_days: [40${', 0'.repeat(11)}]`],
      'snow_days.0',
      'check the value',
    ],
    [
      'with too much snow',
      [LIGHT, AIR, `snow_days: [31, 30${', 0'.repeat(10)}]`],
      'snow_days.1',
      'check the order',
    ],
    [
      'with shares above 1',
      [LIGHT, AIR, 'persistence: { daily: 0.5, lasting: 0.9, winter: 0.2 }'],
      'persistence.lasting',
      'lower',
    ],
  ])('%s', (_, lines, field, fix) => {
    const { problems } = refused(climate(...lines));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ field: `weather.climate.${field}` });
    expect(problems[0]!.fix).toContain(fix);
    expect(problems[0]!.line).toBeGreaterThan(5);
  });

  it('with light in a month without sun', () => {
    const { problems } = refused(climate(LIGHT, AIR).replace('latitude_deg: 54', 'latitude_deg: 69.5'));
    expect(problems.find(({ field }) => field?.endsWith('.11'))).toMatchObject({
      code: 'SCENARIO_CONFLICT',
      got: '0.47 in December, when the sun hardly rises there',
    });
  });

  it('weather of neither file nor climate', () => {
    expect(refused(changed([FILE, ''], ['weather:', 'weather: {}'])).problems[0]).toMatchObject({
      code: 'SCENARIO_MISSING_KEY',
      field: 'weather.file',
    });
  });
});
