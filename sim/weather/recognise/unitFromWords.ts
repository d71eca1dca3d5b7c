import type { UnitName } from '../../tables/units.ts';
import type { QuantityName } from './DetectedFormat.ts';

/** A unit that a text states. */
export interface StatedUnit {
  unit: UnitName;
  /** Seconds an energy or depth is per, where the text says so. */
  per_s?: number | undefined;
  /** As written, where it is power or energy without an area. */
  bare?: string | undefined;
}

type Patterns = readonly [pattern: RegExp, unit: UnitName][];

/**
 * On texts as `flat` leaves them: lower case, 'per' and powers written as '/m2'. The first that fits counts; single
 * letters only where they are all there is.
 */
const LIGHT: Patterns = [
  [/kwh? ?h ?\/? ?m2|kwh/, 'kWh/m2'],
  [/\bw ?h ?\/? ?m2|\bwh\b|watt ?hours?|watt ?stunden?/, 'Wh/m2'],
  [/\bmw ?\/? ?cm2/, 'mW/cm2'],
  [/[uµμ]w ?\/? ?cm2/, 'uW/cm2'],
  [/\bmw ?\/? ?m2/, 'mW/m2'],
  [/(0[.,]1|1\/10|tenths?( of)?|zehntel|tienden?) ?(a )?w ?\/? ?m2/, '0.1 W/m2'],
  [/\bkw ?\/? ?m2|kilowatts? ?\/m2/, 'kW/m2'],
  [/\bw(att)?s? ?\/? ?m2|\bw\/m\b|\bw ?sqm\b/, 'W/m2'],
  [/\bmj ?\/? ?m2|megajoules?/, 'MJ/m2'],
  [/\bkj ?\/? ?m2|kilojoules?/, 'kJ/m2'],
  [/\bj(oules?)? ?\/? ?cm2/, 'J/cm2'],
  [/\bj(oules?)? ?\/? ?m2/, 'J/m2'],
  [/\blangleys?\b|\bly\b|\bcal ?\/? ?cm2/, 'langley'],
  [/\bklu?x\b|kilolux/, 'klx'],
  [/\blu?x\b/, 'lx'],
  [/^\(?w\)?$/, 'W/m2'],
  [/^kw$/, 'kW/m2'],
  [/^mj$/, 'MJ/m2'],
];
const TEMPERATURE: Patterns = [
  [
    /(0[.,]1|1\/10|tenths?( of)?|zehntel|tienden?|tiondels?|dixiemes?|dixièmes?|decimi?|decim[ao]s?) ?(a )?(°|deg|grad|c\b)|deci ?°? ?c(elsius)?\b|°c ?(x|\*) ?10\b|\bd°c/,
    '0.1 degC',
  ],
  [/° ?f\b|deg\.? ?f\b|fahrenheit/, 'degF'],
  [/° ?c\b|deg\.? ?c(elsius)?\b|celsius|grad(er|en|i|os)? ?c|℃|stopni|degc/, 'degC'],
  [/\bkelvins?\b|\[k\]|\(k\)|°k\b/, 'K'],
  [/^c$/, 'degC'],
  [/^f$/, 'degF'],
  [/^k$/, 'K'],
  [/^°$|^deg$/, 'degC'],
];
const SNOW: Patterns = [
  [/\bcm\b|centim/, 'cm'],
  [/\bmm\b|millim/, 'mm'],
  [/\binch(es)?\b|\bin\b\.?$/, 'in'],
  [/\bft\b|\bfeet\b|\bfoot\b/, 'ft'],
  [/^m$|^met(er|re)s?$/, 'm'],
  [/^in\.?$|^"$/, 'in'],
];
const RAIN: Patterns = [
  [/(0[.,]1|1\/10|tenths?( of)?|zehntel|tienden?) ?(a )?mm/, '0.1 mm'],
  [/\bmm\/h|mm ?h-1|\bmm\/hr/, 'mm/h'],
  [/\bmm\b|millim|\bl\/m2/, 'mm'],
  [/\bkg ?\/? ?m2/, 'kg/m2'],
  [/\bcm\b/, 'cm'],
  [/\binch(es)?\b/, 'in'],
  [/^in\.?$/, 'in'],
  [/^m$/, 'm'],
];
const WIND: Patterns = [
  [/(0[.,]1|1\/10|tenths?( of)?|zehntel|tienden?) ?(a )?m ?\/ ?s/, '0.1 m/s'],
  [/\bkm ?\/ ?(h|t|u)\b|\bkm ?h\b|\bkph\b|km ?h-1/, 'km/h'],
  [/\bm ?\/ ?s(ek)?\b|\bm ?s ?-1\b|\bmps\b|\bm s$|\bm ?\/ ?sec\b|met(er|re)s?\/s/, 'm/s'],
  [/\bknots?\b|\bknoten\b|\bknop(en)?\b|\bkts?\b|\bkn\b|solmu/, 'kn'],
  [/\bmph\b|\bmi\/h|miles\/h/, 'mph'],
];

const FAMILIES: Readonly<Partial<Record<QuantityName, Patterns>>> = {
  air_temperature: TEMPERATURE,
  snow_depth: SNOW,
  rain: RAIN,
  wind: WIND,
};

/**
 * The unit a text states for a quantity: from a heading ('Air temperature (°C)', 'ghi_W_m2'), a units row or a
 * legend. Single letters count only in brackets, at the end after a mark, or alone.
 *
 * in: text; quantity
 * out: the unit; undefined where the text states none
 */
export function unitFromWords(text: string, quantity: QuantityName): StatedUnit | undefined {
  const whole = flat(text);
  const inBrackets = Array.from(whole.matchAll(/[[({]([^\])}]*)[\])}]/g), (match) => match[1]!);
  const end = /[\s_,;:-]([^\s_,;:-]+)$/.exec(text.trim())?.[1] ?? '';
  for (const piece of [...inBrackets, whole, flat(end)]) {
    const unit = (FAMILIES[quantity] ?? LIGHT).find(([pattern]) => pattern.test(piece.trim()))?.[1];
    if (unit === undefined) continue;
    const [bare] = (AREA.test(piece) ? null : BARE.exec(unit)) ?? [];
    return { unit, ...(HOURLY.test(piece) ? { per_s: 3600 } : {}), ...(bare === undefined ? {} : { bare }) };
  }
  return undefined;
}

