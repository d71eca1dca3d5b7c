import { describe, expect, it, test } from 'vitest';
import { convertedValue, splitUnit } from '../../sim/scenario/unitSuffixes.ts';

const convert = (value: number, from: string, to: string) =>
  convertedValue(value, splitUnit(from), splitUnit(to));

describe('convertedValue', () => {
  // Factors by the definitions of the prefixes, the foot (0.3048 m) and the Fahrenheit scale.
  it.each([
    [5000, 'capacitance_mF', 'capacitance_F', 5],
    [0.5, 'short_circuit_A', 'short_circuit_mA', 500],
    [1.2, 'leakage_mA', 'leakage_uA', 1200],
    [2700, 'rated_mV', 'rated_V', 2.7],
    [0.005, 'esr_ohm', 'esr_mohm', 5],
    [0.8, 'inductance_mH', 'inductance_uH', 800],
    [8000, 'frequency_Hz', 'frequency_kHz', 8],
    [0.006, 'area_m2', 'area_cm2', 60],
    [100, 'elevation_ft', 'elevation_m', 30.48],
    [Math.PI, 'latitude_rad', 'latitude_deg', 180],
    [15, 'tolerance_min', 'tolerance_h', 0.25],
    [360, 'minutes', 'hours', 6],
    [1800, 'time_constant_s', 'time_constant_min', 30],
    [50, 'constant_degF', 'constant_degC', 10],
    [283.15, 'constant_K', 'constant_degC', 10],
    [20, 'duty_percent', 'duty', 0.2],
    [0.1, 'absorption_per_cm', 'absorption_per_m', 10],
    [-0.0022, 'voltage_tempco_V_K', 'voltage_tempco_mV_K', -2.2],
    [50, 'irradiance_mW_cm2', 'irradiance_W_m2', 500],
    [17, 'power_uW', 'power_mW', 0.017],
  ])('reads %d %s as %s: %d', (value, from, to, expected) => {
    expect(convert(value, from, to)).toBeCloseTo(expected, 12);
  });

  it('knows no conversion between quantities, of a difference in temperature, or of another thing', () => {
    expect(convert(1, 'capacitance_V', 'capacitance_F')).toBeUndefined();
    expect(convert(1, 'leakage_doubling_degC', 'leakage_doubling_K')).toBeUndefined();
    expect(convert(1, 'rated_mV', 'cutoff_V')).toBeUndefined();
    expect(convert(1, 'rated_V', 'rated_V')).toBeUndefined();
  });
});

test('splitUnit takes the longest unit that ends a key', () => {
  expect(splitUnit('low_light_irradiance_W_m2')).toEqual({ stem: 'low_light_irradiance', unit: 'W_m2' });
  expect(splitUnit('cells_in_series')).toEqual({ stem: 'cells_in_series', unit: '' });
  expect(splitUnit('duty')).toEqual({ stem: 'duty', unit: '' });
});
