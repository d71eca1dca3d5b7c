import { extent, max } from 'd3-array';
import type { UnitName } from '../../tables/units.ts';
import { columnTexts, isLight, type Layout, type QuantityName } from './DetectedFormat.ts';
import { FLAG_WORDS, QUANTITIES, QUANTITY_WORDS } from './quantityWords.ts';

/**
 * A text as its bare words: lower case, without accents, signs turned into single blanks, letters and digits of a
 * run-together name kept together ('T2m'), humps of camel case parted ('SnowDepth').
 *
 * in: text
 * out: words with single blanks between, none at the ends
 * @example normaliseHeading('Globale Straling (J/cm²)'); // => 'globale straling j cm2'
 */
export function normaliseHeading(text: string): string {
  return text
    .replace(/([a-z])([A-Z][a-z])/g, '$1 $2')
    .toLowerCase()
    .replaceAll('²', '2')
    .replaceAll('ß', 'ss')
    .replaceAll('ø', 'o')
    .replaceAll('æ', 'ae')
    .replaceAll('ł', 'l')
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();
}

/**
 * A text of at most so many characters, for reports: longer ones end at a word, with dots.
 *
 * in: text; most, characters
 * @example shortened('global radiation of the hour', 20); // => 'global radiation ...'
 */
export function shortened(text: string, most: number): string {
  const whole = text.trim();
  if (whole.length <= most) return whole;
  const cut = whole.slice(0, most - 3);
  const blank = cut.lastIndexOf(' ');
  return `${(blank > most / 2 ? cut.slice(0, blank) : cut).trimEnd()} ...`;
}

/** Names in quotes, at most so many of them. */
export function listed(names: Iterable<string>, most: number): string {
  const quoted = Array.from(names, (name) => `"${name}"`);
  return `${quoted.slice(0, most).join(', ')}${quoted.length > most ? ', ...' : ''}`;
}

/** A value as it is typed, in quotes where it must be. */
export function typed(value: string): string {
  return /[^\w=./-]/.test(value) ? `"${value}"` : value;
}

export type CellKind = 'empty' | 'number' | 'date' | 'clock' | 'stamp' | 'word';

