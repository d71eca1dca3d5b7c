import { expect, test } from 'vitest';
import { knownSeries } from './knownSeries.ts';
import { problemsOf, readText } from './readText.ts';

const known = knownSeries(Date.UTC(2025, 0, 1), 120);
const PLACE = { place: { latitude_deg: known.latitude_deg, longitude_deg: known.longitude_deg } };

test('beside a column of light without words a part of it is diffuse only where it is sometimes all of it', async () => {
  const lights = async (part: (i: number) => number): Promise<string[]> => {
    const rows = Array.from({ length: known.count }, (_, i) => {
      const time = new Date(known.start_ms + i * 3_600_000).toISOString().slice(0, 16);
      return `${time},${known.ghi_W_m2[i]!.toFixed(2)},${part(i).toFixed(2)}`;
    });
    const { recognition } = await readText([`start utc,x,y\n${rows.join('\n')}\n`], PLACE);
    return recognition.columns.map(({ quantity }) => quantity);
  };
  expect(await lights((i) => known.dhi_W_m2[i]!)).toEqual(['ghi', 'dhi']);
  expect(await lights((i) => known.ghi_W_m2[i]! * 0.22)).toEqual(['ghi']);
});

test.each([
  ['a meter that lacks a fifth of the light', (i: number) => known.ghi_W_m2[i]! * 0.8],
  [
    'a meter that lacks now more, now less of it',
    (i: number) => known.ghi_W_m2[i]! * (0.6 + 0.39 * Math.sin(i * 1.3) ** 2),
  ],
  [
    'a meter in shade until noon',
    (i: number) =>
      known.ghi_W_m2[i]! * 0.9 - (i % 24 < 12 ? 0.9 : 0) * (known.ghi_W_m2[i]! - known.dhi_W_m2[i]!),
  ],
  ['a meter in shade that sees half of the sky', (i: number) => 0.5 * known.dhi_W_m2[i]!],
  ['what comes from the sun alone', (i: number) => known.ghi_W_m2[i]! - known.dhi_W_m2[i]!],
])('beside a column of light without words %s is not guessed to be diffuse', async (_, other) => {
  const rows = Array.from({ length: known.count }, (_, i) => {
    const time = new Date(known.start_ms + i * 3_600_000).toISOString().slice(0, 16);
    return `${time},${known.ghi_W_m2[i]!.toFixed(2)},${other(i).toFixed(2)}`;
  });
  const text = `start utc,garden W/m2,balcony W/m2\n${rows.join('\n')}\n`;
  const [problem] = await problemsOf(readText([text], PLACE));
  expect(problem).toMatchObject({ code: 'WEATHER_AMBIGUOUS', field: 'ghi' });
  expect(problem!.typed).toEqual(['--column "ghi=garden W/m2"', '--column "ghi=balcony W/m2"']);
  const { recognition } = await readText([text], { ...PLACE, columns: { ghi: 'balcony W/m2' } });
  expect(recognition.columns.map(({ quantity, column }) => [quantity, column])).toEqual([['ghi', 2]]);
});

// Thick cloud leaves about 0.86 of these days' light diffuse, a clear sky in 3 of 4 hours at most 0.24.
test.each([
  ['nearly all of the light under thick cloud', (diffuse: number) => 0.97 * diffuse, true],
  ['less of it there', (diffuse: number) => 0.85 * diffuse, false],
  ['six tenths of it under a clear sky', (diffuse: number, ghi: number) => 0.5 * diffuse + 0.5 * ghi, true],
  ['more of it there', (diffuse: number, ghi: number) => 0.3 * diffuse + 0.7 * ghi, false],
])('without words diffuse light is %s: %s', async (_, part, is) => {
  const rows = Array.from({ length: known.count }, (_, i) => {
    const time = new Date(known.start_ms + i * 3_600_000).toISOString().slice(0, 16);
    return `${time},${known.ghi_W_m2[i]!.toFixed(2)},${part(known.dhi_W_m2[i]!, known.ghi_W_m2[i]!).toFixed(2)}`;
  });
  const reading = readText([`start utc,x,y\n${rows.join('\n')}\n`], PLACE);
  if (is) expect((await reading).recognition.columns.map(({ quantity }) => quantity)).toEqual(['ghi', 'dhi']);
  else expect((await problemsOf(reading))[0]!.code).toBe('WEATHER_AMBIGUOUS');
});
