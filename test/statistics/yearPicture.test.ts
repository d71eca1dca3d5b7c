import { describe, expect, it } from 'vitest';
import { yearPictureText } from '../../sim/output/yearPictureText.ts';
import { yearPicture } from '../../sim/statistics/yearPicture.ts';
import { sunLight } from '../../sim/weather/quality/SunLight.ts';
import { GARDEN, gardenYear, madeRecord, YEAR_2021_MS } from '../weather/quality/madeRecord.ts';

const LIGHT = sunLight(YEAR_2021_MS, 8760, GARDEN);

describe('yearPicture', () => {
  it('puts noon between the middle rows whatever the longitude, and fits in 100 columns', () => {
    for (const longitude_deg of [-170, -75, 10, 140]) {
      const site = { ...GARDEN, longitude_deg };
      const sky = { ...site, seed: 5, start_ms: YEAR_2021_MS, hours: 8760, step_W_m2: 0.1, mean: 0.97 };
      const picture = yearPicture(madeRecord(sky), sunLight(YEAR_2021_MS, 8760, site)).find(
        ({ year }) => year === 2021,
      )!;
      const rows = picture.ghi_W_m2.map((cells) => cells.reduce<number>((sum, cell) => sum + (cell ?? 0), 0));
      const middle = rows.length / 2;
      // 8 percent: cloud, and hours cut at an odd minute of the sun's time.
      expect(Math.abs(rows[middle]! / rows[middle - 1]! - 1)).toBeLessThan(0.08);
      expect(rows[middle]).toBeGreaterThan(rows[middle + 1]! * 1.1);
      for (const line of yearPictureText(picture)) expect(line.length).toBeLessThanOrEqual(100);
    }
  });

  it('shows missing and filled hours and the line of noon', () => {
    const record = gardenYear(6);
    record.ghi_W_m2.fill(Number.NaN, 0, 20 * 24);
    const filled = new Uint8Array(8760);
    filled.fill(1, 40 * 24, 50 * 24);
    const [picture] = yearPicture({ ...record, filled }, LIGHT);
    expect(picture!.missingShare[6]!.slice(0, 5)).toEqual([1, 1, 1, 1, 0]);
    expect(picture!.ghi_W_m2[6]!.slice(0, 4)).toEqual([null, null, null, null]);
    expect(picture!.filledShare[6]!.slice(7, 11).map(Math.round)).toEqual([0, 1, 1, 0]);
    const lines = yearPictureText(picture!);
    expect(lines[0]).toMatch(/^2021 {2}Jan +Feb +Mar/);
    const noon = lines.findIndex((line) => line.startsWith('noon +--'));
    expect(lines[noon - 1]).toMatch(/^ {2}10 \|\?\?\?\?....~~/);
    expect(lines.slice(1).filter((line) => line.includes('|'))).toHaveLength(12);
    expect(lines.join('\n')).not.toContain('undefined');
  });

  it('leaves out the years it holds less than a day of', () => {
    const record = gardenYear(7);
    const shifted = { ...record, start_ms: YEAR_2021_MS - 5 * 3_600_000 };
    expect(yearPicture(shifted, { solarShift_ms: 0 }).map(({ year }) => year)).toEqual([2021]);
  });
});
