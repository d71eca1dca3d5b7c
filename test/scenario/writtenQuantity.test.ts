import { describe, expect, it } from 'vitest';
import { type SchemaNode, schemaAt } from '../../sim/scenario/SchemaNode.ts';
import { writtenQuantity } from '../../sim/scenario/writtenQuantity.ts';

const lamp = (...path: string[]) => schemaAt(['lamps', 'single', ...path], {})!;
const obstacle = (key: string) => schemaAt(['spots', 'lawn', 'obstacles', 'fence', key], {})!;
const inUnit = (unit: string): SchemaNode => ({ type: 'number', unit });

describe('writtenQuantity converts into the unit of the key', () => {
  it.each<[string, SchemaNode, number]>([
    ['180cm', obstacle('height_m'), 1.8],
    ['180 cm', obstacle('height_m'), 1.8],
    ['0.7mA', lamp('capacitor', 'leakage_uA'), 700],
    ['0.47mH', lamp('driver', 'inductance_uH'), 470],
    ['1800mV', lamp('driver', 'cutoff_V'), 1.8],
    ['1 800 mV', lamp('driver', 'cutoff_V'), 1.8],
    ['80 %', lamp('driver', 'duty'), 0.8],
    ['80%', schemaAt(['spots', 'lawn', 'obstacles', 'fence', 'openness'], {})!, 0.8],
    ['80 %', lamp('cell', 'readings', 'voltage_error_percent'), 80],
    ['90 %', lamp('driver', 'efficiency'), 0.9],
    ['15 percent', lamp('capacitor', 'capacitance_rise'), 0.15],
    ['6 h', schemaAt(['promise', 'tolerance_h'], {})!, 6],
    ['15 min', schemaAt(['promise', 'tolerance_h'], {})!, 0.25],
    ['360 minutes', schemaAt(['promise', 'hours'], {})!, 6],
    ['180 min', lamp('capacitor', 'delayed_hours'), 3],
    ['10°', schemaAt(['spots', 'lawn', 'cell_tilt_deg'], {})!, 10],
    ['180 degrees', obstacle('bearing_deg'), 180],
    ['4.7 kOhm', inUnit('kohm'), 4.7],
    ['4.7 kΩ', inUnit('ohm'), 4700],
    ['20 mΩ', lamp('capacitor', 'esr_mohm'), 20],
    ['20 MOhm', inUnit('kohm'), 20_000],
    ['1 KHz', lamp('driver', 'frequency_kHz'), 1],
    ['5000 mF', lamp('capacitor', 'capacitance_F'), 5],
    ['470 uF', inUnit('mF'), 0.47],
    ['470 µF', inUnit('mF'), 0.47], // the micro sign
    ['470 μF', inUnit('mF'), 0.47], // the Greek letter
    ['20 W/m²', lamp('cell', 'low_light_point', 'irradiance_W_m2'), 20],
    ['2 mW/cm^2', lamp('cell', 'low_light_point', 'irradiance_W_m2'), 20],
    ['20 W m-2', lamp('cell', 'low_light_point', 'irradiance_W_m2'), 20],
    ['−2.2 mV/°C', lamp('cell', 'voltage_tempco_mV_K'), -2.2],
    ['-0.0022 V/K', lamp('cell', 'voltage_tempco_mV_K'), -2.2],
    ['77 °F', lamp('capacitor', 'readings', 'rest', 'capacitor_degC'), 25],
    ['25 C', lamp('capacitor', 'readings', 'rest', 'capacitor_degC'), 25],
    ['298.15 K', lamp('capacitor', 'readings', 'rest', 'capacitor_degC'), 25],
    // A step, not a point of the scale.
    ['10 °C', lamp('capacitor', 'leakage_doubling_K'), 10],
    ['18 °F', lamp('capacitor', 'leakage_doubling_K'), 10],
    ['4 /m', inUnit('1/m'), 4],
    ['0.04 1/cm', inUnit('1/m'), 4],
    ['6 ft', obstacle('height_m'), 1.8288],
    ['60 cm²', lamp('cell', 'area_cm2'), 60],
    ['0.5 lx', inUnit('lux'), 0.5],
    ['1e3', inUnit('m'), 1000],
    ['54', inUnit('deg'), 54],
    ['.5m', inUnit('m'), 0.5],
  ])('%s', (text, node, value) => {
    expect(writtenQuantity(text, node)).toEqual({ value });
  });
});

