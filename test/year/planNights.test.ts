import { describe, expect, it } from 'vitest';
import type { PromiseSection, ScheduleSection } from '../../sim/lamp/schedule/schema.ts';
import { nightCalendar } from '../../sim/sun/NightCalendar.ts';
import { PLAN } from '../../sim/year/NightPlan.ts';
import { keptPlan, planNights } from '../../sim/year/planNights.ts';
import { dummyLight } from './dummyLight.ts';
import { plansRunForward } from './plansRunForward.ts';

const BERLIN = {
  latitude_deg: 54,
  longitude_deg: 10,
  elevation_m: 0,
  timeZone: 'Europe/Berlin',
  albedo: 0.2,
};
const SCHEDULE: ScheduleSection = { on: 'dusk', hours: 6, on_share: 1, dim: [] };
const PROMISE: PromiseSection = { from: 'dusk', hours: 6, least_lumen: 1, tolerance_h: 0.25 };

/** Instants of a kind in the plan of a stretch of hours, as ISO in UTC with their value. */
function instants(
  what: number,
  start: string,
  hours: number,
  schedule: Partial<ScheduleSection>,
  promise: Partial<PromiseSection> = {},
  timeZone = 'Europe/Berlin',
): [string, number][] {
  const light = dummyLight(start, new Float64Array(hours));
  const start_ms = Date.parse(start);
  const { plan } = planNights(
    { start_ms, count: hours, nights: light.nights, timeZone, joined: false },
    { ...SCHEDULE, ...schedule },
    { ...PROMISE, ...promise },
  );
  const found: [string, number][] = [];
  for (let i = 0; i < plan.count; i++) {
    if (plan.what[i] === what)
      found.push([new Date(start_ms + plan.at_s[i]! * 1000).toISOString().slice(0, 16), plan.value[i]!]);
  }
  return found;
}

describe('clock times of a schedule', () => {
  it('stand an hour earlier in UTC once summer time has begun', () => {
    // Summer time begins in Berlin on 29 March 2026 at 01:00 UTC.
    const on = { on: '20:00', until: '23:00' };
    const found = instants(PLAN.share, '2026-03-27T12:00:00Z', 72, { ...on, hours: undefined } as never);
    expect(found).toEqual([
      ['2026-03-27T19:00', 1],
      ['2026-03-27T22:00', 0],
      ['2026-03-28T19:00', 1],
      ['2026-03-28T22:00', 0],
      ['2026-03-29T18:00', 1],
      ['2026-03-29T21:00', 0],
    ]);
  });

  it('give an hour less light over the night in which summer time begins, and one more where it ends', () => {
    const window = { on: '23:00', until: '05:00', hours: undefined } as never;
    expect(instants(PLAN.share, '2026-03-28T12:00:00Z', 24, window)).toEqual([
      ['2026-03-28T22:00', 1],
      ['2026-03-29T03:00', 0],
    ]);
    expect(instants(PLAN.share, '2026-10-24T12:00:00Z', 24, window)).toEqual([
      ['2026-10-24T21:00', 1],
      ['2026-10-25T04:00', 0],
    ]);
  });

  it('read a morning time by the morning it falls into, even where the evening before had no such hour', () => {
    // 02:30 does not exist on 29 March; on 30 March it is 00:30 UTC.
    const found = instants(PLAN.share, '2026-03-29T12:00:00Z', 24, {
      on: '22:00',
      until: '02:30',
      hours: undefined,
    } as never);
    expect(found).toEqual([
      ['2026-03-29T20:00', 1],
      ['2026-03-30T00:30', 0],
    ]);
  });

  it('that come before the noon of their night begin with it', () => {
    // 12:30 in Berlin is 11:30 UTC, half an hour before this calendar's noon.
    const found = instants(PLAN.share, '2026-01-10T00:00:00Z', 48, { on: '12:30', hours: 4 });
    expect(found.filter(([, value]) => value === 1).map(([at]) => at.slice(11))).toEqual([
      '00:00',
      '12:00',
      '12:00',
    ]);
  });
});

describe('every plan', () => {
  it('runs forward in time, whatever the zone, season and schedule', () => {
    // Midwinter, midsummer, and where the zones' clocks are put forward and back; every day in the slow test.
    const few: readonly (readonly [string, number])[] = [
      ['2025-01-01', 3],
      ['2025-03-08', 2],
      ['2025-03-29', 2],
      ['2025-04-05', 2],
      ['2025-06-20', 2],
      ['2025-09-27', 2],
      ['2025-10-25', 2],
      ['2025-11-01', 2],
    ];
    for (const [day, days] of few) plansRunForward(Date.parse(day), days);
  });

  it('holds as many nights as a joined year has days, beginning at its first noon', () => {
    for (const [year, days] of [
      [2025, 365],
      [2024, 366],
    ] as const) {
      const start_ms = Date.UTC(year, 0, 1);
      const nights = nightCalendar(start_ms, days * 24, BERLIN);
      const { plan, firstNight } = planNights(
        { start_ms, count: days * 24, nights, timeZone: 'Europe/Berlin', joined: true },
        SCHEDULE,
        PROMISE,
      );
      expect(plan.nights).toBe(days);
      expect(nights.eveningDate[firstNight]).toBe(`${year}-01-01`);
      expect(plan.to_s - plan.from_s).toBe(days * 86_400);
    }
  });
});

