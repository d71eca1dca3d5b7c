import { describe, expect, it } from 'vitest';
import type { PromiseSection, ScheduleSection } from '../../sim/lamp/schedule/schema.ts';
import { soundNights } from '../../sim/trial/runTrial.ts';
import { DEMO, demoLight } from '../year/demoStretch.ts';

const EVENING: ScheduleSection = { on: 'dusk', hours: 6, on_share: 1, dim: [] };
const MOTION = { triggers_per_h: 6, shines_s: 60 };

/** The demo's lamp of one capacitor on the lawn by another schedule. */
function nightsOf(schedule: Partial<ScheduleSection>, promise: Partial<PromiseSection> = {}, seed = 1) {
  const { site, start, lamps } = DEMO;
  const lamp = { ...lamps[0]!.settled, schedule: { ...EVENING, ...schedule } };
  const terms = {
    spot: 'lawn',
    lamp: 'single',
    site,
    start,
    seed,
    promise: { ...DEMO.promise, least_lumen: 1.2, ...promise },
  };
  const { nights, statistics } = soundNights(lamp, demoLight('lawn'), terms)!;
  return { ...statistics.winters[0]!, rows: nights };
}

describe('a promise of 1.2 lm, by a lamp that is on for 15 percent of the time', () => {
  it('is kept every night in flashes, whose light while on counts', () => {
    const { failedNights, smallestReserve_J, lightGiven_lm_h } = nightsOf({ on_share: 0.15 });
    expect(failedNights).toBe(0);
    expect(smallestReserve_J).toBeGreaterThan(250);
    expect(lightGiven_lm_h).toBeGreaterThan(1000);
  });

  it('fails by fast pulses, of which the eye sees the mean: dim, with as much left', () => {
    const dimmed = nightsOf({ dim: [{ after_h: 0, light_share: 0.15 }] });
    expect(dimmed.failedNights).toBeGreaterThan(250);
    expect(dimmed.failedOut).toBe(0);
    expect(dimmed.smallestReserve_J).toBeGreaterThan(250);
    expect(dimmed.causes).toEqual({ 'too-dim': dimmed.failedNights });
  });

  it('gives as much light either way, but for the standby between flashes', () => {
    const flashes = nightsOf({ on_share: 0.15 });
    const pulses = nightsOf({ dim: [{ after_h: 0, light_share: 0.15 }] });
    expect(flashes.lightGiven_lm_h / pulses.lightGiven_lm_h).toBeCloseTo(1, 2);
  });

  it('fails in flashes too where they are too dim', () => {
    const { failedNights, failedOut } = nightsOf({ on_share: 0.15 }, { least_lumen: 40 });
    expect(failedNights).toBe(365);
    expect(failedOut).toBe(0);
  });
});

describe('a promise by a lamp that waits for motion', () => {
  it('is kept while it would shine if it came, in hours without any too', () => {
    const { failedNights, rows, lightGiven_lm_h } = nightsOf({
      motion: { triggers_per_h: 0.1, shines_s: 20 },
    });
    expect(failedNights).toBe(0);
    expect(lightGiven_lm_h).toBeGreaterThan(0);
    // Nine hours in ten have no trigger: many a night has none at all.
    expect(rows.filter((night) => night.lightGiven_lm_h === 0).length).toBeGreaterThan(100);
    for (const { lit_h, promised_h } of rows) expect(lit_h).toBe(promised_h);
  });

  it('is broken by dim nights where it would be too dim, by nights out where the capacitor is empty', () => {
    const dim = nightsOf({ motion: MOTION }, { least_lumen: 40 });
    expect([dim.failedNights, dim.failedOut]).toEqual([365, 0]);
    const busy = { triggers_per_h: 60, shines_s: 120 };
    const out = nightsOf(
      { until: 'dawn', hours: undefined, motion: busy } as never,
      {
        least_lumen: 0.1,
        until: 'dawn',
        hours: undefined,
      } as never,
    );
    expect(out.failedOut).toBeGreaterThan(10);
    expect(Object.keys(out.causes)).toContain('ran-empty');
    // Fewer triggers last the whole night.
    const calm = nightsOf(
      { until: 'dawn', hours: undefined, motion: MOTION } as never,
      {
        least_lumen: 0.1,
        until: 'dawn',
        hours: undefined,
      } as never,
    );
    expect(calm.failedNights).toBe(0);
  });

  it('gives light by the seed, the same for the same', () => {
    const given = (seed: number) => nightsOf({ motion: MOTION }, {}, seed).rows.map((n) => n.lightGiven_lm_h);
    expect(given(3)).toEqual(given(3));
    expect(given(3)).not.toEqual(given(4));
  });
});
