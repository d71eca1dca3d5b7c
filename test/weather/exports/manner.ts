import { DateTime } from 'luxon';
import { type RandomStream, randomStream } from '../../../sim/common/random.ts';
import { type Sky, sky } from './skies.ts';

/** Kinds of export: clean ones, and one kind of damage each. The first stands three times as often as any other. */
export const KINDS = [
  'clean',
  'shaded west',
  'shaded east',
  'logger cut off',
  'dirty direct',
  'one lost hour',
  'lost end',
  'doubled hour once',
  'stations in blocks',
  'stations interleaved',
  'horizontal direct and diffuse',
  'decoys',
  'sums of days',
  'winter only',
  'wrong unit said',
  'interpolated month',
  'beside reflected',
  'summer time unsaid',
  'clock off',
  'decimal hour',
  'months only',
  'fahrenheit silent',
] as const;
export type Kind = (typeof KINDS)[number];

/** How a file is written, drawn by chance. */
export interface Manner {
  seed: number;
  kind: Kind;
  random: RandomStream;
  sky: Sky;
  style: StampStyle;
  /** Zone of the stamps, and the lines that say so. */
  zone: string;
  zoneSaid: string[];
  /** A `Z` at the end of each stamp. */
  suffix: string;
  marks: 'start' | 'middle' | 'end';
  marksSaid: boolean;
  unit: LightUnit;
  unitSaid: LightUnit | undefined;
  delimiter: string;
  decimal: '.' | ',';
  digits: number;
}

/** A value of a mean W/m2 over so many seconds. */
const UNITS = {
  'W/m2': (mean) => mean,
  'Wh/m2': (mean, seconds) => (mean * seconds) / 3600,
  'kJ/m2': (mean, seconds) => (mean * seconds) / 1000,
  'J/cm2': (mean, seconds) => (mean * seconds) / 10_000,
  'MJ/m2': (mean, seconds) => (mean * seconds) / 1e6,
  langley: (mean, seconds) => (mean * seconds) / 41_840,
} as const satisfies Record<string, (mean: number, seconds: number) => number>;
export type LightUnit = keyof typeof UNITS;

export function inUnit(unit: LightUnit, mean_W_m2: number, seconds = 3600): number {
  return UNITS[unit](mean_W_m2, seconds);
}

const UNIT_WORDS: Record<LightUnit, readonly string[]> = {
  'W/m2': ['W/m2', 'W/m²', 'W m-2', 'watts per square metre'],
  'Wh/m2': ['Wh/m2'],
  'kJ/m2': ['kJ/m2'],
  'J/cm2': ['J/cm2', 'J/cm²'],
  'MJ/m2': ['MJ/m2'],
  langley: ['ly'],
};

interface StampStyle {
  name: string;
  headings: readonly string[];
  cells: (wall: DateTime) => string[];
}

const one = (name: string, heading: string, format: string): StampStyle => ({
  name,
  headings: [heading],
  cells: (wall) => [wall.toFormat(format)],
});
const STYLES: readonly StampStyle[] = [
  one('ISO with T', 'time', "yyyy-MM-dd'T'HH:mm:ss"),
  one('ISO with a blank', 'timestamp', 'yyyy-MM-dd HH:mm'),
  one('d.m.y', 'Zeit', 'dd.MM.yyyy HH:mm'),
  one('y.m.d.', 'Zeitpunkt', 'yyyy.MM.dd. HH:mm'),
  one('d/m/y', 'fecha', 'dd/MM/yyyy HH:mm'),
  one('m/d/y', 'date', 'M/d/yyyy H:mm'),
  one('month by name', 'date', 'dd-MMM-yyyy HH:mm'),
  {
    name: 'date, clock',
    headings: ['Datum', 'Uhrzeit'],
    cells: (wall) => [wall.toFormat('yyyy-MM-dd'), wall.toFormat('HH:mm')],
  },
  {
    name: 'date, hour',
    headings: ['date', 'hour'],
    cells: (wall) => [wall.toFormat('yyyyMMdd'), wall.toFormat('H')],
  },
  {
    name: 'parts',
    headings: ['year', 'month', 'day', 'hour', 'minute'],
    cells: ({ year, month, day, hour, minute }) => [year, month, day, hour, minute].map(String),
  },
  {
    name: 'day of the year, hhmm',
    headings: ['year', 'doy', 'hhmm'],
    cells: (wall) => [String(wall.year), String(wall.ordinal), wall.toFormat('HHmm')],
  },
  { name: 'epoch', headings: ['timestamp'], cells: (wall) => [String(wall.toSeconds())] },
];
const DECIMAL_HOUR: StampStyle = {
  name: 'year, day, decimal hour',
  headings: ['year', 'day', 'time'],
  cells: ({ year, ordinal, hour, minute }) => [
    String(year),
    String(ordinal),
    (hour + minute / 60).toFixed(2),
  ],
};
const DELIMITERS = [',', ';', '\t', '|'];
/** Kinds that need a calendar year. */
const WHOLE_YEAR: readonly Kind[] = [
  ...(['interpolated month', 'one lost hour', 'lost end', 'doubled hour once', 'sums of days'] as const),
  ...(['wrong unit said', 'summer time unsaid', 'fahrenheit silent', 'months only'] as const),
];

/** One of a list, each as likely. */
export function pick<T>(random: RandomStream, list: readonly T[]): T {
  return list[Math.floor(random.uniform() * list.length)]!;
}

/** The manner of a seed: of a kind by chance, or of the kind that is asked for. */
export function mannerOf(seed: number, only?: Kind): Manner {
  const random = randomStream(seed, 'export');
  const drawn = pick(random, ['clean', 'clean', ...KINDS] as const);
  const kind = only ?? drawn;
  return writingOf(seed, kind, random, skyOf(seed, kind, random));
}

