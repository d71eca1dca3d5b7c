import { DateTime } from 'luxon';
import { expect, test } from 'vitest';
import { InputProblem } from '../../../sim/common/InputProblem.ts';
import type { UnitName } from '../../../sim/tables/units.ts';
import { fromCanonical } from '../../../sim/tables/units.ts';
import { type KnownSeries, knownSeries } from './knownSeries.ts';
import { readText } from './readText.ts';

/*
 * One known series, values at full precision, written in many ways; what comes back must be the series.
 * Relative 1e-9: a unit's factor costs one rounding in and one out, far below; nothing else may move a value.
 */
const TOLERANCE = 1e-9;

const HOUR = 3_600_000;
const SPRING = knownSeries(Date.UTC(2025, 2, 1), 61);
const AUTUMN = knownSeries(Date.UTC(2024, 9, 1), 61);

const DELIMITERS = { comma: ',', semicolon: ';', tab: '\t', bar: '|', blanks: '   ' } as const;
const UNITS: readonly [unit: UnitName, words: string][] = [
  ['W/m2', 'W/m2'],
  ['W/m2', 'W/m²'],
  ['W/m2', 'W m-2'],
  ['kW/m2', 'kW/m2'],
  ['Wh/m2', 'Wh/m²'],
  ['kJ/m2', 'kJ/m2'],
  ['J/cm2', 'J/cm2'],
  ['MJ/m2', 'MJ/m^2'],
  ['langley', 'ly'],
  ['J/m2', 'J/m2'],
];
/** Unit in the heading, in a row of its own, or nowhere (then only those that clear days tell apart). */
const UNIT_PLACES = ['brackets', 'suffix', 'row', 'nowhere'] as const;
const LABELS = ['start', 'middle', 'end'] as const;
const LABEL_WORDS = {
  start: 'Times mark the start of each hour',
  middle: 'Times mark the middle of the hour',
  end: 'Mean over the preceding hour',
} as const;

/** Zone of the clock: how it is said, and the wall clock it shows. */
const ZONES: readonly { name: string; heading: string; preamble: string; suffix: string; luxon: string }[] = [
  { name: 'UTC in the heading', heading: ' (UTC)', preamble: '', suffix: '', luxon: 'UTC' },
  { name: 'GMT in the preamble', heading: '', preamble: 'All times in GMT', suffix: '', luxon: 'UTC' },
  { name: 'Z on the stamp', heading: '', preamble: '', suffix: 'Z', luxon: 'UTC' },
  { name: 'UTC+1 in the heading', heading: ' [UTC+1]', preamble: '', suffix: '', luxon: 'UTC+1' },
  { name: 'time zone in the preamble', heading: '', preamble: 'Time zone: -5', suffix: '', luxon: 'UTC-5' },
  { name: 'offset on the stamp', heading: '', preamble: '', suffix: '+05:30', luxon: 'UTC+5:30' },
  { name: 'zone by name', heading: '', preamble: 'Clock: Europe/Berlin', suffix: '', luxon: 'Europe/Berlin' },
  {
    name: 'zone by name, west',
    heading: ' America/New_York',
    preamble: '',
    suffix: '',
    luxon: 'America/New_York',
  },
];

/** A way of writing a wall clock: headings and cells. */
interface Style {
  name: string;
  headings: string[];
  cells: (wall: DateTime) => string[];
  /** Can carry an offset behind it; is in UTC whatever the clock. */
  takesSuffix?: true;
  epoch?: true;
}
const twentyFour = (wall: DateTime, format: string): string =>
  wall.hour === 0 && wall.minute === 0
    ? `${wall.minus({ hours: 1 }).toFormat(format)} 24:00`
    : wall.toFormat(`${format} HH:mm`);
