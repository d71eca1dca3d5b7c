/** How a value in the unit of a key's ending becomes one in the quantity's base unit: value * multiply + add. */
interface UnitSuffix {
  quantity: string;
  multiply: number;
  add: number;
}

const suffix = (quantity: string, multiply: number, add = 0): UnitSuffix => ({ quantity, multiply, add });

/** Units that can end a key, after a low line. source: SP811 */
const UNIT_SUFFIXES: Readonly<Record<string, UnitSuffix>> = {
  A: suffix('current', 1),
  mA: suffix('current', 1e-3),
  uA: suffix('current', 1e-6),
  nA: suffix('current', 1e-9),
  kV: suffix('voltage', 1e3),
  V: suffix('voltage', 1),
  mV: suffix('voltage', 1e-3),
  F: suffix('capacitance', 1),
  mF: suffix('capacitance', 1e-3),
  uF: suffix('capacitance', 1e-6),
  Mohm: suffix('resistance', 1e6),
  kohm: suffix('resistance', 1e3),
  ohm: suffix('resistance', 1),
  mohm: suffix('resistance', 1e-3),
  S: suffix('conductance', 1),
  mS: suffix('conductance', 1e-3),
  uS: suffix('conductance', 1e-6),
  H: suffix('inductance', 1),
  mH: suffix('inductance', 1e-3),
  uH: suffix('inductance', 1e-6),
  nH: suffix('inductance', 1e-9),
  Hz: suffix('frequency', 1),
  kHz: suffix('frequency', 1e3),
  MHz: suffix('frequency', 1e6),
  W: suffix('power', 1),
  mW: suffix('power', 1e-3),
  uW: suffix('power', 1e-6),
  d: suffix('time', 86_400),
  h: suffix('time', 3600),
  min: suffix('time', 60),
  s: suffix('time', 1),
  ms: suffix('time', 1e-3),
  km: suffix('length', 1e3),
  m: suffix('length', 1),
  cm: suffix('length', 1e-2),
  mm: suffix('length', 1e-3),
  um: suffix('length', 1e-6),
  ft: suffix('length', 0.3048),
  in: suffix('length', 0.0254),
  m2: suffix('area', 1),
  cm2: suffix('area', 1e-4),
  mm2: suffix('area', 1e-6),
  in2: suffix('area', 0.00064516),
  deg: suffix('angle', Math.PI / 180),
  rad: suffix('angle', 1),
  W_m2: suffix('irradiance', 1),
  kW_m2: suffix('irradiance', 1e3),
  mW_cm2: suffix('irradiance', 10),
  V_K: suffix('voltage per kelvin', 1),
  mV_K: suffix('voltage per kelvin', 1e-3),
  degC: suffix('temperature', 1),
  K: suffix('temperature', 1, -273.15),
  degF: suffix('temperature', 5 / 9, -160 / 9),
  lm: suffix('light', 1),
  klm: suffix('light', 1e3),
  percent: suffix('share', 0.01),
};

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
 * A value in the unit of another key of the same stem, or undefined where the two units are not of one quantity.
 *
 * in: value; from and to, keys taken apart
 * out: the value, rounded to 12 digits
 * source: SP811
 */
export function convertedValue(value: number, from: KeyWithUnit, to: KeyWithUnit): number | undefined {
  if (from.stem !== to.stem || from.unit === to.unit) return undefined;
  const given = UNIT_SUFFIXES[from.unit];
  const wanted = to.unit === '' && given?.quantity === 'share' ? suffix('share', 1) : UNIT_SUFFIXES[to.unit];
  if (given === undefined || wanted === undefined || given.quantity !== wanted.quantity) return undefined;
  // A difference in kelvin is no temperature.
  if (given.quantity === 'temperature' && to.unit !== 'degC') return undefined;
  const factor = given.multiply / wanted.multiply;
  const converted = from.stem.endsWith('_per')
    ? value / factor
    : (value * given.multiply + given.add - wanted.add) / wanted.multiply;
  return Number(converted.toPrecision(12));
}