describe('the plan of flashes, dim steps and motion', () => {
  const changes = (schedule: Partial<ScheduleSection>, seed?: number) => {
    const light = dummyLight('2026-01-10T12:30:00Z', new Float64Array(24));
    const { plan } = planNights(
      { start_ms: light.start_ms, count: 24, nights: light.nights, timeZone: 'UTC', joined: false, seed },
      { ...SCHEDULE, ...schedule },
      PROMISE,
    );
    return Array.from(plan.what, (what, i) => [what, plan.at_s[i]! / 3600, plan.value[i]!, plan.glow[i]!])
      .filter(([what, at]) => what === PLAN.share && at! < 24)
      .map(([, ...rest]) => rest);
  };

  it('has the share of the time and that of the light apart', () => {
    const dim = [
      { after_h: 4, light_share: 0 },
      { after_h: 1, light_share: 0.5 },
    ];
    expect(changes({ on_share: 0.2, dim })).toEqual([
      [5.5, 0.2, 1],
      [6.5, 0.2, 0.5],
      [9.5, 0.2, 0],
      [11.5, 0, 0],
    ]);
    expect(changes({ dim: [{ after_h: 0, light_share: 0.3 }] })).toEqual([
      [5.5, 1, 0.3],
      [11.5, 0, 0],
    ]);
  });

  it('draws motion anew with every hour of the record, by the seed, and glows in hours without any', () => {
    const motion = { triggers_per_h: 1, shines_s: 120 };
    const found = changes({ motion, dim: [{ after_h: 2.25, light_share: 0.5 }] }, 5);
    expect(found.map(([at]) => at)).toEqual([5.5, 6, 7, 7.75, 8, 9, 10, 11, 11.5]);
    expect(found.map(([, , glow]) => glow)).toEqual([1, 1, 1, 0.5, 0.5, 0.5, 0.5, 0.5, 0]);
    const duty = found.map(([, value]) => value!);
    // Within one hour it is the same.
    expect(duty[3]).toBe(duty[2]);
    for (const share of duty) {
      const triggers = Math.log(1 - share) / Math.log(1 - 120 / 3600);
      expect(triggers).toBeCloseTo(Math.round(triggers), 9);
    }
    expect(new Set(duty).size).toBeGreaterThan(2);
    expect(changes({ motion }, 6).map(([, value]) => value)).not.toEqual(
      changes({ motion }, 5).map(([, value]) => value),
    );
  });
});

describe('a kept plan', () => {
  const light = dummyLight('2026-01-10T12:00:00Z', new Float64Array(72), 5);
  const { start_ms, count, nights } = light;
  const stretch = { start_ms, count, nights, timeZone: 'UTC', joined: false };

  it('is that of equal terms, and no other', () => {
    const kept = keptPlan(stretch, SCHEDULE, PROMISE);
    expect(keptPlan({ ...stretch }, { ...SCHEDULE }, { ...PROMISE })).toBe(kept);
    expect(kept).toEqual(planNights(stretch, SCHEDULE, PROMISE));
    const longer = { ...PROMISE, hours: 5 };
    expect(keptPlan(stretch, SCHEDULE, longer)).toEqual(planNights(stretch, SCHEDULE, longer));
    const part = { ...stretch, part: { first: 0, end: 1 } };
    expect(keptPlan(part, SCHEDULE, PROMISE).plan.nights).toBe(1);
    expect(keptPlan(stretch, SCHEDULE, PROMISE)).toBe(kept);
  });

  it('is none where the lamp senses the dark, which hangs on the light', () => {
    const dark = [{ from_s: 5 * 3600, to_s: 12 * 3600 }];
    const sensing: ScheduleSection = { ...SCHEDULE, on: 'dark' };
    const planned = keptPlan({ ...stretch, dark }, sensing, PROMISE);
    expect(keptPlan({ ...stretch, dark }, sensing, PROMISE)).not.toBe(planned);
  });
});

describe('the promise', () => {
  const promised = (start: string, promise: Partial<PromiseSection>) =>
    instants(PLAN.promise, start, 24, {}, promise).map(([at]) => at.slice(11));

  it('lasts from dusk for its hours, until dawn, or until a clock time', () => {
    const start = '2026-01-10T12:00:00Z';
    expect(promised(start, {})).toEqual(['18:00', '00:00']);
    expect(promised(start, { hours: undefined, until: 'dawn' } as never)).toEqual(['18:00', '06:00']);
    expect(promised(start, { hours: undefined, until: '23:00' } as never)).toEqual(['18:00', '22:00']);
    expect(promised(start, { from: '19:30', hours: 2 })).toEqual(['18:30', '20:30']);
  });

  it('is empty where it would end before it begins', () => {
    expect(promised('2026-01-10T12:00:00Z', { hours: undefined, until: '17:00' } as never)).toEqual([]);
  });
});
