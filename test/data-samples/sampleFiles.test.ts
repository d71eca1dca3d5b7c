import { readdirSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { houseElevation, INVENTED_HOUSE } from '../../data-samples/make/houseElevation.ts';
import { sampleFiles } from '../../data-samples/make/sampleFiles.ts';

const folder = new URL('../../data-samples/', import.meta.url);
const read = (name: string) => {
  const bytes = readFileSync(new URL(name, folder));
  return (name.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString('utf8');
};
const files = await sampleFiles();
const rows = (name: string, heading: number, between: string) =>
  files[name]!.trimEnd()
    .split('\n')
    .slice(heading)
    .map((line) => line.split(between));
const plain = rows('invented-year.csv', 1, ',');

describe('the files of data-samples/', () => {
  it.each(Object.keys(files))('%s is made again to the last byte', (name) => {
    expect(read(name) === files[name]).toBe(true);
  });

  it('are all made by the script, named in the README and called invented there', () => {
    const readme = read('README.md');
    const present = readdirSync(folder).filter((name) => /\.txt$|\.csv(\.gz)?$|^generic/.test(name));
    expect(present.toSorted()).toEqual(Object.keys(files).toSorted());
    for (const name of present) expect(readme).toContain(`\`${name}\``);
    expect(readme).toMatch(/everything here is invented/i);
  });
});

describe('the other layouts hold the same weather', () => {
  it('with semicolons, decimal commas, J/cm2 and the end of the hour in UTC+1', () => {
    const other = rows('invented-year-semicolon.csv', 7, ';');
    expect(other).toHaveLength(8760);
    expect(other[0]![0]).toBe('01.01.2025 02:00');
    expect(other.at(-1)![0]).toBe('01.01.2026 01:00');
    other.forEach(([, light, air], hour) => {
      // Two decimals of J/cm2 are 0.014 W/m2.
      expect(Math.abs(Number(light!.replace(',', '.')) / 0.36 - Number(plain[hour]![1]))).toBeLessThan(0.015);
      expect(Number(air!.replace(',', '.'))).toBe(Number(plain[hour]![2]));
    });
  });

  it('with tabs, hours 1 to 24, tenths of a degree and eight missing hours', () => {
    const other = rows('invented-year-tab.csv', 1, '\t');
    expect(other.filter((row) => row[4] === '-999' && row[5] === '-999')).toHaveLength(8);
    other.forEach(([year, month, day, end, light, air], hour) => {
      const start_ms = Date.UTC(Number(year), Number(month) - 1, Number(day), Number(end) - 1);
      expect(start_ms).toBe(Date.parse(plain[hour]![0]!));
      if (light === '-999') return;
      expect(light).toBe(plain[hour]![1]);
      expect(Number(air) / 10).toBeCloseTo(Number(plain[hour]![2]), 9);
    });
  });

  it('with a clock an hour ahead of what it claims', () => {
    rows('invented-year-clock-off.csv', 1, ',').forEach(([stamp, ...values], hour) => {
      expect(Date.parse(stamp!) - Date.parse(plain[hour]![0]!)).toBe(3_600_000);
      expect(values).toEqual(plain[hour]!.slice(1));
    });
  });

  it('in civil time, an hour absent in March and one double in October', () => {
    const stamps = rows('invented-year-civil-time.csv', 1, ',').map((row) => row[0]!);
    expect(stamps).toHaveLength(8760);
    expect(stamps[0]).toBe('2025-01-01 01:00');
    expect(stamps.filter((stamp) => stamp === '2025-03-30 02:00')).toHaveLength(0);
    expect(stamps.filter((stamp) => stamp === '2025-10-26 02:00')).toHaveLength(2);
  });
});

describe('the house', () => {
  it('stands as high as its eaves straight ahead, and nowhere to the north', () => {
    // Eaves 5.0 m above the cell at 4 m: steeper than the ridge, 8.2 m above it at 8 m.
    expect(houseElevation(INVENTED_HOUSE, 180)).toBeCloseTo((Math.atan2(5, 4) * 180) / Math.PI, 9);
    for (const bearing_deg of [0, 45, 90, 270, 315])
      expect(houseElevation(INVENTED_HOUSE, bearing_deg)).toBe(0);
  });

  it('has the skyline that marching along the line of sight finds', () => {
    const { wallDistance_m, depth_m, west_m, east_m, eaves_m, ridge_m, cellHeight_m } = INVENTED_HOUSE;
    for (let bearing_deg = 90.5; bearing_deg < 270; bearing_deg += 3) {
      let steepest = 0;
      for (let r = 0.5; r < 40; r += 0.001) {
        const east = r * Math.sin((bearing_deg * Math.PI) / 180);
        const behind = -r * Math.cos((bearing_deg * Math.PI) / 180) - wallDistance_m;
        if (behind < 0 || behind > depth_m || east < west_m || east > east_m) continue;
        const rise = Math.min(behind, depth_m - behind) / (depth_m / 2);
        const height = eaves_m + (ridge_m - eaves_m) * rise - cellHeight_m;
        steepest = Math.max(steepest, Math.atan2(height, r));
      }
      // A step of 1 mm at 4 m and more: 0.02 degrees.
      expect(Math.abs(houseElevation(INVENTED_HOUSE, bearing_deg) - (steepest * 180) / Math.PI)).toBeLessThan(
        0.02,
      );
    }
  });

  it('hides the sun of the shortest day from bearing 135 to 235', () => {
    const profile = rows('house.csv', 1, ',').map((row) => Number(row[1]));
    expect(profile).toHaveLength(360);
    // At 54 N the sun of 21 December stands 12.6 degrees high at noon and rises at a bearing of about 130.
    for (let bearing_deg = 135; bearing_deg <= 235; bearing_deg++)
      expect(profile[bearing_deg]).toBeGreaterThan(12.6);
  });
});
