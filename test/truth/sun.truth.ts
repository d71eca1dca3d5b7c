import { incidenceCosine, normalOf } from '../../sim/spot/shade/beamOnPlane.ts';
import { directionTo } from '../../sim/sun/SunTrack.ts';
import { geometricAltitude, solarPosition, sunFromHourAngle } from '../../sim/sun/solarPosition.ts';
import { sunColumns } from '../../sim/sun/sunColumns.ts';
import { sunriseAndSunset } from '../sun/sunriseAndSunset.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Sun';
const reda =
  'I. Reda and A. Andreas, Solar position algorithm for solar radiation applications, NREL/TP-560-34302 (2003, rev. 2008), table A5.1';
const duffie = 'J. A. Duffie and W. A. Beckman, Solar Engineering of Thermal Processes';
const noaa = 'NOAA Global Monitoring Laboratory, solar calculation day sheet (series of Meeus, chapter 25)';

const redaInstant = Date.UTC(2003, 9, 17, 19, 30, 30);
const reda_ = () => solarPosition(redaInstant, 39.742476, -105.1786);
const noaaInstant = Date.UTC(2010, 5, 21, 7, 6);
const noaa_ = () => solarPosition(noaaInstant, 40, -105);

/** Declination at an instant, from columns that start there. */
const declination = (ms: number) =>
  sunColumns(ms, 1, { latitude_deg: 40, longitude_deg: -105 }).declination_deg[0]!;

const azimuthOfBook = (azimuthFromSouth_deg: number) => azimuthFromSouth_deg + 180;

interface Almanac {
  place: string;
  latitude_deg: number;
  longitude_deg: number;
  date: [number, number, number];
  zone_h: number;
  rise: string;
  set: string;
}

/** Finnish Meteorological Institute's table of the December solstice, as reproduced in an encyclopedia's template. */
const ALMANAC: Almanac[] = [
  {
    place: 'Helsinki',
    latitude_deg: 60.1699,
    longitude_deg: 24.9384,
    date: [2022, 12, 21],
    zone_h: 2,
    rise: '9:23',
    set: '15:12',
  },
  {
    place: 'Stockholm',
    latitude_deg: 59.3293,
    longitude_deg: 18.0686,
    date: [2022, 12, 21],
    zone_h: 1,
    rise: '8:43',
    set: '14:47',
  },
  {
    place: 'Oslo',
    latitude_deg: 59.9139,
    longitude_deg: 10.7522,
    date: [2022, 12, 21],
    zone_h: 1,
    rise: '9:17',
    set: '15:11',
  },
  {
    place: 'Copenhagen',
    latitude_deg: 55.6761,
    longitude_deg: 12.5683,
    date: [2022, 12, 21],
    zone_h: 1,
    rise: '8:36',
    set: '15:38',
  },
  {
    place: 'Riga',
    latitude_deg: 56.9496,
    longitude_deg: 24.1052,
    date: [2022, 12, 21],
    zone_h: 2,
    rise: '8:59',
    set: '15:43',
  },
  {
    place: 'Reykjavik',
    latitude_deg: 64.1466,
    longitude_deg: -21.9426,
    date: [2022, 12, 21],
    zone_h: 0,
    rise: '11:21',
    set: '15:29',
  },
  {
    place: 'Rovaniemi',
    latitude_deg: 66.5039,
    longitude_deg: 25.7294,
    date: [2022, 12, 21],
    zone_h: 2,
    rise: '11:07',
    set: '13:22',
  },
  {
    place: 'London',
    latitude_deg: 51.5074,
    longitude_deg: -0.1278,
    date: [2015, 12, 22],
    zone_h: 0,
    rise: '8:04',
    set: '15:53',
  },
  {
    place: 'Edinburgh',
    latitude_deg: 55.9533,
    longitude_deg: -3.1883,
    date: [2015, 12, 22],
    zone_h: 0,
    rise: '8:42',
    set: '15:40',
  },
  {
    place: 'Berlin',
    latitude_deg: 52.52,
    longitude_deg: 13.405,
    date: [2015, 12, 22],
    zone_h: 1,
    rise: '8:15',
    set: '15:54',
  },
];

const minutesOf = (clock: string) => {
  const [hours, minutes] = clock.split(':').map(Number);
  return hours! * 60 + minutes!;
};

const almanacCases: TruthCase[] = ALMANAC.flatMap((row) =>
  (['rise', 'set'] as const).map((end) => ({
    topic,
    what: `sun${end}, ${row.place}, ${row.date.join('-')}, minutes after civil midnight`,
    unit: 'min',
    expected: minutesOf(row[end]),
    tolerance: row.latitude_deg > 66 ? 4 : 2,
    why: 'the table cuts off seconds; near the polar circle the sun grazes the horizon',
    source:
      'Finnish Meteorological Institute, sunrise and sunset at the December solstice, as reproduced in a public encyclopedia',
    status: 'printed' as const,
    compute: () => {
      const [year, month, day] = row.date;
      const midnight = Date.UTC(year, month - 1, day) - row.zone_h * 3_600_000;
      return (sunriseAndSunset(midnight, row)[end] - midnight) / 60_000;
    },
  })),
);

