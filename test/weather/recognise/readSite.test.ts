import { expect, test } from 'vitest';
import { readSite, siteInRows } from '../../../sim/weather/recognise/readSite.ts';
import { knownSeries } from './knownSeries.ts';
import { readText } from './readText.ts';

test.each([
  ['Latitude: 54.5', 'Longitude: -10.25', 54.5, -10.25],
  ['Breitengrad;54,5', 'Längengrad;10,25', 54.5, 10.25],
  ["lat = 54° 30' N", "lon = 10° 15' W", 54.5, -10.25],
  [
    '# Latitude (north is positive, as on sheet 7): 54.5000',
    '# Longitude (east is positive, as on sheet 7): 10.2500',
    54.5,
    10.25,
  ],
  ['latitude,S 33 45', 'longitude,E 150 30', -33.75, 150.5],
  ['Szerokość geograficzna: 54.5', 'Długość geograficzna: 10.25', 54.5, 10.25],
  ['Latitude  54.5   Longitude 10.25', '', 54.5, 10.25],
  ['Latitude: 54,5 degrees north', 'Longitude: 10,25 degrees east', 54.5, 10.25],
])('readSite finds the place in "%s" and "%s"', (first, second, latitude_deg, longitude_deg) => {
  expect(readSite(['made up', first, second])).toMatchObject({ latitude_deg, longitude_deg });
});

test.each([
  [
    'garden,made up,no number,54.50000,10.25000,1.0,20.0',
    { latitude_deg: 54.5, longitude_deg: 10.25, standard_min: 60, elevation_m: 20 },
  ],
  [
    'garden 12,"made up",-5.0,40.500,-75.250,20',
    { latitude_deg: 40.5, longitude_deg: -75.25, standard_min: -300, elevation_m: 20 },
  ],
  [
    'made up -6 N 33 30 W 86 45 192',
    { latitude_deg: 33.5, longitude_deg: -86.75, standard_min: -360, elevation_m: 192 },
  ],
  ['some network,location,G,54.5,-10.25', { latitude_deg: 54.5, longitude_deg: -10.25 }],
  ["54° 30' N 10° 15' E", { latitude_deg: 54.5, longitude_deg: 10.25 }],
])('readSite finds the place in a line of words and numbers: %s', (line, found) => {
  expect(readSite([line])).toMatchObject(found);
});

test('readSite takes the last row of a table of periods and tells the others', () => {
  const site = readSite([
    'from;to;Höjd (m);Latitud;Longitud',
    '2000;2010;30.0;54.5;10.0',
    '2010;2020;85.0;54.25;10.5',
    '',
  ]);
  expect(site).toMatchObject({ latitude_deg: 54.25, longitude_deg: 10.5, elevation_m: 85 });
  expect(site.several).toHaveLength(2);
});

test('readSite takes no number of another thing for a place', () => {
  const site = readSite([
    'some_amount,long_name,global irradiation amount,kJ/m2',
    'valid along 3 paths',
    'lateral 7',
  ]);
  expect(site.latitude_deg).toBeUndefined();
  expect(site.longitude_deg).toBeUndefined();
});

const headings = ['when', 'lat', 'lon', 'elevation', 'ghi'];
const rowsAt = (...places: string[][]) => places.map((place, i) => [`2025-01-0${i + 1}`, ...place, '5']);

test('siteInRows takes a place that all rows state alike', () => {
  const place = ['54.5', '-10.25', '20'];
  expect(siteInRows({ headings }, rowsAt(place, place))).toEqual({
    latitude_deg: 54.5,
    longitude_deg: -10.25,
    elevation_m: 20,
    words: 'the columns "lat", "lon", "elevation", the same in every row',
  });
});

test.each([
  ['moves', rowsAt(['54.5', '-10.25', '20'], ['54.6', '-10.25', '20'])],
  ['lacks its longitude', rowsAt(['54.5', '', '20'], ['54.5', '', '20'])],
  ['is none', rowsAt(['154.5', '10', '20'], ['154.5', '10', '20'])],
])('siteInRows takes no place that %s', (_, rows) => {
  expect(siteInRows({ headings }, rows)).toEqual({});
});

test('an elevation that changes is none of the place', () => {
  const rows = rowsAt(['54.5', '10', '20'], ['54.5', '10', '21']);
  expect(siteInRows({ headings }, rows)).toMatchObject({ latitude_deg: 54.5, longitude_deg: 10 });
  expect(siteInRows({ headings }, rows)).not.toHaveProperty('elevation_m');
});

test('recognise takes the place from the rows where the lines above say none', async () => {
  const { start_ms, ghi_W_m2 } = knownSeries(Date.UTC(2025, 2, 1), 20);
  const rows = Array.from(ghi_W_m2, (light, i) =>
    [new Date(start_ms + i * 3_600_000).toISOString().slice(0, 16), '54', '10', light.toFixed(1)].join(),
  );
  const file = ['start utc,lat,lon,ghi W/m2', ...rows].join('\n');
  expect((await readText([file])).recognition.site).toMatchObject({ latitude_deg: 54, longitude_deg: 10 });
  const above = `Latitude: 53.5\nLongitude: 9.5\n\n${file}`;
  expect((await readText([above])).recognition.site).toMatchObject({
    latitude_deg: 53.5,
    longitude_deg: 9.5,
  });
});