describe('two numbers of one quantity', () => {
  it.each([
    ['6 h 15 min', 'h', 6.25],
    ['4h 30min', 'h', 4.5],
    ['5 ft 10 in', 'm', 1.778],
    ['5\'10"', 'm', 1.778],
    ['1 m 80 cm', 'm', 1.8],
  ])('are added: %s', (text, unit, value) => {
    expect(writtenQuantity(text, inUnit(unit))).toEqual({ value });
  });

  it.each([
    ['15 min 6 h', 'h'],
    ['1 h 90 min', 'h'],
    ['6 h 15 V', 'h'],
    ['6 h 15', 'h'],
  ])('are not where they are none, or the second is more than one of the first: %s', (text, unit) => {
    expect(writtenQuantity(text, inUnit(unit))?.value).toBeUndefined();
  });

  it.each([
    ["54°10' N", '54.16667'],
    ['54° 10′ 30″ S', '-54.175'],
    ["-10°30'", '-10.5'],
  ])('as degrees and minutes are told as one: %s', (text, value) => {
    const { problem } = writtenQuantity(text, inUnit('deg'))!;
    expect(problem!.fix).toBe(`write ${value}; north and east are positive.`);
  });

  it('as times an hour are taken in words', () => {
    expect(writtenQuantity('6 per hour', inUnit('1/h'))).toEqual({ value: 6 });
    expect(writtenQuantity('6/h', inUnit('1/h'))).toEqual({ value: 6 });
  });
});

describe('a comma', () => {
  it.each([
    ['1,8 V', 1.8],
    ['54,5', 54.5],
    ['0,470 V', 0.47],
    ['1,80', 1.8],
    ['1.234,5', 1234.5],
    ['1,234.5', 1234.5],
    ['1,234,567', 1_234_567],
    ['1.800', 1.8],
  ])('that can be only one thing is taken: %s', (text, value) => {
    expect(writtenQuantity(text, inUnit('V'))).toEqual({ value });
  });

  it.each([
    ['1,800 V', '1.8 or 1800'],
    ['12,345 mV', '0.012345 or 12.345'],
  ])('that can be two is refused with both: %s', (text, both) => {
    expect(writtenQuantity(text, inUnit('V'))!.problem!.fix).toBe(`write ${both}.`);
  });
});

describe('writtenQuantity refuses', () => {
  it.each<[string, SchemaNode, object]>([
    [
      '180 V',
      obstacle('height_m'),
      {
        got: '"180 V", a voltage',
        quantity: 'a length',
        fix: 'write it in km, m, cm, mm, um, ft, in; a number alone is read in m.',
      },
    ],
    [
      '100 mAh',
      inUnit('F'),
      {
        got: '"100 mAh", a charge',
        quantity: 'a capacitance',
        fix: 'write it in F, mF, uF, nF, pF; a number alone is read in F.',
      },
    ],
    ['77 F', inUnit('degC'), { got: '"77 F", a capacitance', fix: 'for 77 degF write 25.' }],
    ['25 deg', inUnit('degC'), { got: '"25 deg", an angle', fix: 'for 25 degC write 25.' }],
    ['180 M', inUnit('m'), { got: '"180 M", in a unit that is not known', fix: 'for 180 m write 180.' }],
    ['3 V', lamp('driver', 'duty'), { fix: 'write the number alone, or a share in percent: 3.' }],
    ['3.50 EUR', lamp('cell', 'price'), { fix: 'write the number alone: 3.5.' }],
    ['50 %', lamp('cell', 'parallel'), { fix: 'write the number alone: 50.' }],
    [
      '10 W',
      { type: 'number', unit: 'deg', minimum: -180 },
      { fix: 'write -10; north and east are positive.' },
    ],
  ])('%s', (text, node, problem) => {
    expect(writtenQuantity(text, node)!.problem).toMatchObject(problem);
  });

  it('to say anything of a text that is no number, or where no number is wanted', () => {
    for (const text of ['dusk', 'about 5 m', '5 1', '54 1/2', '', 'm'])
      expect(writtenQuantity(text, inUnit('m'))).toBeUndefined();
    expect(writtenQuantity('23:00', schemaAt(['promise', 'until'], {})!)).toBeUndefined();
    expect(writtenQuantity('NNE', obstacle('bearing_deg'))).toBeUndefined();
    expect(writtenQuantity('1', schemaAt(['format'], {})!)).toBeUndefined();
    expect(writtenQuantity('2021', schemaAt(['name'], {})!)).toBeUndefined();
  });
});
