import { dateText } from '../common/civilTime.ts';
import { fixed } from '../common/csvText.ts';
import { DAY_MS, HOUR_MS, utcText } from '../common/time.ts';
import { middleText, minutesText, zoneText } from '../weather/clock/stampReadings.ts';
import type { WeatherReport } from '../weather/importWeather.ts';
import { FINDING_KINDS, type Finding } from '../weather/quality/Finding.ts';
import { type Look, type Paint, paint } from './textTable.ts';
import { plural } from './words.ts';

/**
 * Share of the light outside the air that reaches the ground over a year, from dull coasts to dry places, below and
 * from 45 degrees of latitude, and over a part of one: common practice, no source.
 */
const USUAL = { low: [0.4, 0.72], high: [0.33, 0.6], part: [0.2, 0.75] } as const;

/** An offset is that of the nights where so many of all hours have it; else a reading now and then is a little off. */
const OFFSET_SHARE = 0.1;

/** Columns before the text of a fact. */
const FACT_INDENT = 10;

/** Options that were typed, each ready to be typed again. */
interface Again {
  run: readonly string[];
  details: readonly string[];
}

/**
 * The answer to what a weather file is good for, in a dozen lines, more where some are broken: usable or not and for what, period,
 * place, columns and units, clock, sum beside what is usual, filled hours, and the next command.
 *
 * in: report; again, what was typed of how to read it, to be typed again for a run and for the details; look, of the terminal
 * out: text, ending in a line break
 */
export function weatherAnswer(report: WeatherReport, again: Again, look: Look = {}): string {
  const style = paint(look);
  const { files, options, quality, recognition } = report;
  const { columns } = quality;
  const names = files.map(({ name }) => typedWord(name));
  const rows = files.reduce((sum, file) => sum + file.rows, 0);
  const usable = usableText(report);
  const facts: [string, string][] = [
    ['file', `${files.map(({ name }) => name).join(', ')}: ${rows} ${plural(rows, 'row')}`],
    [
      'period',
      `${columns.count} hours, ${utcText(columns.start_ms)} to ${utcText(columns.start_ms + columns.count * HOUR_MS)}`,
    ],
    ['place', placeText(report)],
    ['light', options.ghi ?? `direct and diffuse: ${options.dni ?? ''}`],
    [
      'air',
      options['air temperature'] ??
        'none in the file: a usual one for the latitude stands in (--air 8 states one)',
    ],
    ['clock', clockText(report)],
    ['sum', sumText(report)],
    ['filled', filledText(report)],
  ];
  if (options.break !== undefined) facts.push(['break', `${options.break}; counted: ${options.counted}`]);
  facts.push(...faultFacts(quality));
  if (recognition.marks.length > 0) facts.push(['marks', recognition.marks.join('; ')]);
  // Commands stay in one line each, to be copied.
  const lines = [
    ...style.wrap(usable.text, 0, 4).map(style.strong),
    ...facts.flatMap(([name, text]) => factLines(name, text, style)),
    ...(usable.runs
      ? [
          ['Next: longnight run SCENARIO', ...names.map((name) => `--weather ${name}`), ...again.run].join(
            ' ',
          ),
        ]
      : style.wrap(`Next: ${usable.next}`, 0, 2)),
    ['More: longnight weather', ...names, ...again.details, '--details'].join(' '),
  ];
  return `${lines.join('\n')}\n`;
}

/** What is wrong with it by kinds; of an offset of its nights, and of a range that ends, what shows it. */
function faultFacts({ findings, columns }: WeatherReport['quality']): [string, string][] {
  const isOffset = ({ kind, column, hours }: Finding) =>
    kind === 'night-offset' && column === 'ghi_W_m2' && hours >= OFFSET_SHARE * columns.count;
  const offset = findings.find(isOffset);
  const others = findings.filter((finding) => !isOffset(finding));
  const faults = new Set(
    others.map(({ kind, evidence }) => (kind === 'range-end' ? `light ${evidence}` : FINDING_KINDS[kind])),
  );
  return [
    ...(offset === undefined ? [] : [['offset', `set to 0 in ${offset.evidence}`] as [string, string]]),
    ...(faults.size === 0 ? [] : [['faults', [...faults].join('; ')] as [string, string]]),
  ];
}

