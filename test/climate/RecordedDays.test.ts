import { describe, expect, it } from 'vitest';
import { completeWinters, learnClimate } from '../../sim/climate/LearnedClimate.ts';
import { learnedMonths } from '../../sim/climate/learnedMonths.ts';
import { blockWinter, drawnWinter, weatherOfDays, winterFrame } from '../../sim/climate/madeWinters.ts';
import { outside_W_m2, recordedDays } from '../../sim/climate/RecordedDays.ts';
import { climateSchema } from '../../sim/climate/schema.ts';
import { HOUR_MS } from '../../sim/common/time.ts';
import { sunColumns } from '../../sim/sun/sunColumns.ts';
import { heldOutWinters } from '../../sim/trial/heldOutWinters.ts';
import type { WeatherRecord } from '../../sim/weather/WeatherRecord.ts';

/** Six years, not checked against the sun, whose days are dull and clear in turn; some of them filled. */
function recordAt(latitude_deg: number, filled: (month: number) => boolean = () => false): WeatherRecord {
  const start_ms = Date.UTC(2010, latitude_deg < 0 ? 0 : 6, 1);
  const count = 6 * 8766;
  const sun = sunColumns(start_ms, count, placeAt(latitude_deg));
  const clearness = (i: number) => 0.15 + 0.1 * ((Math.floor(i / 24) * 7) % 5);
  return {
    start_ms,
    step_s: 3600,
    count,
    ghi_W_m2: Float64Array.from({ length: count }, (_, i) => clearness(i) * outside_W_m2(sun, i)),
    air_degC: new Float64Array(count).fill(3),
    mark: Uint8Array.from({ length: count }, (_, i) =>
      filled(new Date(start_ms + i * HOUR_MS).getUTCMonth() + 1) ? 3 : 0,
    ),
    origin: { file: 'made.csv', sha256: '', options: {}, filledHours: 0 },
  };
}

const placeAt = (latitude_deg: number) => ({ latitude_deg, longitude_deg: 20, elevation_m: 10 });

describe('a record of the south', () => {
  const place = placeAt(-45);

  it('has its winters in the middle of the year', () => {
    const days = recordedDays(recordAt(-45), place);
    expect(completeWinters(days)).toHaveLength(6);
    const hole = (months: number[]) =>
      completeWinters(
        recordedDays(
          recordAt(-45, (month) => months.includes(month)),
          place,
        ),
      );
    expect(hole([12, 1])).toHaveLength(6);
    expect(hole([6, 7])).toHaveLength(0);
  });

  it('is held against made winters of the same months', () => {
    const days = recordedDays(recordAt(-45), place);
    const [mean] = heldOutWinters(days, completeWinters(days), place, 1).figures;
    expect(Math.abs(mean!.made.mean / mean!.recorded.mean - 1)).toBeLessThan(0.1);
  });
});

describe('a record of a place whose sun stays down for weeks', () => {
  const place = placeAt(70);
  const days = recordedDays(recordAt(70), place);

  it('has whole winters: of a day without sun there is no more to know', () => {
    expect(days.sunless.reduce((sum, each) => sum + each, 0)).toBeGreaterThan(5 * 60);
    expect(completeWinters(days)).toHaveLength(6);
  });

  it('has no light to speak of in December, and makes winters that have none then', () => {
    const section = learnedMonths(days, completeWinters(days), '');
    expect(section.clearness_shares!.months[11]).toBeNull();
    expect(climateSchema.safeParse(section).success).toBe(true);
    const climate = learnClimate(days);
    const frame = winterFrame(place);
    for (const make of [drawnWinter, blockWinter]) {
      const { ghi_W_m2, air_degC } = weatherOfDays(make(climate, frame, 1, 0), climate, frame);
      expect(ghi_W_m2.every((value, i) => value >= 0 && (value === 0 || frame.outside_W_m2[i]! > 0))).toBe(
        true,
      );
      expect(ghi_W_m2.some((value) => value > 300)).toBe(true);
      expect(air_degC.every((value) => value === 3)).toBe(true);
    }
  });

  it('foretells its winters, few as the days with sun may be', () => {
    const { figures } = heldOutWinters(days, completeWinters(days), place, 1);
    expect(figures.flatMap(({ made }) => [made.mean, made.low]).every(Number.isFinite)).toBe(true);
  });
});
