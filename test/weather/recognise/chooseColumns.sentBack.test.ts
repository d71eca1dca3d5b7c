import { expect, test } from 'vitest';
import { knownSeries } from './knownSeries.ts';
import { problemsOf, readText } from './readText.ts';

const known = knownSeries(Date.UTC(2025, 0, 1), 120);
const PLACE = { place: { latitude_deg: known.latitude_deg, longitude_deg: known.longitude_deg } };
const TOP = Math.max(...known.ghi_W_m2);

/** What is read of columns that all say 'radiation', each made from the global light and the hour. */
const read = (columns: Record<string, (ghi_W_m2: number, i: number) => number>, unit = ' (W/m2)') => {
  const names = Object.keys(columns).map((name) => `radiation ${name}${unit}`);
  const rows = Array.from({ length: known.count }, (_, i) => {
    const time = new Date(known.start_ms + i * 3_600_000).toISOString().slice(0, 16);
    return [time, ...Object.values(columns).map((make) => make(known.ghi_W_m2[i]!, i).toFixed(2))].join();
  });
  return readText([`start utc,${names.join()}\n${rows.join('\n')}\n`], PLACE);
};
const whole = (ghi: number): number => ghi;
const isDark = (ghi: number): boolean => ghi < 1;

test.each([' (W/m2)', ''])(
  'of light in, light out and their balance%s the first is taken, the others are noted',
  async (unit) => {
    const out = (ghi: number, i: number): number => ghi * (0.2 + 0.02 * Math.sin(i));
    const rest = (ghi: number, i: number): number => ghi - out(ghi, i) - (isDark(ghi) ? 40 : 60);
    for (const columns of [
      { in: whole, out, rest },
      { rest, out, in: whole },
    ]) {
      const { columns: chosen, doubts } = (await read(columns, unit)).recognition;
      expect(chosen.map(({ quantity, heading }) => `${quantity} ${heading}`)).toEqual([
        `ghi radiation in${unit}`,
      ]);
      expect(doubts.map(({ taken, runnerUp, why }) => [taken, runnerUp, why]).sort()).toEqual([
        [`"radiation in${unit}"`, `"radiation out${unit}"`, expect.stringContaining('the ground sends back')],
        [`"radiation in${unit}"`, `"radiation rest${unit}"`, expect.stringContaining('balance of radiation')],
      ]);
    }
  },
);

test.each([
  ['a share of 0.42', (ghi: number) => 0.42 * ghi, true],
  ['a share of 0.48', (ghi: number) => 0.48 * ghi, false],
  ['shares of 0.20 and 0.28 by turns', (ghi: number, i: number) => (i % 2 ? 0.2 : 0.28) * ghi, true],
  ['shares of 0.20 and 0.34 by turns', (ghi: number, i: number) => (i % 2 ? 0.2 : 0.34) * ghi, false],
  ['diffuse light', (_: number, i: number) => known.dhi_W_m2[i]!, false],
  ['nights 3 percent below zero', (ghi: number) => (isDark(ghi) ? -0.03 * TOP : 0.9 * ghi), true],
  ['nights 1 percent below zero', (ghi: number) => (isDark(ghi) ? -0.01 * TOP : 0.9 * ghi), false],
  [
    'every third night below zero',
    (g: number, i: number) => (isDark(g) && i % 72 < 24 ? -40 : 0.9 * g),
    true,
  ],
  [
    'every eighth night below zero',
    (g: number, i: number) => (isDark(g) && i % 192 < 24 ? -40 : 0.9 * g),
    false,
  ],
])('beside global light %s is told apart: %s', async (_, other, told) => {
  const reading = read({ a: whole, b: other });
  if (told) expect((await reading).recognition.columns[0]).toMatchObject({ heading: 'radiation a (W/m2)' });
  else expect(await problemsOf(reading)).toMatchObject([{ code: 'WEATHER_AMBIGUOUS', field: 'ghi' }]);
});

// The clearest of these days let 0.76 of the light outside the air through.
test.each([
  [0.7, true],
  [0.6, false],
])('light is sent back from what is as bright as the sun: %d of that is: %s', async (share, told) => {
  const reading = read({ a: (ghi) => share * ghi, b: (ghi) => 0.2 * share * ghi });
  if (told) expect((await reading).recognition.columns[0]).toMatchObject({ heading: 'radiation a (W/m2)' });
  else expect(await problemsOf(reading)).toMatchObject([{ code: 'WEATHER_AMBIGUOUS', field: 'ghi' }]);
});
