import { fixed } from '../common/csvText.ts';
import { HOUR_MS, utcText } from '../common/time.ts';
import type { MonthRow } from '../statistics/weatherView.ts';
import { weatherView } from '../statistics/weatherView.ts';
import { minutesText, readingsText, seenText } from '../weather/clock/stampReadings.ts';
import type { WeatherReport } from '../weather/importWeather.ts';
import { FINDING_KINDS, type Finding, type FindingKind } from '../weather/quality/Finding.ts';
import { fitting, type Look, type Paint, paint, textTable } from './textTable.ts';
import { capital, plural } from './words.ts';
import { yearPictureText } from './yearPictureText.ts';

/** So many stretches of one kind are named; the rest are counted. */
const MOST_STRETCHES = 4;

/**
 * What was understood of a weather file, for people: how it was read and why, what the sun says of its clock, what is
 * wrong with it, its light by month, its years as pictures, and over which stretch of it a run goes. At most 100 columns.
 *
 * in: report; look, of the terminal
 * out: text, ending in a line break
 */
export function terminalWeather(report: WeatherReport, look: Look = {}): string {
  const style = paint(look);
  const { months, years, pictures } = weatherView(report);
  const lines = [
    ...style.wrap(headline(report)).map(style.strong),
    ...style.wrap(periodOf(report)),
    '',
    style.strong('How it was read'),
    ...Object.entries(report.options).flatMap(([what, how]) => style.wrap(`${what}: ${how}`, 2, 6)),
    ...placeLines(report, style),
    ...doubtLines(report, style),
    '',
    style.strong('What the sun says'),
    ...sunLines(report, style),
    '',
    style.strong('What is wrong with it'),
    ...findingLines(report.quality.findings, style),
    ...report.notes.flatMap((note) => style.wrap(note, 2, 4)),
    '',
    style.strong('Light by month, before gaps were filled'),
    ...textTable(
      [
        { heading: ['month', ''], cell: (row: MonthRow) => row.month },
        { heading: ['kWh/m2', 'a day'], cell: (row) => fixed(row.ghi_kWh_m2_day, 2) },
        { heading: ['clearness', 'index'], cell: (row) => percent(row.clearness) },
        { heading: ['hours', 'with a value'], cell: (row) => percent(row.coverage) },
        { heading: ['filled', 'here, h'], cell: (row) => fixed(row.filled_h, 0) },
        { heading: ['filled', 'upstream, h'], cell: (row) => fixed(row.filledUpstream_h, 0) },
      ],
      months,
      style.columns,
    ),
    ...years.flatMap((row) =>
      Number.isNaN(row.ghi_kWh_m2) ? [] : [`  ${row.year}: ${fixed(row.ghi_kWh_m2, 0)} kWh/m2 in the year`],
    ),
    ...pictures.flatMap((picture) => [
      '',
      ...fitting(yearPictureText(picture), `The picture of ${picture.year}`, style),
    ]),
    '',
    style.strong('What a run can use'),
    ...usableLines(report, style),
  ];
  return `${lines.join('\n')}\n`;
}

function headline({ files }: WeatherReport): string {
  const rows = files.reduce((sum, file) => sum + file.rows, 0);
  const names = files.map((file) => file.name).join(', ');
  return `${names}: ${rows} ${plural(rows, 'row')} understood`;
}

function periodOf({ quality: { columns } }: WeatherReport): string {
  const last_ms = columns.start_ms + columns.count * HOUR_MS;
  return `${columns.count} hours from ${utcText(columns.start_ms)} to ${utcText(last_ms)}.`;
}

function placeLines({ site, recognition: { site: said } }: WeatherReport, style: Paint): string[] {
  const { latitude_deg, longitude_deg, words } = said;
  const away =
    latitude_deg !== undefined &&
    longitude_deg !== undefined &&
    Math.abs(latitude_deg - site.latitude_deg) + Math.abs(longitude_deg - site.longitude_deg) > 0.01;
  const stated = away ? `; the file says ${latitude_deg}, ${longitude_deg}` : ', as the file says';
  const where = words === '' ? '' : `${stated} (${words})`;
  const here = `latitude ${site.latitude_deg}, longitude ${site.longitude_deg}, ${site.elevation_m} m`;
  return style.wrap(`place: ${here}${where}`, 2, 6);
}

function doubtLines({ recognition: { doubts } }: WeatherReport, style: Paint): string[] {
  return doubts.flatMap(({ about, taken, runnerUp, why }) =>
    style.wrap(`in doubt, ${about}: ${taken}; next ${runnerUp} (${why})`, 2, 6),
  );
}

