/** The one unit each quantity has inside; every unit that can be read leads to one of them. */
type CanonicalUnit = 'W/m2' | 'degC' | 'm' | 'm/s' | '1';

/**
 * How a value in some unit becomes one in the canonical unit: (value - subtract) * multiply / divide.
 * All three are exact numbers, so that no rounding comes in but the last.
 */
export interface Unit {
  canonical: CanonicalUnit;
  /**
   * mean: a mean over the step, or a state; the step's length does not matter.
   * sum: a sum over the step that is wanted as a mean, per second: divided by the seconds of the step.
   * rate: a rate per hour that is wanted as a sum: multiplied by the hours of the step.
   */
  over: 'mean' | 'sum' | 'rate';
  subtract: number;
  multiply: number;
  divide: number;
}

const unit = (
  canonical: CanonicalUnit,
  over: Unit['over'],
  multiply: number,
  divide = 1,
  subtract = 0,
): Unit => ({ canonical, over, subtract, multiply, divide });

/**
 * Luminous efficacy of daylight as a whole, lumens per watt: 110 to 120 from overcast to clear sky. A light meter's
 * reading turned into irradiance is good to 10 percent.
 * source: DaylightEfficacy, from memory
 * departs: the review's abstract has about 105, which makes 10 percent more irradiance of a reading
 */
export const DAYLIGHT_LM_W = 115;

/** Units of irradiance, as mean power or as energy over the step. */
const IRRADIANCE = {
  'W/m2': unit('W/m2', 'mean', 1),
  'kW/m2': unit('W/m2', 'mean', 1000),
  'mW/cm2': unit('W/m2', 'mean', 10),
  'uW/cm2': unit('W/m2', 'mean', 1, 100),
  'mW/m2': unit('W/m2', 'mean', 1, 1000),
  '0.1 W/m2': unit('W/m2', 'mean', 1, 10),
  'Wh/m2': unit('W/m2', 'sum', 3600),
  'kWh/m2': unit('W/m2', 'sum', 3_600_000),
  'J/m2': unit('W/m2', 'sum', 1),
  'J/cm2': unit('W/m2', 'sum', 10_000),
  'kJ/m2': unit('W/m2', 'sum', 1000),
  'MJ/m2': unit('W/m2', 'sum', 1_000_000),
  langley: unit('W/m2', 'sum', 41_840),
  lx: unit('W/m2', 'mean', 1, DAYLIGHT_LM_W),
  klx: unit('W/m2', 'mean', 1000, DAYLIGHT_LM_W),
} as const satisfies Record<string, Unit>;
export const IRRADIANCE_UNITS = Object.keys(IRRADIANCE) as (keyof typeof IRRADIANCE)[];

/**
 * Every unit a weather file may state, spelt as the scenario spells it.
 * Factors of feet, inches, miles and the calorie (4.184 J) are exact by definition.
 * source: SP811
 */
export const UNITS = {
  ...IRRADIANCE,
  degC: unit('degC', 'mean', 1),
  '0.1 degC': unit('degC', 'mean', 1, 10),
  degF: unit('degC', 'mean', 5, 9, 32),
  K: unit('degC', 'mean', 1, 1, 273.15),
  m: unit('m', 'mean', 1),
  cm: unit('m', 'mean', 1, 100),
  mm: unit('m', 'mean', 1, 1000),
  '0.1 mm': unit('m', 'mean', 1, 10_000),
  in: unit('m', 'mean', 254, 10_000),
  ft: unit('m', 'mean', 3048, 10_000),
  'kg/m2': unit('m', 'mean', 1, 1000),
  'mm/h': unit('m', 'rate', 1, 1000),
  'm/s': unit('m/s', 'mean', 1),
  '0.1 m/s': unit('m/s', 'mean', 1, 10),
  'km/h': unit('m/s', 'mean', 10, 36),
  kn: unit('m/s', 'mean', 1852, 3600),
  mph: unit('m/s', 'mean', 1_609_344, 3_600_000),
  '1': unit('1', 'mean', 1),
  '%': unit('1', 'mean', 1, 100),
} as const satisfies Record<string, Unit>;

export type UnitName = keyof typeof UNITS;

export const TEMPERATURE_UNITS = ['degC', '0.1 degC', 'degF', 'K'] as const satisfies UnitName[];
export const SNOW_UNITS = ['m', 'cm', 'mm', 'in', 'ft'] as const satisfies UnitName[];
export const RAIN_UNITS = ['mm', '0.1 mm', 'cm', 'm', 'in', 'kg/m2', 'mm/h'] as const satisfies UnitName[];
export const WIND_UNITS = ['m/s', '0.1 m/s', 'km/h', 'kn', 'mph'] as const satisfies UnitName[];

/**
 * A value in the canonical unit of its quantity (W/m2 as mean over the step, degC, m, m/s, a share).
 *
 * in: value, in `unit`; unit, a name of the units table; step_s, seconds the value covers, more than 0
 * out: the value in UNITS[unit].canonical
 * NaN when: value is NaN
 * valid: exact factors; one rounding or two
 * source: SP811
 * @example toCanonical(36, 'J/cm2', 3600); // => 100
 */
export function toCanonical(value: number, unit: UnitName, step_s: number): number {
  const { subtract, multiply, divide, over }: Unit = UNITS[unit];
  const scaled = ((value - subtract) * multiply) / divide;
  if (over === 'sum') return scaled / step_s;
  return over === 'rate' ? (scaled * step_s) / 3600 : scaled;
}

/**
 * A value in the unit of a file from its canonical one: the inverse of toCanonical.
 *
 * in: value, in UNITS[unit].canonical; unit; step_s, seconds the value covers
 * out: the value in `unit`
 * source: SP811
 * @example fromCanonical(100, 'J/cm2', 3600); // => 36
 */
export function fromCanonical(value: number, unit: UnitName, step_s: number): number {
  const { subtract, multiply, divide, over }: Unit = UNITS[unit];
  const steps = over === 'sum' ? step_s : over === 'rate' ? 3600 / step_s : 1;
  return (value * steps * divide) / multiply + subtract;
}
