/** How a value in the unit of a key's ending becomes one in the quantity's base unit: value * multiply + add. */
interface UnitSuffix {
  quantity: string;
  multiply: number;
  add: number;
}

/** Units that can end a key, after a low line, by quantity: a factor, or a factor and what is added. source: SP811 */
const UNITS: Readonly<Record<string, Readonly<Record<string, number | readonly [number, number]>>>> = {
  current: { A: 1, mA: 1e-3, uA: 1e-6, nA: 1e-9 },
  voltage: { kV: 1e3, V: 1, mV: 1e-3 },
  capacitance: { F: 1, mF: 1e-3, uF: 1e-6 },
  resistance: { Mohm: 1e6, kohm: 1e3, ohm: 1, mohm: 1e-3 },
  conductance: { S: 1, mS: 1e-3, uS: 1e-6 },
  inductance: { H: 1, mH: 1e-3, uH: 1e-6, nH: 1e-9 },
  frequency: { Hz: 1, kHz: 1e3, MHz: 1e6 },
  power: { W: 1, mW: 1e-3, uW: 1e-6 },
  time: { d: 86_400, h: 3600, min: 60, s: 1, ms: 1e-3 },
  length: { km: 1e3, m: 1, cm: 1e-2, mm: 1e-3, um: 1e-6, ft: 0.3048, in: 0.0254 },
  area: { m2: 1, cm2: 1e-4, mm2: 1e-6, in2: 0.00064516 },
  angle: { deg: Math.PI / 180, rad: 1 },
  irradiance: { W_m2: 1, kW_m2: 1e3, mW_cm2: 10 },
  'voltage per kelvin': { V_K: 1, mV_K: 1e-3 },
  'share per kelvin': { percent_K: 0.01 },
  'capacitance per volt': { F_V: 1 },
  energy: { eV: 1 },
  temperature: { degC: 1, K: [1, -273.15], degF: [5 / 9, -160 / 9] },
  light: { lm: 1, klm: 1e3 },
  illuminance: { lux: 1 },
  efficacy: { lm_W: 1 },
  share: { percent: 0.01 },
};

const UNIT_SUFFIXES: Readonly<Record<string, UnitSuffix>> = Object.fromEntries(
  Object.entries(UNITS).flatMap(([quantity, units]) =>
    Object.entries(units).map(([unit, size]) => {
      const [multiply, add] = typeof size === 'number' ? [size, 0] : size;
      return [unit, { quantity, multiply, add }];
    }),
  ),
);

/** Keys that are nothing but a unit. */
const WHOLE_KEYS: Readonly<Record<string, string>> = { hours: 'h', minutes: 'min', seconds: 's' };

/** A key taken apart: what it is of, and its unit ('' where it has none). */
export interface KeyWithUnit {
  stem: string;
  unit: string;
}

/** Takes a key apart at the unit that ends it. */
export function splitUnit(key: string): KeyWithUnit {
  const whole = WHOLE_KEYS[key];
  if (whole !== undefined) return { stem: '', unit: whole };
  for (let at = key.indexOf('_'); at > 0; at = key.indexOf('_', at + 1)) {
    const unit = key.slice(at + 1);
    if (Object.hasOwn(UNIT_SUFFIXES, unit)) return { stem: key.slice(0, at), unit };
  }
  return { stem: key, unit: '' };
}

/**
 * The unit that ends a key, as it is written in words; '' where the key has none.
 * @example unitInWords('low_light_irradiance_W_m2'); // => 'W/m2'
 */
export function unitInWords(key: string): string {
  return splitUnit(key).unit.replace('percent', '%').replace('_', '/');
}

/**
 * A value in the unit of another key of the same stem, or undefined where the two units are not of one quantity.
 *
 * in: value; from and to, keys taken apart
 * out: the value, rounded to 12 digits
 * source: SP811
 */
export function convertedValue(value: number, from: KeyWithUnit, to: KeyWithUnit): number | undefined {
  if (from.stem !== to.stem || from.unit === to.unit) return undefined;
  const given = UNIT_SUFFIXES[from.unit];
  const wanted =
    to.unit === '' && given?.quantity === 'share'
      ? { quantity: 'share', multiply: 1, add: 0 }
      : UNIT_SUFFIXES[to.unit];
  if (given === undefined || wanted === undefined || given.quantity !== wanted.quantity) return undefined;
  // A difference in kelvin is no temperature.
  if (given.quantity === 'temperature' && to.unit !== 'degC') return undefined;
  const factor = given.multiply / wanted.multiply;
  const converted = from.stem.endsWith('_per')
    ? value / factor
    : (value * given.multiply + given.add - wanted.add) / wanted.multiply;
  return Number(converted.toPrecision(12));
}
