import { expect } from 'vitest';
import type { PromiseSection, ScheduleSection } from '../../sim/lamp/schedule/schema.ts';
import { nightCalendar } from '../../sim/sun/NightCalendar.ts';
import { planNights } from '../../sim/year/planNights.ts';

const ZONES = ['Europe/Berlin', 'UTC', 'America/New_York', 'Pacific/Auckland', 'Asia/Kolkata'];
const LATITUDES_DEG = [-40, 0, 54, 66, 80];
const SCHEDULE: ScheduleSection = { on: 'dusk', hours: 6, on_share: 1, dim: [] };
const SCHEDULES: readonly ScheduleSection[] = [
  SCHEDULE,
  { ...SCHEDULE, on: '12:05', hours: 3 },
  { ...SCHEDULE, on: '18:00', hours: 24 },
  { ...SCHEDULE, on: '06:00', hours: 2, before_dawn_h: 12 },
  { ...SCHEDULE, hours: 9, before_dawn_h: 5, dim: [{ after_h: 3, light_share: 0 }] },
  { ...SCHEDULE, hours: 9, before_dawn_h: 5, motion: { triggers_per_h: 4, shines_s: 60 } },
];
const PROMISE: PromiseSection = { from: '12:10', hours: 9, least_lumen: 1, tolerance_h: 0.25 };

/** Fails where a plan of these days goes back in time, in any zone, on any latitude, by any schedule. */
export function plansRunForward(start_ms: number, days: number): void {
  const count = 24 * days;
  for (const timeZone of ZONES) {
    for (const latitude_deg of LATITUDES_DEG) {
      const site = { latitude_deg, longitude_deg: 10, elevation_m: 0, timeZone, albedo: 0.2 };
      const nights = nightCalendar(start_ms, count, site);
      for (const schedule of SCHEDULES) {
        for (const joined of [true, false]) {
          const { plan } = planNights({ start_ms, count, nights, timeZone, joined }, schedule, PROMISE);
          // An assertion an instant would cost a thousand times what it looks at.
          const back = plan.at_s.findIndex((at_s, i) => !(at_s >= (plan.at_s[i - 1] ?? plan.from_s)));
          expect(back).toBe(-1);
          expect(plan.at_s.at(-1)).toBeLessThanOrEqual(plan.to_s);
        }
      }
    }
  }
}
