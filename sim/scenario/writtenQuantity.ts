import type { SchemaNode } from './SchemaNode.ts';
import { inUnit, quantityOf, unitsOf } from './unitSuffixes.ts';

/** A number that was written as text: its value in the unit that is wanted, or what is wrong with it. */
export type WrittenQuantity =
  | { value: number; problem?: never }
  | { value?: never; problem: QuantityProblem };

interface QuantityProblem {
  code: 'SCENARIO_WRONG_UNIT' | 'SCENARIO_WRONG_TYPE';
  got: string;
  /** What quantity was expected, where another or none was found: 'a length'. */
  quantity?: string;
  fix: string;
}

/** Other spellings of a unit, in small letters. */
const SPELLINGS: Readonly<Record<string, string>> = Object.fromEntries(
  [
    ['%', 'percent'],
    ['deg', '°', 'degree', 'degrees'],
    ['degC', 'c', '°c', 'deg c', 'celsius'],
    ['degF', '°f', 'deg f', 'fahrenheit'],
    ['K', 'kelvin'],
    ['d', 'day', 'days'],
    ['h', 'hr', 'hrs', 'hour', 'hours'],
    ['min', 'mins', 'minute', 'minutes'],
    ['s', 'sec', 'secs', 'second', 'seconds'],
    ['m', 'metre', 'metres', 'meter', 'meters'],
    ['in', 'inch', 'inches', '"', '″', '′′'],
    ['ft', 'foot', 'feet', "'", '′'],
    ['A', 'amp', 'amps', 'ampere', 'amperes'],
    ['V', 'volt', 'volts'],
    ['W', 'watt', 'watts'],
    ['F', 'farad', 'farads'],
    ['H', 'henry', 'henries'],
    ['lux', 'lx'],
    ['klux', 'klx'],
    ['lm', 'lumen', 'lumens'],
  ].flatMap(([unit, ...others]) => others.map((other) => [other, unit!])),
);

