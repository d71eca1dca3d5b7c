import { expect, it } from 'vitest';
import { serviceLog } from '../../sim/fitting/serviceLog.ts';
import {
  EVENING,
  EVENING_TRUE,
  noisyLog,
  type Schedule,
  service,
  TRUE,
  trueVoltages,
} from './inventedService.ts';

it('14 days at 10 minutes with 5 mV of noise give leakage, light share and draw within their intervals', {
  timeout: 60_000,
}, () => {
  const here = service(EVENING);
  const truths = [here.lamp.capacitor.leakage_A * 1e6 * TRUE.leakage, TRUE.share, TRUE.draw];
  const held = [0, 0, 0];
  for (let seed = 1; seed <= 20; seed++) {
    const fit = serviceLog(here, noisyLog(EVENING_TRUE, seed));
    expect(fit.clockAhead_min).toBe(0);
    fit.estimates.forEach(({ low, high }, k) => {
      if (truths[k]! >= low && truths[k]! <= high) held[k]!++;
    });
    // Known well enough to be of use.
    expect(fit.estimates[1]!.high - fit.estimates[1]!.low).toBeLessThan(0.02);
    expect(fit.estimates[2]!.high - fit.estimates[2]!.low).toBeLessThan(0.02);
  }
  // 18 of 20 expected, spread 1.3.
  for (const count of held) expect(count).toBeGreaterThanOrEqual(14);
});

it('a clock is called wrong where the misfit falls to 0.6 of itself, and believed where it falls to 0.8', {
  timeout: 60_000,
}, () => {
  // Half an hour makes a misfit of some 36 mV; noise of the log stays whatever the clock.
  const found = (noise_V: number) =>
    serviceLog(service(EVENING), noisyLog(EVENING_TRUE, 3, 1_800_000, noise_V));
  const clear = found(0.025);
  expect(clear.clockAhead_min).toBe(30);
  const [, from_mV, to_mV] = /falls from (\d+) to (\d+) mV/.exec(clear.notes.join(' '))!;
  expect(Number(to_mV) / Number(from_mV)).toBeCloseTo(0.6, 1);
  expect(found(0.042).clockAhead_min).toBe(0);
});

it('where the LED burns all the short hours it says that leakage and draw cannot be told apart, and asks for a night off', {
  timeout: 60_000,
}, () => {
  const allNight: Schedule = { on: '16:00', hours: 16 };
  const here = service(allNight);
  const fit = serviceLog(here, noisyLog(trueVoltages(here, allNight), 4));
  expect(fit.darkOff_h).toBeLessThan(20);
  expect(fit.estimates.map(({ key }) => key)).toEqual(['leakage_uA', 'light_share']);
  expect(fit.notes.join(' ')).toMatch(/cannot be told apart.*one night/);
});
