/** How a value in the unit of a key's ending becomes one in the quantity's base unit: value * multiply + add. */
interface UnitSuffix {
  quantity: string;
  multiply: number;
  add: number;
}

/**
 * Units that can end a key, after a low line, or follow a number, by quantity: a factor, or a factor and what is added.
 * source: SP811; of the electronvolt SI2019
 */
const UNITS: Readonly<Record<string, Readonly<Record<string, number | readonly [number, number]>>>> = {
  current: { A: 1, mA: 1e-3, uA: 1e-6, nA: 1e-9 },
  voltage: { kV: 1e3, V: 1, mV: 1e-3, uV: 1e-6 },
  capacitance: { F: 1, mF: 1e-3, uF: 1e-6, nF: 1e-9, pF: 1e-12 },
  resistance: { Mohm: 1e6, kohm: 1e3, ohm: 1, mohm: 1e-3 },
  conductance: { S: 1, mS: 1e-3, uS: 1e-6 },
  inductance: { H: 1, mH: 1e-3, uH: 1e-6, nH: 1e-9 },
  frequency: { Hz: 1, kHz: 1e3, MHz: 1e6 },
  power: { kW: 1e3, W: 1, mW: 1e-3, uW: 1e-6 },
  time: { d: 86_400, h: 3600, min: 60, s: 1, ms: 1e-3 },
  length: { km: 1e3, m: 1, cm: 1e-2, mm: 1e-3, um: 1e-6, ft: 0.3048, in: 0.0254 },
  area: { m2: 1, cm2: 1e-4, mm2: 1e-6, in2: 0.00064516 },
  angle: { deg: Math.PI / 180, rad: 1 },
  'light a day': { kWh_m2_day: 1, MJ_m2_day: 1 / 3.6, Wh_m2_day: 1e-3, J_cm2_day: 1 / 360 },
  irradiance: { W_m2: 1, kW_m2: 1e3, mW_cm2: 10, W_cm2: 1e4 },
  'voltage per kelvin': { V_K: 1, mV_K: 1e-3 },
  'share per kelvin': { percent_K: 0.01, '1_K': 1 },
  'share per length': { '1_m': 1, '1_cm': 1e2, '1_mm': 1e3 },
  'number of times an hour': { '1_s': 3600, '1_min': 60, '1_h': 1, '1_d': 1 / 24 },
  'capacitance per volt': { F_V: 1, mF_V: 1e-3 },
  charge: { Ah: 3600, mAh: 3.6 },
  energy: { kWh: 3.6e6, Wh: 3600, mWh: 3.6, J: 1, eV: 1.602176634e-19 },
  temperature: { degC: 1, K: [1, -273.15], degF: [5 / 9, -160 / 9] },
  'light output': { klm: 1e3, lm: 1, mlm: 1e-3 },
  illuminance: { klux: 1e3, lux: 1 },
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

/** A number without a unit: of it a share is a hundredth part for each percent. */
const PLAIN: UnitSuffix = { quantity: 'share', multiply: 1, add: 0 };

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
  return inWords(splitUnit(key).unit);
}

function inWords(suffix: string): string {
  return suffix.replace('percent', '%').replaceAll('_', '/');
}

/** A unit by its words; '' and '1' are those of a plain number. */
function unitNamed(words: string): UnitSuffix | undefined {
  if (words === '' || words === '1') return PLAIN;
  const suffix = words.replace('%', 'percent').replaceAll('/', '_');
  return Object.hasOwn(UNIT_SUFFIXES, suffix) ? UNIT_SUFFIXES[suffix] : undefined;
}

/**
 * What a unit in words is a unit of, in words; undefined where there is no such unit.
 * @example quantityOf('mV/K'); // => 'voltage per kelvin'
 */
export function quantityOf(words: string): string | undefined {
  return unitNamed(words)?.quantity;
}

/**
 * All units of one quantity, in words, the largest first.
 * @example unitsOf('inductance'); // => ['H', 'mH', 'uH', 'nH']
 */
export function unitsOf(quantity: string): string[] {
  return Object.keys(UNITS[quantity] ?? {}).map(inWords);
}

/**
 * A value in another unit of the same quantity, both in words, or undefined where they are not of one. A temperature is
 * one on its scale in degC and degF, and a difference in K.
 *
 * out: the value, rounded to 12 digits
 * source: SP811
 * @example inUnit(180, 'cm', 'm'); // => 1.8
 */
export function inUnit(value: number, from: string, to: string): number | undefined {
  const [given, wanted] = [unitNamed(from), unitNamed(to)];
  if (given === undefined || wanted === undefined || given.quantity !== wanted.quantity) return undefined;
  const moved = to === 'K' ? 0 : given.add - wanted.add;
  return rounded((value * given.multiply + moved) / wanted.multiply);
}

/**
 * A value in the unit of another key of the same stem, or undefined where the two units are not of one quantity.
 *
 * in: value; from and to, keys taken apart
 * out: the value, rounded to 12 digits
 * source: SP811
 */
export function convertedValue(value: number, from: KeyWithUnit, to: KeyWithUnit): number | undefined {
  if (from.stem !== to.stem || from.unit === to.unit || from.unit === '') return undefined;
  // A difference in kelvin is no temperature.
  if (quantityOf(inWords(from.unit)) === 'temperature' && to.unit !== 'degC') return undefined;
  const [given, wanted] = [inWords(from.unit), inWords(to.unit)];
  // So many for each of a unit are the more, the larger that is.
  return from.stem.endsWith('_per') ? inUnit(value, wanted, given) : inUnit(value, given, wanted);
}

function rounded(value: number): number {
  return Number(value.toPrecision(12));
}