export const cases: TruthCase[] = [
  {
    topic,
    what: 'zenith angle, 17 Oct 2003 12:30:30 UTC-7, 39.74 N 105.18 W',
    unit: 'deg',
    expected: 50.11162,
    tolerance: 0.02,
    why: 'short series, refraction of standard air',
    source: reda,
    status: 'printed',
    compute: () => 90 - reda_().altitude_deg,
  },
  {
    topic,
    what: 'azimuth, same instant',
    unit: 'deg',
    expected: 194.34024,
    tolerance: 0.02,
    why: 'short series',
    source: reda,
    status: 'printed',
    compute: () => reda_().azimuth_deg,
  },
  {
    topic,
    what: 'incidence on a slope of 30 deg facing 10 deg east of south, same instant',
    unit: 'deg',
    expected: 25.187,
    tolerance: 0.02,
    why: 'short series',
    source: reda,
    status: 'printed',
    compute: () => {
      const { up, north, east } = directionTo(reda_().altitude_deg, reda_().azimuth_deg);
      const slope = normalOf({ tilt_deg: 30, bearing_deg: 170 });
      return (Math.acos(incidenceCosine(up, north, east, slope)) * 180) / Math.PI;
    },
  },
  {
    topic,
    what: 'declination, same instant',
    unit: 'deg',
    expected: -9.31434,
    tolerance: 0.01,
    why: 'short series',
    source: reda,
    status: 'printed',
    compute: () => declination(redaInstant),
  },
  {
    topic,
    what: 'declination, 21 Jun 2010 00:06 UTC-7',
    unit: 'deg',
    expected: 23.4383706192869,
    tolerance: 0.001,
    why: 'same series; terrestrial time',
    source: noaa,
    status: 'printed',
    compute: () => declination(noaaInstant),
  },
  {
    topic,
    what: 'geometric altitude at night, same instant, 40 N 105 W',
    unit: 'deg',
    expected: -26.5537621191813,
    tolerance: 0.01,
    why: 'the sheet rounds the sidereal time',
    source: noaa,
    status: 'printed',
    compute: () => geometricAltitude(noaa_().altitude_deg),
  },
  {
    topic,
    what: 'azimuth at night, same instant',
    unit: 'deg',
    expected: 1.09867118388445,
    tolerance: 0.02,
    why: 'the sheet rounds the sidereal time',
    source: noaa,
    status: 'printed',
    compute: () => noaa_().azimuth_deg,
  },
  {
    topic,
    what: 'zenith angle, 43 N, 13 Feb 9:30 solar time',
    unit: 'deg',
    expected: 66.5,
    tolerance: 0.15,
    why: 'the book rounds the declination to -14',
    source: `${duffie}, example 1.6.2a`,
    status: 'from memory',
    compute: () => 90 - sunFromHourAngle(-14, -37.5, 43).altitude_deg,
  },
  {
    topic,
    what: 'azimuth, 43 N, 13 Feb 9:30 solar time',
    unit: 'deg',
    expected: azimuthOfBook(-40),
    tolerance: 0.15,
    why: 'the book rounds the declination to -14',
    source: `${duffie}, example 1.6.2a`,
    status: 'from memory',
    compute: () => sunFromHourAngle(-14, -37.5, 43).azimuth_deg,
  },
  {
    topic,
    what: 'zenith angle, 43 N, 1 Jul 18:30 solar time',
    unit: 'deg',
    expected: 79.6,
    tolerance: 0.1,
    why: 'rounding of the book',
    source: `${duffie}, example 1.6.2b`,
    status: 'from memory',
    compute: () => 90 - sunFromHourAngle(23.1, 97.5, 43).altitude_deg,
  },
  {
    topic,
    what: 'azimuth, 43 N, 1 Jul 18:30 solar time',
    unit: 'deg',
    expected: azimuthOfBook(112),
    tolerance: 0.1,
    why: 'rounding of the book',
    source: `${duffie}, example 1.6.2b`,
    status: 'from memory',
    compute: () => sunFromHourAngle(23.1, 97.5, 43).azimuth_deg,
  },
  {
    topic,
    what: 'altitude, 43 N, 16 Mar 16:00 solar time',
    unit: 'deg',
    expected: 19.7,
    tolerance: 0.1,
    why: 'rounding of the book',
    source: `${duffie}, example 1.6.3`,
    status: 'answer from memory',
    compute: () => sunFromHourAngle(-2.4, 60, 43).altitude_deg,
  },
  {
    topic,
    what: 'azimuth, 43 N, 16 Mar 16:00 solar time',
    unit: 'deg',
    expected: azimuthOfBook(66.8),
    tolerance: 0.1,
    why: 'rounding of the book',
    source: `${duffie}, example 1.6.3`,
    status: 'answer from memory',
    compute: () => sunFromHourAngle(-2.4, 60, 43).azimuth_deg,
  },
  ...almanacCases,
];