/** What a fact is of in a column of its own, before the first of its lines. */
function factLines(name: string, text: string, style: Paint): string[] {
  const [first = '', ...others] = style.wrap(text, FACT_INDENT);
  return [`  ${name}`.padEnd(FACT_INDENT) + first.slice(FACT_INDENT), ...others];
}

function usableText({ stretch, quality, options }: WeatherReport): {
  text: string;
  runs: boolean;
  next: string;
} {
  if ('problem' in stretch) {
    const { got, expected, fix = '' } = stretch.problem;
    const next = fix === '' ? `a run wants ${expected}.` : fix;
    return { text: `Not usable for a run: ${got}.`, runs: false, next };
  }
  const { light, columns } = quality;
  const [from, to] = [stretch.from, stretch.to].map((hour) => {
    const ms = columns.start_ms + hour * HOUR_MS;
    // A record of days is dated as its file dates them.
    const day_ms = Math.round((ms + light.solarShift_ms) / DAY_MS) * DAY_MS;
    return dateText(options.hours === undefined ? ms : day_ms);
  });
  const { years, winters, what } = stretch;
  const good = years + winters.length > 0 ? '' : ': for nights and logs';
  return { text: `Usable for a run: ${what}, ${from} to ${to}${good}.`, runs: true, next: '' };
}

function placeText({ site, recognition: { site: said } }: WeatherReport): string {
  const { latitude_deg, longitude_deg, elevation_m } = site;
  const fromFile = said.latitude_deg === latitude_deg && said.longitude_deg === longitude_deg;
  return `latitude ${latitude_deg}, longitude ${longitude_deg}, ${elevation_m} m${fromFile ? ', as the file says' : ''}`;
}

function clockText({
  clock,
  options,
  clockCheck: { reading },
  recognition: { stamp },
}: WeatherReport): string {
  if (options.hours !== undefined) return clock.words;
  const seen =
    reading.verdict === 'decided'
      ? `by the sun to ${minutesText(2 * reading.uncertainty_min)}`
      : 'the sun does not settle it';
  const meant = clock.stretches.length > 0 ? 'stretches, each of its own' : middleText(clock.offset_min);
  return `${zoneText(stamp.zone)}; ${seen}; ${meant}`;
}

/** Light of the hours that a run goes over, and what of that outside the air it is. */
function sumText({ filled, stretch, site, quality: { light } }: WeatherReport): string {
  const { from, to } = 'problem' in stretch ? { from: 0, to: filled.count } : stretch;
  let [sum_Wh_m2, outside_Wh_m2, hours] = [0, 0, 0];
  for (let i = from; i < to; i++) {
    const value = filled.ghi_W_m2[i]!;
    if (Number.isNaN(value)) continue;
    sum_Wh_m2 += value;
    outside_Wh_m2 += light.outside_W_m2[i]!;
    hours++;
  }
  const clearness = sum_Wh_m2 / outside_Wh_m2;
  const years = 'problem' in stretch || stretch.years === 0 ? hours / 24 / 365.25 : stretch.years;
  const isYear = years >= 0.99;
  const [least, most] = isYear ? USUAL[Math.abs(site.latitude_deg) < 45 ? 'low' : 'high'] : USUAL.part;
  const [over, what] = isYear ? [years, 'a year'] : [1, `in ${fixed(hours / 24, 0)} days`];
  const [low, high] = [least, most].map((share) => fixed((share * outside_Wh_m2) / 1000 / over, 0));
  const odd =
    clearness < least
      ? ': dim. Are place and unit right?'
      : clearness > most
        ? ': bright. Are place and unit right?'
        : '';
  return `${fixed(sum_Wh_m2 / 1000 / over, 0)} kWh/m2 ${what}; usual there: ${low} to ${high}${odd}`;
}

function filledText({ filled }: WeatherReport): string {
  const hours = filled.filled.reduce((sum, flag) => sum + flag, 0);
  const absent = filled.absent_h > 0 ? `, ${filled.absent_h} stay missing` : '';
  return `${hours} of ${filled.filled.length} hours${absent}`;
}

/** A name as it is typed. */
function typedWord(name: string): string {
  return /^[\w./+:=,@%-]+$/.test(name) ? name : `"${name}"`;
}
