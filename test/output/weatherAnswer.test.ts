import { expect, test } from 'vitest';
import { terminalWeather } from '../../sim/output/terminalWeather.ts';
import { weatherAnswer } from '../../sim/output/weatherAnswer.ts';
import { smallWeather, without } from './smallWeather.ts';

const AGAIN = { run: ['--zone', 'UTC'], details: ['--place', '54,10'] };

test.each([40, 60, 100])('weatherAnswer breaks its lines at %i columns and cuts none', async (columns) => {
  const { report } = await smallWeather(without(151 * 24, 120));
  const lines = weatherAnswer(report, AGAIN, { columns }).trimEnd().split('\n');
  // A command stays in one line.
  const told = lines.filter((line) => !line.startsWith('More: '));
  for (const line of told) expect(line.length, line).toBeLessThanOrEqual(columns);
  const words = lines.join(' ').replace(/ +/g, ' ');
  expect(words).toMatch(
    /^Not usable for a run: 8760 hours .*, more than 10 percent of the daylight filled: 2025-06\. file made-up/,
  );
  expect(words).toContain('; the middle of an interval lies 30 minutes after its stamp sum ');
  expect(words).toMatch(/ Next: --accept-filled takes them .*: --from and --to\. More: /);
  expect(words).not.toContain('...');
});

test('weatherAnswer sets the lines of a fact below each other', async () => {
  const { report } = await smallWeather();
  const text = weatherAnswer(report, AGAIN, { columns: 60 });
  expect(text).toMatch(/^ {2}clock {3}\S.*\n( {10}\S.*\n)+ {2}sum {5}\S/m);
  expect(text).toContain('\nNext: longnight run SCENARIO --weather made-up.csv --zone UTC\n');
});

test('weatherAnswer tells of a break in the record, and what counts', async () => {
  const { report } = await smallWeather();
  expect(weatherAnswer(report, AGAIN)).not.toContain('  break');
  const options = { ...report.options, break: 'the station moved', counted: 'from 2025-07-01 on alone' };
  expect(weatherAnswer({ ...report, options }, AGAIN)).toContain(
    '\n  break   the station moved; counted: from 2025-07-01 on alone\n',
  );
});

test('weatherAnswer says the offset of the nights, and a range that ends, and sums as the details do', async () => {
  const { report } = await smallWeather((row) => {
    const [time, ghi, ...others] = row.split(',');
    return [time, (Math.min(Number(ghi), 600) - 2.3).toFixed(1), ...others].join(',');
  });
  const words = weatherAnswer(report, AGAIN, { columns: 100 }).replace(/\s+/g, ' ');
  expect(words).toMatch(/ offset set to 0 in \d+ hours; the dark hours read -2\.3 W\/m2 in the middle/);
  expect(words).toMatch(
    / faults light stands at its highest value, 597\.7 W\/m2, in \d+ hours: the sensor or its range ends there /,
  );
  const [, sum] = / sum (\d+) kWh\/m2 a year/.exec(words)!;
  expect(terminalWeather(report)).toContain(`  2025: ${sum} kWh/m2 in the year`);
});

test.each([
  [875, ' faults readings below zero, or a little above it in the dark '],
  [876, ' offset set to 0 in 876 hours '],
])('weatherAnswer calls %d of 8760 hours that are a little off "%s"', async (hours, said) => {
  const { report } = await smallWeather();
  const finding = { kind: 'night-offset', column: 'ghi_W_m2', hours, evidence: `${hours} hours` } as const;
  const span = { from_ms: 0, to_ms: 1, effect: 'set to 0' } as const;
  const quality = { ...report.quality, findings: [{ ...finding, ...span }] };
  const words = weatherAnswer({ ...report, quality }, AGAIN, { columns: 100 }).replace(/\s+/g, ' ');
  expect(words).toContain(said);
});
