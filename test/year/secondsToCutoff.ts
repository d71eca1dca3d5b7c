import type { LampParams } from '../../sim/lamp/params.ts';
import { simulateYear } from '../../sim/year/simulateYear.ts';
import { dummyLight } from './dummyLight.ts';

/** A day without light from noon to noon, almost all of it night. */
const DARK = dummyLight('2026-01-10T12:00:00Z', new Float64Array(24), 25, { dusk_h: 0.25, dawn_h: 24 });

/** Seconds from dusk until the driver of a lamp that is scheduled from dusk to dawn stops at its cut-off. */
export function secondsToCutoff(lamp: LampParams, start_V: number, tolerance_V?: number): number {
  const year = simulateYear(lamp, DARK, {
    timeZone: 'UTC',
    promise: { from: 'dusk', until: 'dawn', least_lumen: 1e-9, tolerance_h: 0.25 },
    start: { capacitor_V: start_V },
    ...(tolerance_V === undefined ? {} : { tolerance_V }),
  });
  if (!(year.nights.shortBy_s[1]![0]! > 0)) throw new Error('the cut-off was not reached');
  return year.nights.firstShort_s[0]! - 900;
}
