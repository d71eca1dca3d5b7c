import { expect, test } from 'vitest';
import { readSite } from '../../../sim/weather/recognise/readSite.ts';

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
