import { describe, expect, it } from 'vitest';
import { sinceLastBreak } from '../../sim/climate/recordBreak.ts';
import { HOUR_MS } from '../../sim/common/time.ts';
import { WEATHER_MARKS } from '../../sim/weather/WeatherRecord.ts';
import { longRecord, NORTH, type Shade, winterStart_ms } from './longRecords.ts';

const breakOf = (...given: Parameters<typeof longRecord>) => sinceLastBreak(longRecord(...given), NORTH);
/** So much of the light is left in some months of some winters. */
const leaving =
  (share: number, months: readonly number[], shaded: (winter: number) => boolean): Shade =>
  (clearness, winter, month) =>
    shaded(winter) && months.includes(month) ? share * clearness : clearness;
const EVERY_MONTH = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];

describe('a break in a record', () => {
  it('is found where December alone was shaded in the first three of twelve winters, and the rest counts', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const { record, last, breaks, from_ms } = breakOf(12, seed, {
        shade: leaving(0.5, [12], (winter) => winter < 3),
      });
      expect([breaks, last?.winter, last?.month, last?.dullerAfter]).toEqual([1, 3, 12, false]);
      expect(last!.before).toHaveLength(3);
      expect(last!.after).toHaveLength(9);
      expect(Math.max(...last!.before)).toBeLessThan(Math.min(...last!.after));
      // Days begin at midnight by the sun, within an hour of that of the clock here.
      expect(Math.abs(from_ms - winterStart_ms(3))).toBeLessThanOrEqual(HOUR_MS);
      expect(record.start_ms).toBe(from_ms);
      expect(record.ghi_W_m2).toHaveLength(record.count);
      expect(record.sun!.upShare).toHaveLength(record.count);
      expect(record.sun!.declination_deg).toHaveLength(record.count + 1);
    }
  });

  it('is found where all light is a quarter less from the ninth winter on, and named as the duller side', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const { last } = breakOf(12, seed, { shade: leaving(0.75, EVERY_MONTH, (winter) => winter >= 8) });
      expect([last?.winter, last?.dullerAfter]).toEqual([8, true]);
    }
  });

  it('is none where a tenth less light is all, in all months or in December', () => {
    for (const seed of [1, 2, 3, 4, 5, 6, 7, 8, 9, 10])
      for (const months of [EVERY_MONTH, [12]])
        expect(
          breakOf(12, seed, { shade: leaving(0.91, months, (winter) => winter < 5) }).last,
        ).toBeUndefined();
  });

  it('is none with fewer than three winters on a side, and none is looked for in short records', () => {
    const shade = leaving(0.5, EVERY_MONTH, (winter) => winter < 2);
    for (const seed of [1, 2, 3]) expect(breakOf(12, seed, { shade }).last).toBeUndefined();
    expect(breakOf(4, 1, { shade }).last).toBeUndefined();
  });

  it('is the last of several, and filled hours are counted anew', () => {
    const record = longRecord(12, 1, {
      shade: (clearness, winter) => (winter < 4 ? 0.4 : winter < 8 ? 0.65 : 1) * clearness,
    });
    record.mark.fill(WEATHER_MARKS.indexOf('filled'), 0, 30);
    record.mark.fill(WEATHER_MARKS.indexOf('filled'), record.count - 7);
    const found = sinceLastBreak({ ...record, origin: { ...record.origin, filledHours: 37 } }, NORTH);
    expect([found.last?.winter, found.record.origin.filledHours]).toEqual([8, 7]);
  });

  it('leaves a record without one as it is', () => {
    const record = longRecord(12, 1);
    expect(sinceLastBreak(record, NORTH)).toEqual({
      record,
      last: undefined,
      breaks: 0,
      from_ms: record.start_ms,
    });
  });
});
