import { expect, it } from 'vitest';
import { readCapacitorLog } from '../../sim/fitting/readCapacitorLog.ts';
import { serviceLog } from '../../sim/fitting/serviceLog.ts';
import { EVENING, EVENING_TRUE, noisyLog, service, TRUE } from './inventedService.ts';

it('the circuit written a second time is followed to a millivolt, and leakage, light share and draw are found', () => {
  const fit = serviceLog(service(EVENING), { file: 'log.csv', ...EVENING_TRUE, step_ms: 600_000 });
  const [leakage, share, draw] = fit.estimates;
  expect(fit.misfit_V).toBeLessThan(1e-3);
  // The circuit's steps of 120 s, and what the log's beginning leaves open of the delayed branches.
  expect(leakage!.value / (1000 * TRUE.leakage)).toBeCloseTo(1, 2);
  expect(share!.value).toBeCloseTo(TRUE.share, 3);
  expect(draw!.value).toBeCloseTo(TRUE.draw, 3);
  expect(fit.clockAhead_min).toBe(0);
  expect(fit.notes).toEqual([]);
});

it.each([
  ['ahead', 3_600_000, 60],
  ['behind', -3_600_000, -60],
] as const)(
  'a log whose clock is an hour %s is noticed, and read with the clock put right',
  { timeout: 60_000 },
  (word, ahead_ms, minutes) => {
    const fit = serviceLog(service(EVENING), noisyLog(EVENING_TRUE, 3, ahead_ms));
    expect(fit.clockAhead_min).toBe(minutes);
    expect(fit.notes.join(' ')).toMatch(new RegExp(`about 60 minutes ${word}`));
    const share = fit.estimates[1]!;
    expect(share.low).toBeLessThan(TRUE.share + 0.005);
    expect(share.high).toBeGreaterThan(TRUE.share - 0.005);
  },
);

it('a log shorter than three days, or of other days than the weather, is refused', () => {
  const here = service(EVENING);
  const log = noisyLog(EVENING_TRUE, 1);
  const short = { ...log, time_ms: log.time_ms.slice(0, 300), capacitor_V: log.capacitor_V.slice(0, 300) };
  expect(() => serviceLog(here, short)).toThrow(/FIT_UNDETERMINED[\s\S]*at least 3 days/);
  const late = noisyLog(EVENING_TRUE, 1, 10 * 86_400_000);
  expect(() => serviceLog(here, late)).toThrow(/FIT_UNDETERMINED[\s\S]*days that the weather holds/);
});

const csv = (rows: readonly string[]) => ({
  name: 'log.csv',
  bytes: new TextEncoder().encode(`time_utc,capacitor_V\n${rows.join('\n')}\n`),
});

it('a log that jumps backwards, or is in millivolts, is refused with its line', () => {
  const rows = ['2025-01-05T00:00Z,1.9', '2025-01-05T00:10Z,1.9', '2025-01-05T00:05Z,1.9'];
  expect(() => readCapacitorLog(csv(rows), 2.7)).toThrow(/WEATHER_DISORDER {2}log\.csv:4/);
  const millivolts = ['2025-01-05T00:00Z,1900', '2025-01-05T00:10Z,1898', '2025-01-05T00:20Z,1897'];
  expect(() => readCapacitorLog(csv(millivolts), 2.7)).toThrow(
    /SCENARIO_WRONG_UNIT[\s\S]*divide millivolts by 1000/,
  );
  const odd = ['2025-01-05T00:00Z,1.9', '2025-01-05T00:10Z,9.5', '2025-01-05T00:20Z,1.9'];
  expect(() => readCapacitorLog(csv(odd), 2.7)).toThrow(/WEATHER_VALUE_OUT_OF_RANGE {2}log\.csv:3/);
  expect(readCapacitorLog(csv(rows.slice(0, 2)), 2.7)).toMatchObject({
    capacitor_V: [1.9, 1.9],
    step_ms: 600_000,
  });
});