/** Texts that say 'missing'; numbers that do are found by what they would mean. */
const MISSING =
  /^(?:|-{1,4}|\.{1,2}|\*{1,4}|\/{1,3}|x|\?|-?nan|nan\.|#?n\/?a|<na>|none|null|nil|nd|n\.d\.|miss|missing|mis|m|void|-?inf|bez dat|brak|s\/d)$/i;
const NUMBER =
  /^[+-]?(?:(?:\d+(?:\.\d*|,\d+)?|[.,]\d+)(?:[eE][+-]?\d+)?|[1-9]\d{0,2}(?:(?:,\d{3})+(?:\.\d+)?|(?:\.\d{3})+(?:,\d+)?|(?:[ '\u2019\u00a0\u202f]\d{3})+(?:[.,]\d+)?))$/;
const DATE =
  /^(?:\d{1,4}[-./] ?\d{1,2}[-./] ?\d{2,4}\.?|\d{4}[-./] ?\d{1,2}[-./] ?\d{1,2}\.?|\d{1,2}(?:[-./ ]|\. )[A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{2,4}|\d{4}[-./ ][A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{1,2}|\d{1,2}[-/] ?\d{1,2})$/;
const CLOCK =
  /^(?:\d{1,2}:\d{2}(?:[:.]\d{2}(?:[.,]\d+)?)?(?: ?[AaPp]\.?(?:[Mm]\.?)?)?(?:\s*(?:Z|UTC|UT|GMT)|[+-]\d{2}:?\d{2})?|\d{1,2} ?(?:h|[Uu]hr))$/;
const STAMP =
  /^(?:\d{1,4}[-./]\d{1,2}[-./]\d{1,4}|\d{1,4}\. ?\d{1,2}\. ?\d{1,4}\.?|\d{1,2}(?:[-./ ]|\. )[A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{2,4}|\d{4}[-./ ][A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{1,2}|\d{8}|\d{1,2}\/ ?\d{1,2}|\d{8}(?=\d\d:))(?:[T_ :-]|(?<=^\d{8})(?=\d\d:)|, ?| +)\d{1,2}(?:(?:[:.]?\d{2}){0,2}(?:[.,]\d+)?)(?: ?(?:h|[Uu]hr))?(?: ?[AaPp]\.?(?:[Mm]\.?)?)?\s*(?:Z|UTC|UT|GMT)?(?:[+-]\d{1,2}(?::?\d{2})?)?(?:\/.+)?$/;

const MONTH_FIRST = /^[A-Za-z\u00c0-\u017f]{3,10}\.? \d{1,2},? \d{4}\b/;
/** The name of a day of the week before a date. */
const WEEKDAY = /^[A-Za-z\u00c0-\u017f]{2,10}[.,]{0,2} (?=\d{1,4}[-./ ])/;

/**
 * What kind of thing a trimmed cell holds. A text that says 'missing' counts as empty.
 *
 * in: text, trimmed
 * out: the kind
 * @example classifyCell('2021-12-05T13:00Z'); // => 'stamp'
 */
export function classifyCell(text: string): CellKind {
  if (NUMBER.test(text)) return 'number';
  if (saysMissing(text)) return 'empty';
  if (MONTH_FIRST.test(text)) return /\d{4}$/.test(text) ? 'date' : 'stamp';
  const named = WEEKDAY.exec(text);
  if (named !== null) return classifyCell(text.slice(named[0].length));
  if (CLOCK.test(text)) return 'clock';
  if (DATE.test(text)) return 'date';
  if (STAMP.test(text)) return 'stamp';
  return 'word';
}

/** Whether a trimmed cell says that there is no value. */
export function saysMissing(text: string): boolean {
  return MISSING.test(text);
}

/** A unit that a text states. */
export interface StatedUnit {
  unit: UnitName;
  /** Seconds an energy or depth is per, where the text says so. */
  per_s?: number | undefined;
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
    if (unit !== undefined) return HOURLY.test(piece) ? { unit, per_s: 3600 } : { unit };
  }
  return undefined;
}

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

/** Claims whose words are this near are settled by their numbers or not at all. */
export const NEAR_STRENGTH = 15;

/** What the words of a column say it holds. */
export interface Claim {
  quantity: QuantityName;
  /** 0-based. */
  column: number;
  /** How strongly they say so, 0 to about 105. */
  strength: number;
  reason: string;
}

/**
 * What heading, legend and unit of each column speak for, the strongest first.
 *
 * in: layout; values of each column (undefined where it has no numbers or belongs to the stamp)
 * out: claims; a column has none, or one of each quantity that its words could mean
 */
export function wordClaims(layout: Layout, values: readonly (Float64Array | undefined)[]): Claim[] {
  const claims = values.flatMap((numbers, column) =>
    numbers === undefined || speaksOfAnother(layout, column)
      ? []
      : QUANTITIES.map((quantity) => claimOf(quantity, layout, column, numbers)),
  );
  return claims
    .filter((claim) => claim !== undefined)
    .sort((a, b) => b.strength - a.strength || a.column - b.column);
}

function claimOf(
  quantity: QuantityName,
  layout: Layout,
  column: number,
  numbers: Float64Array,
): Claim | undefined {
  const { yes, no } = QUANTITY_WORDS[quantity];
  const heading = normaliseHeading(layout.headings[column] ?? '');
  const legend = normaliseHeading((layout.legends[column] ?? '').slice(0, 240));
  if (no.test(heading) || no.test(legend)) return undefined;
  const strengthOf = (words: string): number =>
    max(yes, ([pattern, value]) => (words !== '' && pattern.test(words) ? value : 0))!;
  const [byHeading, byLegend] = [strengthOf(heading), strengthOf(legend)];
  // A legend explains a short name; where it speaks of something else, the name alone means little.
  const isGainsaid = legend.length > 12 && byLegend === 0;
  const words = Math.max(byLegend, isGainsaid ? byHeading * 0.3 : byHeading);
  if (words < 20) return undefined;
  const stated = columnTexts(layout, column)
    .map(({ text }) => unitFromWords(text, quantity)?.unit)
    .find((unit) => unit !== undefined);
  const strength = words + (stated === undefined ? 0 : stated.endsWith('lx') ? -25 : 5);
  if (strength < 90 && !plausible(quantity, numbers, stated !== undefined)) return undefined;
  if (strength < 40 && stated === undefined && quantity !== 'ghi') return undefined;
  const reason =
    byLegend > byHeading
      ? `the legend says "${shortened(layout.legends[column]!, 70)}"`
      : `the heading "${layout.headings[column]}"`;
  return { quantity, column, strength, reason };
}

/** A heading of marks, or of another heading and a mark for its quality, its source or its count ('rad' and 'rad_q'). */
function speaksOfAnother({ headings }: Layout, column: number): boolean {
  const heading = (headings[column] ?? '').toLowerCase();
  const mark = /^[ _.-]?(q|j|n|f|qc|qf|st|src|err\w*|unc\w*|flags?|num\w*|count\w*)$/;
  const others = headings.filter((_, c) => c !== column).map((other) => other.toLowerCase());
  return (
    FLAG_WORDS.test(normaliseHeading(headings[column] ?? '')) ||
    others.some(
      (name) => name.length > 1 && heading.startsWith(name) && mark.test(heading.slice(name.length)),
    )
  );
}

function plausible(quantity: QuantityName, values: Float64Array, unitStated: boolean): boolean {
  const filled = values.filter((value) => !Number.isNaN(value));
  const [least = Infinity, most = -Infinity] = extent(filled);
  if (isLight(quantity)) {
    if (filled.length < 24 || unitStated) return most >= 0;
    return most > 0 && filled.filter((value) => value < 0.02 * most).length > 0.1 * filled.length;
  }
  if (quantity === 'air_temperature') return unitStated || (least > -900 && most < 700);
  return least >= -1 && most < 3000;
}