/** Sign, digits with what parts them, power of ten, and the rest. */
const NUMBER =
  /^([-+\u2212]?)((?:\d|[.,](?=\d)|[ '\u2019](?=\d{3}(?!\d)))+\.?)((?:[eE][-+\u2212]?\d+)?)\s*(.*)$/s;

/**
 * The number that a text says where a number is wanted, with or without a unit: '180 cm', '0.7mA', '80 %', '1,8 V'.
 *
 * in: text; node, the schema of the key: what it wants, and in which unit
 * out: the value in that unit, or a problem: a unit of another quantity, one that is not known, a comma that may be
 *   either; undefined where the text does not begin with a number, or no number is wanted
 * valid: a point is a decimal point; a comma too, but before three digits it may part thousands and is not taken
 */
export function writtenQuantity(text: string, node: SchemaNode): WrittenQuantity | undefined {
  const form = numberForm(node);
  if (form === undefined) return undefined;
  const wanted = node.unit ?? form.unit ?? '';
  const minutes = wanted === 'deg' ? degreesWithMinutes(text) : undefined;
  if (minutes !== undefined) return { problem: minutes };
  const both = inTwoUnits(text, wanted);
  if (both !== undefined) return { value: both };
  const said = takenApart(text);
  if (said === undefined) return undefined;
  const { readings, unit } = said;
  const quoted = `"${text}"`;
  const values = readings.map((reading) => (unit === '' ? reading : inUnit(reading, unit, wanted)));
  if (values.includes(undefined) || (unit !== '' && isPlain(wanted) && !mayBeShare(form))) {
    return { problem: wrongUnit(quoted, said, wanted, form) };
  }
  if (values.length === 1) return { value: values[0]! };
  const got = `${quoted}, whose comma may stand before decimals or part thousands`;
  return { problem: { code: 'SCENARIO_WRONG_TYPE', got, fix: `write ${values.join(' or ')}.` } };
}

/** Whether a text is a number, alone or with a unit that is known. */
export function saysQuantity(text: string): boolean {
  const said = takenApart(text);
  return said !== undefined && quantityOf(said.unit) !== undefined;
}

/** The form of a value in which it is a free number; undefined where it is none. */
export function numberForm(node: SchemaNode): SchemaNode | undefined {
  const forms = node.anyOf ?? [node];
  return forms.find(
    ({ type, const: only }) => (type === 'number' || type === 'integer') && only === undefined,
  );
}

function isPlain(unit: string): boolean {
  return unit === '' || unit === '1';
}

/** Most that something said in percent ever comes to. */
export const MOST_SHARE = 2;

/** Whether percent make sense of a number without a unit: of one that may be broken and is bound as shares are. */
function mayBeShare({ type, maximum }: SchemaNode): boolean {
  return type === 'number' && maximum !== undefined && maximum <= MOST_SHARE;
}

function wrongUnit(
  quoted: string,
  { readings, unit }: NonNullable<ReturnType<typeof takenApart>>,
  wanted: string,
  form: SchemaNode,
): QuantityProblem {
  const [number] = readings;
  const code = 'SCENARIO_WRONG_UNIT';
  if (isPlain(wanted)) {
    const got = `${quoted}, with a unit`;
    const share = mayBeShare(form) ? ', or a share in percent' : '';
    return { code, got, fix: `write the number alone${share}: ${number}.` };
  }
  const found = quantityOf(unit);
  const quantity = quantityOf(wanted) ?? '';
  const near = likelyUnit(unit, quantity);
  const meant = near === undefined ? undefined : inUnit(number!, near, wanted);
  const sign = wanted === 'deg' && Number(form.minimum) < 0 && /[NESW]$/i.exec(unit)?.[0]?.toUpperCase();
  return {
    code,
    got: found === undefined ? `${quoted}, in a unit that is not known` : `${quoted}, ${withArticle(found)}`,
    quantity: withArticle(quantity),
    fix: sign
      ? `write ${sign === 'S' || sign === 'W' ? -number! : number}; north and east are positive.`
      : meant !== undefined
        ? `for ${number} ${near} write ${Number(meant.toPrecision(6))}.`
        : `write it in ${unitsOf(quantity).join(', ')}; a number alone is read in ${wanted}.`,
  };
}

/** The unit that was likely meant: with other capitals, or as a degree and F are written for a temperature. */
function likelyUnit(unit: string, quantity: string): string | undefined {
  if (quantity === 'temperature' && unit === 'F') return 'degF';
  if (quantity === 'temperature' && unit === 'deg') return 'degC';
  return unitsOf(quantity).find((known) => known.toLowerCase() === unit.toLowerCase());
}

function withArticle(quantity: string): string {
  return `${/^[aeio]/.test(quantity) ? 'an' : 'a'} ${quantity}`;
}

/** The sum of two numbers with units of one quantity, the larger first ('6 h 15 min', '5 ft 10 in'), in the unit wanted. */
function inTwoUnits(text: string, wanted: string): number | undefined {
  const [, first, second] = /^(\d[^\d]*[^\d\s.,])\s*(\d[\d.]*\s*[^\d\s]+)$/.exec(text.trim()) ?? [];
  const parts = [first, second].map((part) => (part === undefined ? undefined : takenApart(part)));
  const [large, small] = parts.map((part) => {
    const [reading, ...others] = part?.readings ?? [];
    return reading === undefined || others.length > 0 ? undefined : inUnit(reading, part!.unit, wanted);
  });
  if (large === undefined || small === undefined || quantityOf(wanted) === 'temperature') return undefined;
  const [inLarge, inSmall] = parts.map((part) => inUnit(1, part!.unit, wanted)!);
  return inSmall! < inLarge! && small < inLarge! ? Number((large + small).toPrecision(12)) : undefined;
}

/** Degrees with minutes of arc, and seconds: what they are as one number, to be written. */
function degreesWithMinutes(text: string): QuantityProblem | undefined {
  const found =
    /^(-?\d+)\s*(?:°|º|deg)\s*(\d+(?:\.\d+)?)\s*(?:′|'|min)\s*(?:(\d+(?:\.\d+)?)\s*(?:″|"|''|s)?\s*)?([NESW]?)$/i.exec(
      text.trim(),
    );
  if (found === null) return undefined;
  const [, degrees = '', minutes, seconds = '0', side = ''] = found;
  const size = Math.abs(Number(degrees)) + Number(minutes) / 60 + Number(seconds) / 3600;
  const isBelow = degrees.startsWith('-') || /[SW]/i.test(side);
  return {
    code: 'SCENARIO_WRONG_UNIT',
    got: `"${text}", in degrees and minutes`,
    quantity: 'an angle',
    fix: `write ${isBelow ? '-' : ''}${Number(size.toFixed(5))}; north and east are positive.`,
  };
}

/** Number and unit of a text; two numbers where it can be read in two ways. */
function takenApart(text: string): { readings: number[]; unit: string } | undefined {
  const plain = text.replaceAll('º', '°').normalize('NFKC').trim();
  const [, sign, digits, power, rest] = NUMBER.exec(plain) ?? [];
  const sizes = digits === undefined ? [] : readingsOf(digits);
  // A second number is no unit, but for the 1 of a unit such as 1/m.
  if (sizes.length === 0 || /^\d(?!\/[a-z])/i.test(rest!)) return undefined;
  const readings = sizes.map((size) => Number(`${sign}${size}${power}`.replaceAll('\u2212', '-')));
  return readings.every(Number.isFinite) ? { readings, unit: unitSpelt(rest!) } : undefined;
}

/** The decimal numbers that digits with points, commas and blanks may mean. */
function readingsOf(digits: string): string[] {
  if (/^\d*\.?\d*$/.test(digits)) return [digits];
  const [whole = '', ...others] = digits.replace(/[ '\u2019]/g, '').split(/[.,]/);
  const signs = digits.replace(/[^.,]/g, '');
  if (signs.length < 2) {
    const decimal = [whole, ...others].join('.');
    const isThousands = signs === ',' && /^[1-9]\d{0,2},\d{3}$/.test(digits);
    return isThousands ? [decimal, whole + others.join('')] : [decimal];
  }
  // Of several signs those that part thousands are alike, and have three digits after each.
  const last = others.length - 1;
  const isDecimal = signs.at(-1) !== signs[0];
  const thousands = isDecimal ? others.slice(0, last) : others;
  if (new Set(signs.slice(0, thousands.length)).size !== 1) return [];
  if (!thousands.every((group) => group.length === 3)) return [];
  return [`${whole}${thousands.join('')}${isDecimal ? `.${others[last]}` : ''}`];
}

/** A unit as its words are spelt here, as far as it is known. */
function unitSpelt(text: string): string {
  const unit = text
    .replaceAll('μ', 'u')
    .replace(/Ω$|ohms?$/i, 'ohm')
    .replace(/\^|\*\*/g, '')
    .replace(/\s*\/\s*|\s*\bper\s+/g, '/')
    .replace(/^(?:times)?\/(?:hour|h)$/, '1/h')
    // As in W m-2 and 1 m-1.
    .replace(/[\s·.]*\b([a-zA-Z]+)[-\u2212]([12])$/, (_, of, power) => `/${of}${power === '2' ? '2' : ''}`)
    .replace(/\/(?:°|deg )?(?:C|degC)$/, '/K')
    .replace(/^K(?=ohm$|Hz$|W$|V$)/, 'k')
    .replace(/^\//, '1/')
    .trim();
  return quantityOf(unit) === undefined ? (SPELLINGS[unit.toLowerCase()] ?? unit) : unit;
}