function skyOf(seed: number, kind: Kind, random: RandomStream): Sky {
  const isNorth = random.uniform() < 0.85;
  const latitude_deg = round(isNorth ? 36 + 26 * random.uniform() : -(20 + 25 * random.uniform()));
  const longitude_deg = round(-9 + 38 * random.uniform());
  const year = 2003 + Math.floor(20 * random.uniform());
  const yearHours = DateTime.utc(year).isInLeapYear ? 8784 : 8760;
  const isLong = random.uniform() < 0.7 || WHOLE_YEAR.includes(kind);
  const days = 70 + Math.floor(80 * random.uniform());
  const month = Math.floor(12 * random.uniform());
  const horizon_deg = 10 + 15 * random.uniform();
  const winter = kind === 'winter only';
  const from = winter ? (isNorth ? 9 : 3) : isLong ? 0 : month;
  return sky({
    ...{ seed, latitude_deg, longitude_deg, start_ms: Date.UTC(year, from, 1) },
    hours: winter ? 24 * 182 : isLong ? yearHours : 24 * days,
    east_deg: kind === 'shaded east' ? horizon_deg : 0,
    west_deg: kind === 'shaded west' ? horizon_deg : 0,
  });
}

const round = (value: number) => Math.round(value * 100) / 100;

function writingOf(seed: number, kind: Kind, random: RandomStream, made: Sky): Manner {
  const style = kind === 'decimal hour' ? DECIMAL_HOUR : pick(random, STYLES);
  const clock = clockOf(kind, random, made, style);
  const marks = pick(
    random,
    style.name === 'date, hour' ? ['start', 'end'] : ['start', 'end', 'end', 'middle'],
  );
  const marksSaid = random.uniform() < 0.6;
  const usual = pick(random, [
    'W/m2',
    'W/m2',
    'W/m2',
    'Wh/m2',
    'kJ/m2',
    'J/cm2',
    'MJ/m2',
    'langley',
  ] as const);
  const unit = kind === 'wrong unit said' ? pick(random, ['J/cm2', 'kJ/m2'] as const) : usual;
  const saysUnit = random.uniform() < 0.8;
  const delimiter = pick(random, DELIMITERS);
  const hasComma = delimiter !== ',' && random.uniform() < 0.4;
  return {
    ...{ seed, kind, random, sky: made, style, ...clock, marks: marks as Manner['marks'], marksSaid, unit },
    unitSaid: kind === 'wrong unit said' ? 'W/m2' : saysUnit ? unit : undefined,
    delimiter,
    decimal: hasComma ? ',' : '.',
    digits: unit === 'MJ/m2' ? 4 : unit === 'W/m2' ? pick(random, [0, 1, 2]) : 1,
  };
}

function clockOf(kind: Kind, random: RandomStream, { latitude_deg, longitude_deg }: Sky, style: StampStyle) {
  const drawn = pick(random, ['UTC said', 'UTC said', 'fixed said', 'silent', 'civil said', 'Z'] as const);
  const saying = kind === 'doubled hour once' ? 'civil said' : drawn;
  const standard = Math.round(longitude_deg / 15);
  const north =
    standard <= 0 && longitude_deg < -2
      ? 'Europe/London'
      : longitude_deg < 20
        ? 'Europe/Berlin'
        : 'Europe/Helsinki';
  const civil = latitude_deg < 0 ? 'Africa/Johannesburg' : north;
  const fixed = `UTC${standard < 0 ? '-' : '+'}${Math.abs(standard)}`;
  if (style.name === 'epoch') return { zone: 'UTC', zoneSaid: [], suffix: '' };
  if (kind === 'summer time unsaid') return { zone: civil, zoneSaid: [], suffix: '' };
  if (kind === 'decimal hour') return { zone: 'UTC', zoneSaid: [], suffix: '' };
  if (saying === 'fixed said') return { zone: fixed, zoneSaid: [`Time zone: ${fixed}`], suffix: '' };
  if (saying === 'civil said') return { zone: civil, zoneSaid: [`Clock: ${civil}`], suffix: '' };
  const suffix = saying === 'Z' && style.name.startsWith('ISO') ? 'Z' : '';
  return { zone: 'UTC', zoneSaid: saying === 'UTC said' ? ['Times in UTC'] : [], suffix };
}

/** How it was written, in words. */
export function traitsOf({ sky: made, ...manner }: Manner): string[] {
  const { style, zone, zoneSaid, suffix, marks, marksSaid, unit, unitSaid, decimal, delimiter } = manner;
  return [
    `${made.latitude_deg}, ${made.longitude_deg}`,
    `${made.hours} h`,
    style.name,
    `${zone}${suffix} ${zoneSaid.length + suffix.length === 0 ? 'unsaid' : 'said'}`,
    `marks ${marks}${marksSaid ? '' : ' unsaid'}`,
    `${unit} ${unitSaid === undefined ? 'unsaid' : `said as ${unitSaid}`}`,
    `decimal ${decimal} cut at ${JSON.stringify(delimiter)}`,
  ];
}

/** A number as the file writes it. */
export function numberText({ decimal, digits }: Manner, value: number, places = digits): string {
  return Number.isNaN(value) ? '' : value.toFixed(places).replace('.', decimal);
}

/** A heading of light, with its unit where the file says it. */
export function lightHeading({ unitSaid, random }: Manner, name: string): string {
  return unitSaid === undefined ? name : `${name} [${pick(random, UNIT_WORDS[unitSaid])}]`;
}
