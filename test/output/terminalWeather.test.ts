import { expect, test } from 'vitest';
import { terminalWeather } from '../../sim/output/terminalWeather.ts';
import { smallWeather, without } from './smallWeather.ts';

const JUNE_H = 151 * 24;
const JULY_H = 195 * 24;

test('terminalWeather tells how a file was read, what the sun says and what a run can use, in 100 columns', async () => {
  const { report } = await smallWeather();
  const text = terminalWeather(report, {});
  for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(100);
  expect(text.split('\n')[0]).toBe('made-up.csv: 8760 rows understood');
  for (const part of [
    '8760 hours from 2025-01-01 00:00 UTC to 2026-01-01 00:00 UTC.',
    'ghi: column "GHI (W/m2)" in W/m2, as its heading says',
    'the middle of an interval lies 30 minutes after its stamp',
    'Stamps stand 30 minutes before the middle of the interval, to',
    'place: latitude 54, longitude 10, 0 m\n',
    'nothing was found',
    'No daylight was missing.',
  ])
    expect(
      text.replace(/\n +/g, (blank) => (blank.length > 5 ? ' ' : blank)),
      part,
    ).toContain(part);
  expect(text).not.toMatch(/undefined|NaN/);
  expect(text).not.toContain('\u001b');
  expect(text.endsWith('\n')).toBe(true);
});

test('terminalWeather adds nothing but colour where the terminal takes it', async () => {
  const { report } = await smallWeather();
  const coloured = terminalWeather(report, { colour: true });
  expect(coloured).toContain('\u001b[');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the escapes of colour
  expect(coloured.replace(/\u001b\[\d+m/g, '')).toBe(terminalWeather(report, {}));
});

test('terminalWeather counts the hours that were filled, and shows them in picture and table', async () => {
  const { report } = await smallWeather(without(JULY_H, 72));
  const text = terminalWeather(report, {});
  expect(text).toMatch(/Of the daylight that was missing, 0 h were filled .*\n? *from the nearest/s);
  expect(text).toContain('Filled hours are marked in every');
  expect(text).toMatch(/2025-07 .*\b72 +0\n/);
  expect(text.replace(/\s+/g, ' ')).toContain('72 hours of it filled');
  expect(text).toMatch(/\|.*~.*\|/);
});

test('terminalWeather says what a run goes over where no whole year is there, and how to get one', async () => {
  const much = await smallWeather(without(JUNE_H, 120));
  expect(terminalWeather(much.report, {}).replace(/\s+/g, ' ')).toMatch(
    /more than 10 percent of the daylight filled: 2025-06.*--accept-filled takes them/,
  );
  const half = await smallWeather((row, i) => (i < 5000 ? row : ''));
  expect(terminalWeather(half.report, {}).replace(/\s+/g, ' ')).toContain('208 days, no whole winter');
});

test('terminalWeather names single hours once, a few of a kind, and counts the rest', async () => {
  const { report } = await smallWeather((row, i) =>
    i % 24 === 12 && i < 24 * 7 ? row.replace(/,[^,]*,/, ',1900,') : row,
  );
  const text = terminalWeather(report, {});
  expect(text).toContain('values outside the physically possible: 7 h');
  expect(text).toMatch(
    / {6}ghi_W_m2, 2025-01-01 12:00 UTC: 1900 W\/m2 with the sun at 1\d\s+degrees, where -15 to [\d.]+ W\/m2\s+can be; taken as\s+missing/,
  );
  expect(text).toContain('      and 3 more of the kind');
});

test('terminalWeather says of a place that the days do not quite fit that it wants a look', async () => {
  const { report } = await smallWeather();
  const said = (latitude_deg: number) => {
    const seen = { ...report.clockCheck.site, verdict: 'fits' as const, latitudeSeen_deg: 55 };
    const clockCheck = { ...report.clockCheck, site: seen };
    const text = terminalWeather({ ...report, clockCheck, site: { ...report.site, latitude_deg } }, {});
    return /The days are as long as[\s\S]*?\.\n/.exec(text)![0].replace(/\s+/g, ' ').trim();
  };
  const days = 'The days are as long as at latitude 55, to about 5 degrees';
  expect(said(54)).toBe(`${days}: the place fits.`);
  expect(said(47.6)).toBe(`${days}: the place fits.`);
  expect(said(47.4)).toBe(`${days}, and the place is at 47: check it.`);
  expect(said(63)).toBe(`${days}, and the place is at 63: check it.`);
});
