import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { bytesSource } from '../../sim/tables/TableSource.ts';
import { loadWeather, type WeatherWishes } from '../../sim/trial/loadWeather.ts';
import { ownRecord, writeNormalForm } from '../../sim/weather/normalForm.ts';
import { type WeatherGarden, weatherGarden, yearRows, yearText } from '../cli/weatherGarden.ts';
import { fileOf } from '../tables/hourlyText.ts';
import { problemsOf } from '../weather/recognise/readText.ts';

let garden: WeatherGarden;
beforeAll(() => {
  garden = weatherGarden();
  garden.add('year.csv', yearText(yearRows()));
  garden.add(
    'kilojoules.csv',
    yearText(
      yearRows((row) => row.replace(/,([^,]*),/, (_, ghi) => `,${(Number(ghi) * 3.6).toFixed(2)},`)),
      'start utc,energy,air temperature (degC)',
    ),
  );
});
afterAll(() => garden.remove());

const MAPPED =
  '{ file: year.csv, stamp: { column: start utc, zone: UTC, marks: start }, columns: ' +
  '{ ghi: { column: GHI (W/m2), unit: W/m2 }, air_temperature: { column: air temperature (degC), unit: degC } } }';

const load = (weather: string, wishes: WeatherWishes = {}) =>
  loadWeather(loadScenario(join(garden.folder, garden.scenario('s.yaml', weather))), wishes);
const at = (name: string) => ({ files: [{ path: join(garden.folder, name), name }] });

test('loadWeather reads by the mapping where the scenario has one', async () => {
  const record = (await load(MAPPED))!;
  expect(record).toMatchObject({ count: 8760, origin: { file: 'year.csv', filledHours: 0 } });
  expect(Object.keys(record.origin.options)).toContain('clock');
});

test('loadWeather recognises a file without a mapping, to the same values', async () => {
  const mapped = (await load(MAPPED))!;
  const recognised = (await load('{ file: year.csv }'))!;
  expect(recognised).toMatchObject({ start_ms: mapped.start_ms, count: 8760 });
  expect(recognised.ghi_W_m2).toEqual(mapped.ghi_W_m2);
  // Minus zero is zero.
  expect(recognised.air_degC).toEqual(mapped.air_degC.map((value) => value + 0));
  expect(recognised.origin.options.clock).toContain('the sun agrees');
});

test('what the scenario says of a column wins over what would be recognised', async () => {
  const record = (await load('{ file: kilojoules.csv, columns: { ghi: { column: energy, unit: kJ/m2 } } }'))!;
  const known = (await load(MAPPED))!;
  for (let i = 0; i < 8760; i += 7) expect(record.ghi_W_m2[i]).toBeCloseTo(known.ghi_W_m2[i]!, 2);
  expect(record.origin.options.ghi).toContain('stated by the user');
});

test('a wish of the command line wins over the scenario', async () => {
  const [problem] = await problemsOf(load('{ file: year.csv, zone: UTC }', { zone: '+02:00' }));
  expect(problem).toMatchObject({ code: 'WEATHER_CLOCK' });
  expect(problem!.got).toContain(
    'UTC+2, stamps at the start of the interval; by the sun that is a clock 120 minutes slow',
  );
});

test('another file stands in for that of the scenario; only its temperature for hours without one is kept', async () => {
  const constant = '{ file: nowhere.csv, columns: { air_temperature: { constant_degC: 4 } } }';
  garden.add(
    'bare.csv',
    yearText(
      yearRows((row) => row.slice(0, row.lastIndexOf(','))),
      'start utc,GHI (W/m2)',
    ),
  );
  garden.add('nowhere.csv', 'not read');
  const record = (await load(constant, at('bare.csv')))!;
  expect(record.origin.file).toBe('bare.csv');
  expect(record.air_degC.every((value) => value === 4)).toBe(true);
  expect(record.origin.options['air temperature']).toBe('stand-in: 4 degC in every hour');
});

test('a record of the plain form comes back as it was, with its marks', async () => {
  const record = (await load('{ file: year.csv }'))!;
  record.mark[100] = 3;
  garden.add('plain.csv', writeNormalForm(record));
  const back = (await load(MAPPED, at('plain.csv')))!;
  expect(back.mark).toEqual(record.mark);
  expect(back.ghi_W_m2).toEqual(record.ghi_W_m2);
  expect(back.origin.filledHours).toBe(1);
});

test('a record of the plain form with holes is filled anew, and what was filled before stays marked', async () => {
  const record = (await load('{ file: year.csv }'))!;
  record.mark[100] = 3;
  record.ghi_W_m2[4000] = Number.NaN;
  const text = writeNormalForm(record);
  garden.add('holes.csv', text);
  expect(ownRecord([bytesSource(fileOf(text))])!.record.ghi_W_m2[4000]).toBeNaN();
  const filled = (await load(MAPPED, at('holes.csv')))!;
  expect(filled.ghi_W_m2.some(Number.isNaN)).toBe(false);
  expect([filled.mark[100], filled.mark[4000]]).toEqual([3, 3]);
  expect(filled.origin.filledHours).toBe(2);
});

test('less than a year is taken as it is, or but for its last hours as a year', async () => {
  garden.add('half.csv', yearText(yearRows().slice(0, 4000)));
  expect((await load(MAPPED, at('half.csv')))!.count).toBe(4000);
  garden.add('lost.csv', yearText(yearRows().slice(0, 8758)));
  const lost = (await load(MAPPED, at('lost.csv')))!;
  expect([lost.count, lost.origin.filledHours, ...lost.mark.subarray(8757)]).toEqual([8760, 2, 0, 3, 3]);
});