const STYLES: readonly Style[] = [
  {
    name: 'ISO with T',
    headings: ['time'],
    cells: (w) => [w.toFormat("yyyy-MM-dd'T'HH:mm:ss")],
    takesSuffix: true,
  },
  {
    name: 'ISO with a blank',
    headings: ['timestamp'],
    cells: (w) => [w.toFormat('yyyy-MM-dd HH:mm')],
    takesSuffix: true,
  },
  { name: 'day.month.year', headings: ['Zeit'], cells: (w) => [w.toFormat('dd.MM.yyyy HH:mm')] },
  { name: 'day/month/year', headings: ['fecha'], cells: (w) => [w.toFormat('dd/MM/yyyy HH:mm')] },
  { name: 'month/day/year', headings: ['date'], cells: (w) => [w.toFormat('MM/dd/yyyy HH:mm')] },
  { name: 'short month/day/year', headings: ['date'], cells: (w) => [w.toFormat('M/d/yyyy H:mm')] },
  { name: 'year/month/day', headings: ['date'], cells: (w) => [w.toFormat('yyyy/MM/dd HH:mm')] },
  { name: 'two-digit year', headings: ['datum'], cells: (w) => [w.toFormat('dd.MM.yy HH:mm')] },
  { name: 'packed to the hour', headings: ['date'], cells: (w) => [w.toFormat('yyyyMMddHH')] },
  { name: 'packed to the minute', headings: ['YYYYMMDDhhmm'], cells: (w) => [w.toFormat('yyyyMMddHHmm')] },
  { name: 'packed with a colon', headings: ['time'], cells: (w) => [w.toFormat('yyyyMMdd:HHmm')] },
  {
    name: 'date and clock',
    headings: ['Datum', 'Uhrzeit'],
    cells: (w) => [w.toFormat('yyyy-MM-dd'), w.toFormat('HH:mm')],
  },
  {
    name: 'date and hour',
    headings: ['YYYYMMDD', 'HH'],
    cells: (w) => [w.toFormat('yyyyMMdd'), w.toFormat('H')],
  },
  {
    name: 'year, month, day, hour, minute',
    headings: ['year', 'month', 'day', 'hour', 'minute'],
    cells: (w) => [w.year, w.month, w.day, w.hour, w.minute].map(String),
  },
  {
    name: 'day of the year and hhmm',
    headings: ['year', 'doy', 'hhmm'],
    cells: (w) => [String(w.year), String(w.ordinal), w.toFormat('HHmm')],
  },
  { name: '24:00', headings: ['time'], cells: (w) => [twentyFour(w, 'yyyy-MM-dd')] },
  { name: 'twelve-hour clock', headings: ['time'], cells: (w) => [w.toFormat('MM/dd/yyyy hh:mm a')] },
  { name: 'name of the month', headings: ['date'], cells: (w) => [w.toFormat('dd-MMM-yyyy HH:mm')] },
  { name: 'epoch seconds', headings: ['timestamp'], cells: (w) => [String(w.toSeconds())], epoch: true },
  { name: 'epoch milliseconds', headings: ['timestamp'], cells: (w) => [String(w.toMillis())], epoch: true },
  {
    name: 'spreadsheet days',
    headings: ['date'],
    cells: (w) => [String(w.setZone('UTC', { keepLocalTime: true }).toMillis() / 86_400_000 + 25_569)],
  },
];

interface Mutation {
  name: string;
  text: string;
  label: (typeof LABELS)[number];
  known: KnownSeries;
  /** Why it may be refused; undefined where it must be read. */
  ambiguous?: string;
}

/** Combinations: every list is walked at its own pace, so that pairs meet in all ways before any comes again. */
function mutations(count: number): Mutation[] {
  const names = Object.keys(DELIMITERS) as (keyof typeof DELIMITERS)[];
  return Array.from({ length: count }, (_, i) => {
    const style = STYLES[i % STYLES.length]!;
    const delimiterName = names[(i * 7 + Math.floor(i / STYLES.length)) % names.length]!;
    const [unit, words] = UNITS[(i * 3 + Math.floor(i / 11)) % UNITS.length]!;
    const place = UNIT_PLACES[(i * 5 + Math.floor(i / 7)) % UNIT_PLACES.length]!;
    let zone = ZONES[(i * 11 + Math.floor(i / 13)) % ZONES.length]!;
    if (style.epoch || (zone.suffix !== '' && !style.takesSuffix)) zone = ZONES[i % 2]!;
    const label = LABELS[(i + Math.floor(i / 17)) % LABELS.length]!;
    const comma = (i + Math.floor(i / 5)) % 3 === 0;
    const known = i % 2 === 0 ? SPRING : AUTUMN;
    return mutation(known, style, delimiterName, unit, words, place, zone, label, comma);
  });
}