/** Units of power and energy that are often written without their area. */
const BARE = /^k?Wh?(?=\/m2$)/;
const AREA = /m2|sqm|\/m\b/;
/** An energy that is per hour. */
const HOURLY = /(j|h|cal)\w* ?\/? ?c?m2 ?\/ ?(h|hr|hour|stunde|uur|timme)\b|langleys?\/h|ly\/h/;

/** Lower case, one spelling of squares, of 'per' and of the degree sign. */
function flat(text: string): string {
  return text
    .toLowerCase()
    .replaceAll('²', '2')
    .replace(/\^|\*\*/g, '')
    .replace(/[⁻−–]/g, '-')
    .replace(/[º˚]/g, '°')
    .replace(/[_·*]/g, ' ')
    .replace(/\bper\b|\bpro\b|\bpor\b|\bpar\b|\bna\b(?= (m2|metr))/g, '/')
    .replace(/\bsquare centim\w+|\bsq\.? ?cm\b/g, 'cm2')
    .replace(/\bsquare met\w+|\bquadratmeter|\bkvadratmeter|\bvierkante meter|\bsq\.? ?m\b|\bqm\b/g, 'm2')
    .replace(/ ?\bcm ?-2\b/g, '/cm2')
    .replace(/ ?\bm ?-2\b/g, '/m2')
    .replace(/\b(w|wh|kw|kwh|j|kj|mj|mw)m-2\b/g, '$1/m2')
    .replace(/ *\/ *\/* */g, '/');
}
