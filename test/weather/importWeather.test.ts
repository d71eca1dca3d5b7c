import { expect, test } from 'vitest';
import { HOUR_MS as HOUR } from '../../sim/common/time.ts';
import { bytesSource } from '../../sim/tables/TableSource.ts';
import { importWeather } from '../../sim/weather/importWeather.ts';
import { known, off, PLACE, understand, yearFile } from './knownYear.ts';
import { knownSeries } from './recognise/knownSeries.ts';
import { problemsOf } from './recognise/readText.ts';

test('a file whose claims agree with the sun becomes a whole record that says how it was read', async () => {
  const { record, report } = await understand('start utc', 0);
  expect(record).toMatchObject({ start_ms: known.start_ms, count: 8760, step_s: 3600 });
  expect(off(record!.ghi_W_m2)).toBeLessThan(0.001);
  expect(report.options.clock).toContain('the sun agrees');
  expect(record!.origin.options).toEqual(
    expect.objectContaining({ clock: report.options.clock, ghi: expect.stringContaining('W/m2') }),
  );
});

test('a zone that the sun gainsays is refused though nobody says what stamps mark', async () => {
  const [problem] = await problemsOf(understand('time utc', 150));
  expect(problem!.code).toBe('WEATHER_CLOCK');
});

test('a wrong sign of the longitude is told', async () => {
  const east = knownSeries(Date.UTC(2025, 0, 1), 365, 54, 30);
  const lines = [
    'start utc,GHI (W/m2)',
    ...Array.from(
      east.ghi_W_m2,
      (value, i) => `${new Date(east.start_ms + i * HOUR).toISOString().slice(0, 16)},${value.toFixed(2)}`,
    ),
  ];
  const source = bytesSource({ name: 'made-up.csv', bytes: new TextEncoder().encode(lines.join('\n')) });
  const [problem] = await problemsOf(
    importWeather([source], { place: { latitude_deg: 54, longitude_deg: -30 } }),
  );
  expect(problem!.code).toBe('WEATHER_CLOCK');
  expect(problem!.fix).toContain('sign of longitude');
});

test('without a place nothing is proved, and it is asked for', async () => {
  const [problem] = await problemsOf(understand('start utc', 0, {}));
  expect(problem).toMatchObject({ code: 'SCENARIO_MISSING_KEY', field: 'site.latitude_deg' });
});

test('a missing month is gone round: what is left of the year is the record, and the report says so', async () => {
  const sources = yearFile('start utc', 0, (line, i) =>
    i > 700 && i < 1500 ? line.replace(/,[^,]*,/, ',-999,') : line,
  );
  const { record, report } = await importWeather(sources, PLACE);
  expect(record!.ghi_W_m2.some(Number.isNaN)).toBe(false);
  expect(report.stretch).toMatchObject({ years: 0, leading_h: 1500, trailing_h: 0 });
  expect(report.missing.ghi).toEqual({ '-999': 799 });
});

test('a zone stated by the user wins over the offset that each stamp states', async () => {
  const offset = (line: string) => line.replace(',', '+02:00,');
  const { record, report } = await importWeather(yearFile('start', 0, offset), { ...PLACE, zone: 'UTC' });
  expect(report.options.zone).toBe('stated by the user, over the offset each stamp states');
  expect(record!.start_ms).toBe(known.start_ms);
  expect(off(record!.ghi_W_m2)).toBeLessThan(0.001);
});

test.each([
  ['start utc+1', 'Z', '"start utc+1" (heading)'],
  ['start utc+1', '+00:00', '"start utc+1" (heading)'],
  ['start utc', 'Z', undefined],
  ['start Europe/London', 'Z', undefined],
])(
  'under a heading "%s" stamps with %s are read by their own word; a zone they do not keep is told',
  async (heading, own, against) => {
    const file = yearFile(heading, 0, (line) => line.replace(',', `${own},`));
    const { record, report } = await importWeather(file, PLACE);
    expect(record!.start_ms).toBe(known.start_ms);
    const note = report.notes.filter((text) => text.includes('a zone that its stamps do not keep'));
    expect(note).toEqual(against === undefined ? [] : [expect.stringContaining(against)]);
  },
);

test('lux are read as irradiance by the stated efficacy of daylight, and the report says so', async () => {
  const lux = yearFile('start utc', 0, (line) => {
    const [time, ghi] = line.split(',');
    return `${time},${(Number(ghi) * 115).toFixed(0)}`;
  });
  const [source] = lux;
  const text = new TextDecoder()
    .decode(source!.readAt(0, source!.size))
    .replace(/^.*\n/, 'start utc,illuminance (lux)\n');
  const bytes = new TextEncoder().encode(text);
  const { record, report } = await importWeather([bytesSource({ name: 'lux.csv', bytes })], PLACE);
  expect(report.options.ghi).toContain('in lx at 115 lm/W, good to 10 percent');
  expect(off(record!.ghi_W_m2)).toBeLessThan(0.01);
  expect(report.options['air temperature']).toMatch(/^stand-in: the usual temperature at 54 degrees north/);
});

test('a zone stated by the user that gainsays the file is taken, and what the file says is told', async () => {
  const { report } = await understand('start utc', 60, { ...PLACE, zone: '+01:00' });
  expect(report.options.zone).toContain('stated by the user, over what the file says');
  const agreed = await understand('start utc', 0, { ...PLACE, zone: 'UTC' });
  expect(agreed.report.options.zone).toBe('stated by the user');
});
