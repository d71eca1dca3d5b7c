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
    'invented-winter.csv': winterOnly(year),
    'invented-two-stations.csv': twoStations(year),
    'invented-day-sums.csv': daySums(year, 1),
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

/** Lines above the rows that state the place. */
const ABOVE = [
  'Invented garden; made-up weather, not measured anywhere',
  'Latitude: 54.0 degrees north',
  'Longitude: 10.0 degrees east',
  'Height above sea level: 20 m',
];
const OCTOBER_H = 273 * 24;
const APRIL_H = 90 * 24;

/** October to March: the end of the year, and its beginning after it. */
function winterOnly(year: InventedYear): string {
  const count = year.ghi_W_m2.length;
  const hours = Array.from({ length: count - OCTOBER_H + APRIL_H }, (_, i) => OCTOBER_H + i);
  const rows = hours.map((hour) => [
    new Date(year.start_ms + hour * HOUR_MS).toISOString().slice(0, 16).replace('T', ' '),
    fixed(year.ghi_W_m2[hour % count]!, 1),
    fixed(year.air_degC[hour % count]!, 1),
  ]);
  const head = [
    ...ABOVE,
    'Times are the start of the hour, in UTC',
    '',
    'time,GHI (W/m2),air temperature (degC)',
  ];
  return `${[...head, ...rows.map((cells) => cells.join(','))].join('\n')}\n`;
}

/** October to December of two stations, one row each an hour: the second has a tenth less light and is a degree colder. */
function twoStations(year: InventedYear): string {
  const rows = Array.from({ length: year.ghi_W_m2.length - OCTOBER_H }, (_, i) => OCTOBER_H + i).flatMap(
    (hour) =>
      (
        [
          ['Northfield', 1, 0],
          ['Upper Mill', 0.9, 1],
        ] as const
      ).map(([station, share, colder_K]) =>
        [
          station,
          new Date(year.start_ms + hour * HOUR_MS).toISOString().slice(0, 16).replace('T', ' '),
          fixed(year.ghi_W_m2[hour]! * share, 1),
          fixed(year.air_degC[hour]! - colder_K, 1),
        ].join(';'),
      ),
  );
  const head = [...ABOVE, 'Times are the start of the hour, in UTC', ''];
  return `${[...head, 'station;time;global radiation (W/m2);air temperature (degC)', ...rows].join('\n')}\n`;
}

/**
 * Weather with a row a day, of days of UTC: light as its sum in J/cm2, air as its mean.
 *
 * in: decimals, of the light
 */
export function daySums({ start_ms, ghi_W_m2, air_degC }: InventedYear, decimals: number): string {
  const rows = Array.from({ length: ghi_W_m2.length / 24 }, (_, day) => {
    const of = (column: Float64Array) =>
      column.subarray(day * 24, day * 24 + 24).reduce((sum, value) => sum + value, 0);
    const date = new Date(start_ms + day * 24 * HOUR_MS).toISOString().slice(0, 10);
    return [date, fixed(of(ghi_W_m2) * J_CM2_PER_WH_M2, decimals), fixed(of(air_degC) / 24, 1)].join(',');
  });
  return `${[...ABOVE, 'Days of UTC', '', 'date,global radiation sum (J/cm2),mean air temperature (degC)', ...rows].join('\n')}\n`;
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