/** A latitude is seen to about 5 degrees: a place farther off than this is not refused, but told. */
const NEAR_DEG = 7.5;

function placeSentence({
  clockCheck: { site: seen },
  site,
}: Pick<WeatherReport, 'clockCheck' | 'site'>): string {
  const { verdict, latitudeSeen_deg } = seen;
  if (verdict !== 'fits') return `Whether the place fits: ${verdict}.`;
  const days = `The days are as long as at latitude ${fixed(latitudeSeen_deg, 0)}, to about 5 degrees`;
  return Math.abs(latitudeSeen_deg - site.latitude_deg) <= NEAR_DEG
    ? `${days}: the place fits.`
    : `${days}, and the place is at ${fixed(site.latitude_deg, 0)}: check it.`;
}

function sunLines({ clockCheck, clock, site }: WeatherReport, style: Paint): string[] {
  const { reading, evidence } = clockCheck;
  const seen =
    reading.verdict === 'decided'
      ? `${capital(seenText(clockCheck))}, seen over ${clockCheck.daysUsed} days.`
      : `The light does not settle the clock: ${reading.reason}.`;
  const timed = (late_min: number) => `${minutesText(Math.abs(late_min))} ${late_min < 0 ? 'early' : 'late'}`;
  const { clearSkyFit, lightWithSunDown, firstLightLate_min, lastLightEarly_min } = evidence;
  const ends = Number.isNaN(firstLightLate_min)
    ? ''
    : `beside what the sun lets expect, first light comes ${timed(firstLightLate_min)} and last light ${timed(-lastLightEarly_min)}; `;
  const shown = `The days follow a clear sky to ${fixed(clearSkyFit, 2)} (1 is perfect); ${ends}${fixed(100 * lightWithSunDown, 2)} percent of the light came with the sun down.`;
  const others = readingsText(clock.choices.slice(0, 3));
  const place = placeSentence({ clockCheck, site });
  const stamps = others === '' ? '' : `The same bytes would come from stamps ${others}.`;
  return [seen, shown, stamps, place].flatMap((sentence) => style.wrap(sentence, 2));
}

function findingLines(findings: readonly Finding[], style: Paint): string[] {
  if (findings.length === 0) return ['  nothing was found'];
  const kinds = [...new Set(findings.map((finding) => finding.kind))];
  return kinds.flatMap((kind: FindingKind) => {
    const found = findings.filter((finding) => finding.kind === kind);
    const hours = found.reduce((sum, finding) => sum + finding.hours, 0);
    const stretches = found
      .slice(0, MOST_STRETCHES)
      .flatMap((finding) => style.wrap(`${finding.column}, ${spanText(finding)}; ${finding.effect}`, 6, 8));
    const more = found.length - MOST_STRETCHES;
    return [
      ...style.wrap(`${FINDING_KINDS[kind]}: ${hours} h`, 2, 4),
      ...stretches,
      ...(more > 0 ? [`      and ${more} more of the kind`] : []),
    ];
  });
}

/** When, and what shows it; of a single hour without naming it twice. */
function spanText({ from_ms, to_ms, evidence }: Finding): string {
  const from = utcText(from_ms);
  return to_ms - from_ms === HOUR_MS
    ? `${from}: ${evidence.replace(` in the hour from ${from}`, '')}`
    : `${from} to ${utcText(to_ms)}: ${evidence}`;
}

function usableLines({ stretch, filled }: WeatherReport, style: Paint): string[] {
  const { interpolated_h, fromDays_h, absent_h } = filled;
  const before =
    filled.filled.reduce((sum, flag) => sum + flag, 0) - interpolated_h - fromDays_h - filled.dark_h;
  const gaps = [
    interpolated_h + fromDays_h + absent_h === 0
      ? 'No daylight was missing.'
      : `Of the daylight that was missing, ${interpolated_h} h were filled by the clearness of the hours beside them, ` +
        `${fromDays_h} h from the nearest whole days, and ${absent_h} h stay missing.`,
    before > 0 ? `${before} h were filled when the file was written.` : '',
    interpolated_h + fromDays_h + before > 0 ? 'Filled hours are marked in every output.' : '',
  ]
    .filter((text) => text !== '')
    .join(' ');
  const whole =
    'problem' in stretch
      ? `Nothing to run over: ${stretch.problem.got}; a run wants ${stretch.problem.expected}. To fix it: ${stretch.problem.fix ?? ''}`
      : `${capital(stretch.reason)}.`;
  return [gaps, whole].flatMap((sentence) => style.wrap(sentence, 2));
}

function percent(share: number): string {
  return Number.isNaN(share) ? '' : `${fixed(100 * share, 0)} %`;
}
