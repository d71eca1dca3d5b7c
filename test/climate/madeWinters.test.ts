import { max, mean } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { INVENTED_PLACE } from '../../data-samples/make/inventedYear.ts';
import { completeWinters, learnClimate } from '../../sim/climate/LearnedClimate.ts';
import { blockWinter, drawnWinter, weatherOfDays, winterFrame } from '../../sim/climate/madeWinters.ts';
import { drawBrightness, persistenceOf } from '../../sim/climate/persistence.ts';
import { DAY_H, recordedDays, solarMidnight_h } from '../../sim/climate/RecordedDays.ts';
import { inventedRecord } from './inventedRecord.ts';
import { kolmogorovSmirnov, likenessOf, madeWinters, recordedWinters } from './likeRecord.ts';

const record = inventedRecord(8);
const days = recordedDays(record, INVENTED_PLACE);
const climate = learnClimate(days);
const frame = winterFrame(INVENTED_PLACE);

describe('the days of a record', () => {
  it('begin at solar midnight, to the hour', () => {
    expect(solarMidnight_h(0)).toBe(0);
    expect(solarMidnight_h(10)).toBe(-1);
    expect(solarMidnight_h(-120)).toBe(8);
    expect(solarMidnight_h(7.4)).toBe(0);
    expect(new Date(record.start_ms + days.hour[0]! * 3_600_000).getUTCHours()).toBe(23);
  });

  it('have the clearness of their light over that outside the air', () => {
    const light = record.ghi_W_m2.slice(days.hour[100]!, days.hour[100]! + DAY_H);
    const winter = recordedDays(
      { ...record, ghi_W_m2: record.ghi_W_m2.map((value) => value / 2) },
      INVENTED_PLACE,
    );
    expect(mean(light)!).toBeGreaterThan(0);
    expect(winter.clearness[100]).toBeCloseTo(days.clearness[100]! / 2, 12);
    expect(max(days.clearness)!).toBeLessThan(0.85);
  });

  it('belong to winters that are learned from where their dark half is there', () => {
    expect(days.winters.slice(0, 2)).toEqual(['2010/11', '2011/12']);
    expect(completeWinters(days).length).toBe(8);
    // Two months in the middle of a winter that somebody filled.
    const filled = { ...record, mark: record.mark.map((mark, i) => (i > 3600 && i < 5000 ? 3 : mark)) };
    expect(completeWinters(recordedDays(filled, INVENTED_PLACE))).not.toContain(0);
  });
});