function mutation(
  known: KnownSeries,
  style: Style,
  delimiterName: keyof typeof DELIMITERS,
  unit: UnitName,
  words: string,
  place: (typeof UNIT_PLACES)[number],
  zone: (typeof ZONES)[number],
  label: (typeof LABELS)[number],
  comma: boolean,
): Mutation {
  const delimiter = DELIMITERS[delimiterName];
  // In a file that is cut at commas a decimal comma stands in quotes.
  const number = (value: number): string => {
    const text = comma ? String(value).replace('.', ',') : String(value);
    return comma && delimiter === ',' ? `"${text}"` : text;
  };
  // Blanks part words: then the heading is one word.
  const bare = (text: string): string => (delimiter === '   ' ? text.trim().replaceAll(' ', '_') : text);
  const suffix = place === 'suffix' ? `_${words.replace(/[/ ^]/g, '_')}` : '';
  const ghi = place === 'brackets' ? `Global radiation [${words}]` : `Global radiation${suffix}`;
  const headings = [
    ...style.headings.map((heading, c) => (c === 0 ? `${heading}${zone.heading}` : heading)),
    ghi,
    'Air temperature (°C)',
  ];
  const lines: string[] = ['Invented weather', LABEL_WORDS[label]];
  if (zone.preamble !== '') lines.push(zone.preamble);
  lines.push('', headings.map(bare).join(delimiter));
  if (place === 'row') lines.push([...style.headings.map(() => '-'), bare(words), '°C'].join(delimiter));
  const shift = label === 'start' ? 0 : label === 'middle' ? HOUR / 2 : HOUR;
  for (let i = 0; i < known.count; i++) {
    const wall = DateTime.fromMillis(known.start_ms + i * HOUR + shift, { zone: zone.luxon });
    const stamp = style.cells(wall);
    stamp[0] += zone.suffix;
    const value = fromCanonical(known.ghi_W_m2[i]!, unit, 3600);
    lines.push([...stamp, number(value), number(known.air_degC[i]!)].join(delimiter));
  }
  const name = [
    known === SPRING ? 'spring' : 'autumn',
    style.name,
    delimiterName,
    comma ? 'decimal comma' : 'decimal point',
    words,
    `unit ${place}`,
    zone.name,
    `${label} of the hour`,
  ].join(', ');
  const ambiguous = ambiguity(style, unit, place, label, zone);
  return {
    name,
    text: `${lines.join('\n')}\n`,
    label,
    known,
    ...(ambiguous === undefined ? {} : { ambiguous }),
  };
}

/** The list of what may be refused, written before any of it was tried. */
function ambiguity(
  style: Style,
  unit: UnitName,
  place: (typeof UNIT_PLACES)[number],
  label: string,
  zone: (typeof ZONES)[number],
): string | undefined {
  if (style.name === 'packed to the hour' && (label === 'middle' || zone.luxon === 'UTC+5:30')) {
    return 'hours without minutes cannot say half past';
  }
  if (style.name === 'date and hour' && label === 'middle')
    return 'hours without minutes cannot say half past';
  if (place === 'nowhere' && unit === 'J/m2')
    return 'J/m2 as a sum over the hour has no unit of its own size to be known by';
  return undefined;
}

test('a known series written in several hundred ways comes back to 1e-9, or is on the list of ambiguous ones', async () => {
  const all = [...new Map(mutations(420).map((one) => [one.name, one])).values()];
  expect(all.length).toBeGreaterThan(400);
  const wrong: string[] = [];
  const refused: string[] = [];
  let good = 0;
  let readable = 0;
  for (const { name, text, label, known, ambiguous } of all) {
    if (ambiguous === undefined) readable++;
    try {
      const { recognition, hourly } = await readText([text], {
        place: { latitude_deg: known.latitude_deg, longitude_deg: known.longitude_deg },
      });
      const off = difference(known, hourly);
      if (ambiguous !== undefined) continue;
      if (recognition.stamp.label.label !== label)
        wrong.push(`${name}: label ${recognition.stamp.label.label}`);
      else if (off > TOLERANCE) wrong.push(`${name}: off by ${off}`);
      else good++;
    } catch (error) {
      if (!(error instanceof InputProblem)) throw error;
      if (ambiguous === undefined) refused.push(`${name}: ${error.message.slice(0, 300)}`);
    }
  }
  console.log(`${good} of ${readable} readable mutations came back (${all.length} written)`);
  expect([...wrong, ...refused]).toEqual([]);
  expect(good).toBeGreaterThanOrEqual(0.95 * all.length);
}, 120_000);

/** Greatest relative difference of irradiance and temperature; 1 where an hour lacks. */
function difference(known: KnownSeries, hourly: Awaited<ReturnType<typeof readText>>['hourly']): number {
  let most = 0;
  const at = (known.start_ms - hourly.start_ms) / HOUR;
  for (const [quantity, values] of [
    ['ghi', known.ghi_W_m2],
    ['air_temperature', known.air_degC],
  ] as const) {
    for (let i = 0; i < known.count; i++) {
      const got = hourly.columns[quantity]?.[at + i] ?? Number.NaN;
      const off = Number.isNaN(got) ? 1 : Math.abs(got - values[i]!) / Math.max(1, Math.abs(values[i]!));
      most = Math.max(most, off);
    }
  }
  return most;
}
