import { randomStream } from '../../sim/common/random.ts';
import { type DiaryDeparture, diaryNights } from '../../sim/fitting/diaryNights.ts';
import type { Diary } from '../../sim/fitting/readDiary.ts';
import type { Service } from '../../sim/fitting/serviceDays.ts';
import { demoTrial } from '../ageing/demoTrial.ts';

/** The demo's lamp in its spot, shining as long as it can from dusk on. */
export async function nightLongService(spot: string): Promise<Service> {
  const { lamp, light, terms } = await demoTrial(spot, 'single');
  const { site, promise } = terms;
  const { hours: _, ...schedule } = lamp.params.schedule;
  return { lamp: { ...lamp.params, schedule: { ...schedule, until: 'dawn' } }, light, site, promise };
}

/** Some nights of a winter as somebody wrote them down: when a lamp other than the scenario's went out, to 10 minutes. */
export function writtenDiary(service: Service, truth: DiaryDeparture, seed: number, count: number): Diary {
  const random = randomStream(seed, 'an invented diary');
  const { nights, start_ms } = service.light;
  const winter = nights.eveningDate.flatMap((date, k) =>
    nights.noon_ms[k]! > start_ms && /-(10|11|12)-/.test(date) && random.uniform() < count / 92 ? [k] : [],
  );
  const rows = winter.map((k, i) => ({
    line: i + 1,
    seen: 'out' as const,
    written: nights.eveningDate[k]!,
    time_ms: nights.dusk_ms[k]! + 3_600_000,
  }));
  const lit_h = diaryNights(service, { file: 'diary.txt', rows }).lit_h(truth);
  return {
    file: 'diary.txt',
    rows: rows.map((row, i) => {
      const k = winter[i]!;
      const lit_ms = (lit_h[i]! + random.normal() / 6) * 3_600_000;
      const lasts = nights.dusk_ms[k]! + lit_h[i]! * 3_600_000 > nights.dawn_ms[k]!;
      // Of some it was only seen that it was lit, some hours before.
      const onlyLit = lasts || random.uniform() < 0.25;
      const seen_ms = onlyLit ? Math.min(lit_ms, 8 * 3_600_000) * random.uniform() : Math.max(0, lit_ms);
      const time_ms = Math.round((nights.dusk_ms[k]! + seen_ms) / 60_000) * 60_000;
      return { ...row, seen: onlyLit ? ('lit' as const) : ('out' as const), time_ms };
    }),
  };
}