describe('winters that have not happened', () => {
  it('are the same for the same seed and index, and others for others', () => {
    const one = weatherOfDays(drawnWinter(climate, frame, 1, 3), climate, frame);
    const again = weatherOfDays(drawnWinter(climate, frame, 1, 3), climate, frame);
    const other = weatherOfDays(drawnWinter(climate, frame, 1, 4), climate, frame);
    expect(one.ghi_W_m2).toEqual(again.ghi_W_m2);
    expect(one.ghi_W_m2).not.toEqual(other.ghi_W_m2);
  });

  it('bring each day to its clearness, but for what the clearest sky holds back', () => {
    const plan = drawnWinter(climate, frame, 1, 0);
    const { ghi_W_m2 } = weatherOfDays(plan, climate, frame);
    let off = 0;
    for (let d = 0; d < 365; d++) {
      const sum = (column: Float64Array) =>
        column.slice(d * DAY_H, (d + 1) * DAY_H).reduce((a, b) => a + b, 0);
      const reached = sum(ghi_W_m2) / sum(frame.outside_W_m2);
      expect(reached).toBeLessThan(plan.clearness[d]! + 1e-6);
      if (reached < plan.clearness[d]! - 0.005) off++;
    }
    expect(off).toBeLessThan(8);
  });

  it('never have an hour far above the clearest sky, nor light without sun', () => {
    for (const make of [drawnWinter, blockWinter]) {
      const { ghi_W_m2 } = weatherOfDays(make(climate, frame, 1, 7), climate, frame);
      ghi_W_m2.forEach((value, i) => {
        expect(value).toBeGreaterThanOrEqual(0);
        expect(value).toBeLessThanOrEqual(1.1 * frame.clearest_W_m2[i]! + 1e-9);
      });
    }
  });

  it('take in place of days that nobody knows others of the season, not its dullest', () => {
    const meanOf = (some: typeof climate, from: number, to: number) =>
      mean(
        Array.from({ length: 100 }, (_, index) => blockWinter(some, frame, 1, index).day).flatMap((day) =>
          Array.from(day.slice(from, to), (d) => days.clearness[d]!),
        ),
      )!;
    // 5 to 12 January of every winter, as when a sensor is serviced.
    const unknown = days.season.map((season) => Number(season >= 4 && season < 12));
    const holed = { ...days, clearness: days.clearness.map((k, d) => (unknown[d] ? Number.NaN : k)) };
    const [from, to] = [frame.season.indexOf(4), frame.season.indexOf(12)];
    expect(meanOf(learnClimate(holed), from, to) / meanOf(climate, from, to)).toBeGreaterThan(0.9);
  });

  it('have air without a jump at midnight', () => {
    const { air_degC } = weatherOfDays(drawnWinter(climate, frame, 1, 2), climate, frame);
    const steps = Array.from(air_degC.slice(1), (value, i) => ({
      at: (i + 1) % DAY_H,
      size: Math.abs(value - air_degC[i]!),
    }));
    const seams = mean(steps.filter(({ at }) => at === 0).map(({ size }) => size))!;
    expect(seams).toBeLessThan(1e-9);
    expect(max(steps, ({ size }) => size)!).toBeLessThan(6);
  });

  it('have the snow of one recorded winter, on the same dates', () => {
    // Each winter has a depth of its own, in millimetres its number.
    const snowDepth_m = record.ghi_W_m2.map(
      (_, i) => days.winter[Math.max(0, Math.floor((i - 23) / DAY_H))]! / 1000,
    );
    const snowy = recordedDays({ ...record, snowDepth_m }, INVENTED_PLACE);
    const learned = learnClimate(snowy);
    const depths = Array.from({ length: 12 }, (_, index) => {
      const { snowDepth_m: depth } = weatherOfDays(drawnWinter(learned, frame, 1, index), learned, frame);
      // The record begins with an hour that belongs to no day.
      return new Set([...depth!.slice(48, -48)].map((value) => Math.round(value * 1000)));
    });
    for (const depth of depths) expect(depth.size).toBe(1);
    expect(new Set(depths.map((depth) => [...depth][0])).size).toBeGreaterThan(3);
  });

  it('in the south begin with January', () => {
    const south = winterFrame({ latitude_deg: -42, longitude_deg: 147, elevation_m: 50 });
    expect(new Date(south.sun.start_ms).toISOString()).toBe('2000-12-31T14:00:00.000Z');
    expect(south.season[0]).toBe(0);
  });

  // The bounds are those the tool promises of 200 made years; a record of its own winters is not known better.
  it('are like the winters learned from', () => {
    const [real, made] = [likenessOf(recordedWinters(days)), likenessOf(madeWinters(climate, frame, 60))];
    for (const [k, value] of made.autocorrelation.entries())
      expect(Math.abs(value - real.autocorrelation[k]!)).toBeLessThan(0.07);
    expect(Math.abs(made.coreMean / real.coreMean - 1)).toBeLessThan(0.05);
    expect(Math.abs(made.leastTenDays / real.leastTenDays - 1)).toBeLessThan(0.1);
    for (const [k, month] of made.byMonth.entries())
      expect(kolmogorovSmirnov(month, real.byMonth[k]!)).toBeLessThan(0.08);
  });
});

describe('how days hang together', () => {
  it('is drawn as it is stated: variance 1, the lasting part and what a winter shares', () => {
    const persistence = { daily: 0.56, lasting: 0.42, winter: 0.05 };
    const winters = Array.from({ length: 400 }, (_, k) => drawBrightness(persistence, 365, 1, k));
    const over = (of: (days: Float64Array) => number) => mean(winters.map(of))!;
    const product = (lag: number) => over((z) => mean(z.slice(lag).map((value, d) => value * z[d]!))!);
    expect(product(0)).toBeCloseTo(1, 1);
    expect(product(1)).toBeCloseTo(0.42 * 0.56 + 0.05, 1.5);
    expect(product(3)).toBeCloseTo(0.42 * 0.56 ** 3 + 0.05, 1.5);
    expect(product(20)).toBeCloseTo(0.05, 1.5);
  });

  it('is learned as often from a winter as it was drawn', () => {
    const lasts = drawBrightness({ daily: 0.9, lasting: 1, winter: 0 }, days.count, 1, 0);
    const fresh = drawBrightness({ daily: 0, lasting: 0, winter: 0 }, days.count, 1, 1);
    const brightness = lasts.map((value, d) => (days.winter[d] === 0 ? value : fresh[d]!));
    const lagOne = (winters: number[]) => {
      const { daily, lasting } = persistenceOf(days, winters, brightness);
      return daily * lasting;
    };
    expect(lagOne([0, 0, 0, 0, 1])).toBeGreaterThan(lagOne([0, 1, 1, 1, 1]) + 0.3);
  });

  it('is learned back from many winters', () => {
    expect(
      climate.persistence.daily * climate.persistence.lasting + climate.persistence.winter,
    ).toBeGreaterThan(0.15);
    expect(climate.persistence.daily * climate.persistence.lasting + climate.persistence.winter).toBeLessThan(
      0.4,
    );
  });
});
