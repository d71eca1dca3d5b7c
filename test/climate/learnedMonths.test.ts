import { describe, expect, it } from 'vitest';
import { completeWinters } from '../../sim/climate/LearnedClimate.ts';
import { learnedMonths } from '../../sim/climate/learnedMonths.ts';
import { winterFrame } from '../../sim/climate/madeWinters.ts';
import { clearnessOf, meansClimate } from '../../sim/climate/meansClimate.ts';
import { meansDays } from '../../sim/climate/meansWinter.ts';
import { recordedDays } from '../../sim/climate/RecordedDays.ts';
import { climateSchema } from '../../sim/climate/schema.ts';
import { readDocument } from '../../sim/common/document.ts';
import { climateYaml } from '../../sim/output/climateYaml.ts';
import { heldOutWinters } from '../../sim/trial/heldOutWinters.ts';
import { recordOfWinters, THAMES, THAMES_CLIMATE } from './monthsOnly.ts';

const WINTERS = 12;
const frame = winterFrame(THAMES);
const truth = meansClimate(THAMES_CLIMATE, frame, 'bendt');
// Whole days of a civil calendar with leap days slide under the sun by three days: less than a month can tell.
const days = recordedDays(recordOfWinters(truth, frame, WINTERS), THAMES);
const winters = completeWinters(days);
const learned = learnedMonths(days, winters, 'a made record');

describe('the months learned from a record of twelve made winters', () => {
  it('are those that it was made of', () => {
    expect(winters.length).toBeGreaterThanOrEqual(WINTERS - 1);
    expect(learned.learned_winters).toBe(winters.length);
    THAMES_CLIMATE.air_degC!.forEach((stated, month) => {
      expect(Math.abs(learned.air_degC![month]! - stated)).toBeLessThan(1.3);
      expect(Math.abs(learned.air_range_K![month]! / THAMES_CLIMATE.air_range_K![month]! - 1)).toBeLessThan(
        0.15,
      );
      expect(Math.abs(learned.snow_days![month]! - THAMES_CLIMATE.snow_days![month]!)).toBeLessThan(3);
    });
    expect(learned.snow_days![6]).toBe(0);
    const { daily, lasting, winter } = learned.persistence;
    // Lag one: .42 * .56 + .01 = .245; from some 4000 days known to .03.
    expect(Math.abs(daily * lasting + winter - 0.245)).toBeLessThan(0.06);
  });

  it('give winters with the light of the record, month by month within 2 percent', () => {
    const climate = meansClimate(learned, frame);
    expect(climate.spread).toBe('learned');
    const onFile = monthMeans(Array.from(days.clearness), (d) =>
      new Date(days.record.start_ms + (days.hour[d]! + 12) * 3.6e6).getUTCMonth(),
    );
    const made = Array.from({ length: 200 }, (_, i) => Array.from(meansDays(climate, 1, i).clearness)).flat();
    const madeMeans = monthMeans(made, (d) => climate.months.monthOfDay[d % 365]!);
    // 200 winters leave about 1 percent of drawing.
    madeMeans.forEach((mean, month) => {
      expect(Math.abs(mean / onFile[month]! - 1)).toBeLessThan(0.03);
    });
    expect(clearnessOf(learned, climate.months).every((mean) => mean === undefined)).toBe(true);
  });

  it('are read from their YAML as they were written', () => {
    const text = climateYaml(learned, 'climate.yaml');
    const { value } = readDocument({ name: 'climate.yaml', bytes: new TextEncoder().encode(text) });
    expect(climateSchema.parse(value)).toEqual(learned);
    expect(text.split('\n').length).toBeLessThan(30);
    expect(text).toContain('] # December');
  });

  it('are those of the nearest where a month has no days on file, and none where its days had no sun', () => {
    const inJune = (d: number) => days.season[d]! > 150 && days.season[d]! < 182;
    const dark = {
      ...days,
      clearness: days.clearness.map((k, d) => (inJune(d) ? Number.NaN : k)),
      sunless: days.sunless.map((_, d) => Number(inJune(d))),
    };
    expect(learnedMonths(dark, winters, '').clearness_shares!.months[5]).toBeNull();
    const kept = Array.from(days.hour.keys()).filter((d) => !inJune(d));
    const absent = {
      ...days,
      count: kept.length,
      hour: Uint32Array.from(kept, (d) => days.hour[d]!),
      season: Uint16Array.from(kept, (d) => days.season[d]!),
      winter: Uint16Array.from(kept, (d) => days.winter[d]!),
      clearness: Float64Array.from(kept, (d) => days.clearness[d]!),
    };
    const section = learnedMonths(absent, winters, '');
    expect(section.clearness_shares!.months[5]).toEqual(section.clearness_shares!.months[6]);
    expect(section.air_degC![5]).toBe(section.air_degC![6]);
  });

  it('foretell winters held out about as often as nine times of ten', () => {
    const { figures, splits } = heldOutWinters(days, winters, THAMES, 1);
    expect(splits).toBe(8);
    for (const { held, tried, recorded, made } of figures) {
      expect(tried).toBe(8 * Math.ceil(winters.length / 2));
      expect(held).toBeGreaterThan(0.75);
      expect(held).toBeLessThan(1);
      expect(Math.abs(made.mean / recorded.mean - 1)).toBeLessThan(0.1);
      expect(made.low).toBeLessThan(made.mean);
      expect(made.high).toBeGreaterThan(made.mean);
    }
    const [mean, least] = figures;
    expect(least!.recorded.mean).toBeLessThan(0.8 * mean!.recorded.mean);
  });

  it('do not foretell the winters of a place half as bright', () => {
    // Each second winter dimmed: what half of them says does not hold for the others.
    const ghi = days.record.ghi_W_m2.map((value, h) => (Math.floor(h / 8760) < 6 ? 0.5 * value : value));
    const shaded = recordedDays({ ...days.record, ghi_W_m2: ghi }, THAMES);
    const { figures } = heldOutWinters(shaded, completeWinters(shaded), THAMES, 1);
    expect(figures[0]!.held).toBeLessThan(0.65);
  });
});

function monthMeans(values: readonly number[], monthOf: (index: number) => number): number[] {
  const sums = new Array<number>(12).fill(0);
  const counts = new Array<number>(12).fill(0);
  values.forEach((value, i) => {
    if (Number.isNaN(value)) return;
    sums[monthOf(i)]! += value;
    counts[monthOf(i)]!++;
  });
  return sums.map((sum, month) => sum / counts[month]!);
}
