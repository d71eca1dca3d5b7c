import { DateTime } from 'luxon';
import { fixed } from '../../sim/common/csvText.ts';
import type { InventedYear } from './inventedYear.ts';

const HOUR_MS = 3_600_000;
/** 1 W/m2 kept up for an hour, in J/cm2. */
const J_CM2_PER_WH_M2 = 0.36;
const MISSING = '-999';

/** Hours left out of the tab-separated file: first hour of the year and how many. */
const GAPS: readonly { first: number; hours: number }[] = [
  { first: 203, hours: 2 },
  { first: 1162, hours: 1 },
  { first: 4453, hours: 3 },
  { first: 8387, hours: 2 },
];

/**
 * The invented year as other exports would write it, by file name: the same weather, other stamps, units and marks.
 *
 * in: year, the invented year
 * out: text of each file
 */
export function otherLayouts(year: InventedYear): Record<string, string> {
  return {
    'invented-year-semicolon.csv': semicolon(year),
    'invented-year-tab.csv': tabSeparated(year),
    'invented-year-clock-off.csv': clockOff(year),
    'invented-year-civil-time.csv': civilTime(year),
  };
}

/** Decimal comma, standard time of the zone (UTC+1), stamp at the end of the hour, sums in J/cm2, a preamble. */
function semicolon(year: InventedYear): string {
  const preamble = [
    'Invented garden; made-up weather, not measured anywhere',
    'Latitude: 54,0 degrees north',
    'Longitude: 10,0 degrees east',
    'Height above sea level: 20 m',
    'Times are the end of the hour, in standard time (UTC+1) all year',
    '',
    'Date and time;Global radiation [J/cm2];Air temperature [°C]',
  ];
  return lines(
    preamble,
    year,
    (hour) => [
      DateTime.fromMillis(year.start_ms + (hour + 1) * HOUR_MS, { zone: 'UTC+1', locale: 'en-US' }).toFormat(
        'dd.MM.yyyy HH:mm',
      ),
      commaDecimal(year.ghi_W_m2[hour]! * J_CM2_PER_WH_M2, 2),
      commaDecimal(year.air_degC[hour]!, 1),
    ],
    ';',
  );
}

/** Year, month, day and hour (1 to 24, the hour that ends then) in columns of their own, UTC, tenths of a degree. */
function tabSeparated(year: InventedYear): string {
  const heading = ['year\tmonth\tday\thour\tglobal radiation (W/m2)\tair temperature (0.1 degC)'];
  return lines(
    heading,
    year,
    (hour) => {
      const start = DateTime.fromMillis(year.start_ms + hour * HOUR_MS, { zone: 'UTC', locale: 'en-US' });
      const missing = GAPS.some((gap) => hour >= gap.first && hour < gap.first + gap.hours);
      return [
        ...[start.year, start.month, start.day, start.hour + 1].map(String),
        missing ? MISSING : fixed(year.ghi_W_m2[hour]!, 1),
        missing ? MISSING : fixed(year.air_degC[hour]! * 10, 0),
      ];
    },
    '\t',
  );
}

/** As the plain file, but with stamps that claim UTC and are in fact an hour ahead: for showing how that is noticed. */
function clockOff(year: InventedYear): string {
  return lines(
    ['start_utc,ghi_W_m2,air_degC'],
    year,
    (hour) => [
      `${DateTime.fromMillis(year.start_ms + (hour + 1) * HOUR_MS, { zone: 'UTC', locale: 'en-US' }).toFormat("yyyy-MM-dd'T'HH:mm:ss")}Z`,
      fixed(year.ghi_W_m2[hour]!, 1),
      fixed(year.air_degC[hour]!, 1),
    ],
    ',',
  );
}

/** Civil time with daylight saving, start of the hour, no offset: an hour is absent in March and one double in October. */
function civilTime(year: InventedYear): string {
  return lines(
    ['local time (Europe/Berlin),GHI (W/m2),temperature (degC)'],
    year,
    (hour) => [
      DateTime.fromMillis(year.start_ms + hour * HOUR_MS, {
        zone: 'Europe/Berlin',
        locale: 'en-US',
      }).toFormat('yyyy-MM-dd HH:mm'),
      fixed(year.ghi_W_m2[hour]!, 1),
      fixed(year.air_degC[hour]!, 1),
    ],
    ',',
  );
}

function lines(
  head: readonly string[],
  year: InventedYear,
  row: (hour: number) => string[],
  between: string,
): string {
  const rows = Array.from(year.ghi_W_m2, (_, hour) => row(hour).join(between));
  return `${[...head, ...rows].join('\n')}\n`;
}

function commaDecimal(value: number, decimals: number): string {
  return fixed(value, decimals).replace('.', ',');
}
