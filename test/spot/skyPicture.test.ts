import { describe, expect, it } from 'vitest';
import { skyPictureText } from '../../sim/output/skyPictureText.ts';
import { readSpotFiles } from '../../sim/spot/readSpotFiles.ts';
import { spotPlace } from '../../sim/spot/SpotPlace.ts';
import { spotSchema } from '../../sim/spot/schema.ts';
import { skyCalendar } from '../../sim/spot/sky/SkyCalendar.ts';
import { skyPicture } from '../../sim/spot/skyPicture.ts';
import { spotParams } from '../../sim/spot/spotParams.ts';
import { GARDEN } from './inventedHours.ts';

const CALENDAR = skyCalendar({ start_ms: Date.UTC(2023, 0, 1), count: 8760 }, GARDEN);
const picture = (spot: unknown, calendar = CALENDAR, file = '') => {
  const params = spotParams(spotSchema.parse(spot), () => {})!;
  const files = readSpotFiles(params, () => new TextEncoder().encode(file));
  return skyPicture(spotPlace(params, calendar, files));
};

const HOUSE = {
  kind: 'house',
  bearing_deg: 'S',
  distance_m: 3,
  width_m: 10,
  height_m: 5.4,
  depth_m: 8,
  eaves_m: 0,
};
const TREE = {
  kind: 'tree',
  bearing_deg: 'N',
  distance_m: 4,
  crown_base_m: 2,
  crown_top_m: 6,
  crown_width_m: 3.9,
  transmittance: 0.1,
  bare_transmittance: 0.6,
};

describe('skyPicture', () => {
  it('holds a grid of shares, bearing by elevation, that is open without obstacles', () => {
    const { grid } = picture({})!;
    expect([grid.bearing_deg.length, grid.elevation_deg.length]).toEqual([72, 18]);
    expect([grid.bearing_deg[0], grid.elevation_deg[17]]).toEqual([2.5, 87.5]);
    expect(grid.inLeaf.flat().every((share) => share === 1)).toBe(true);
    expect(grid.bare).toBeUndefined();
  });

  it('outlines a house where it stands: as wide and as high as its angles', () => {
    const { outlines, grid } = picture({ cell_height_m: 0.4, obstacles: { house: HOUSE } })!;
    const [house] = outlines;
    expect([house?.name, house?.kind]).toEqual(['house', 'house']);
    // Half of 10 m at 3 m: 59 degrees to either side of south; 5 m over the cell at 3 m.
    expect(house!.points[0]!.bearing_deg).toBe(121);
    expect(house!.points.at(-1)!.bearing_deg).toBe(239);
    const highest = Math.max(...house!.points.map(({ to_deg }) => to_deg));
    expect(highest).toBeCloseTo((Math.atan2(5, 3) * 180) / Math.PI, 9);
    expect(grid.inLeaf[3]![35]).toBe(0);
    expect(grid.inLeaf[3]![0]).toBe(1);
  });

  it('shows a tree with and without its leaves', () => {
    const { grid, outlines } = picture({ obstacles: { tree: TREE } })!;
    expect(grid.inLeaf[8]![0]).toBeCloseTo(0.1, 9);
    expect(grid.bare![8]![0]).toBeCloseTo(0.6, 9);
    expect(outlines.map(({ kind }) => kind)).toEqual(['tree', 'trunk']);
  });

  it('draws the sun of the 21st of every month, highest in June, and whether it is seen', () => {
    const { sunPaths } = picture({ obstacles: { house: HOUSE } })!;
    expect(sunPaths.map(({ month }) => month)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    const highest = (month: number) =>
      Math.max(...sunPaths[month - 1]!.points.map(({ elevation_deg }) => elevation_deg));
    // 90 - 54 and the tilt of the axis, to what ten minutes around noon miss.
    expect(highest(6)).toBeCloseTo(90 - 54 + 23.44, 1);
    expect(highest(12)).toBeCloseTo(90 - 54 - 23.44 + 0.07, 1);
    const december = sunPaths[11]!.points;
    expect(december.filter(({ passes }) => passes > 0).length).toBeLessThan(december.length / 10);
  });

  it('counts hours of sun and hours of beam left by month', () => {
    const open = picture({})!.months;
    const behind = picture({ obstacles: { house: HOUSE } })!.months;
    for (const { sun_h, beam_h } of open) expect(beam_h).toBeCloseTo(sun_h, 3);
    // 12 h and some minutes for refraction in the months of the equinoxes together; a year has 12.
    const mean = open.reduce((sum, { sun_h }) => sum + sun_h, 0) / 12;
    expect(mean).toBeGreaterThan(12);
    expect(mean).toBeLessThan(12.3);
    expect(behind[11]!.beam_h).toBeLessThan(0.05);
    expect(behind[5]!.beam_h).toBeGreaterThan(8);
  });

  it('knows no picture where the surroundings are not known', () => {
    const log = { file: 'l', stamp: { column: 't', zone: 'UTC', marks: 'start' }, column: 'l', unit: 'W/m2' };
    const hours = Array.from({ length: 48 }, (_, i) => [
      new Date(CALENDAR.sun.start_ms + i * 3_600_000).toISOString(),
      Math.round(1000 * CALENDAR.sun.upCosZenith[i]!) / 10,
    ]);
    const file = `t,l\n${hours.map((row) => row.join()).join('\n')}\n`;
    expect(picture({ measured_light: log }, CALENDAR, file)).toBeUndefined();
    expect(picture({ measured_light: { ...log, replaces: 'factor' } }, CALENDAR, file)).toBeDefined();
  });
});

describe('skyPictureText', () => {
  it('fits 100 columns, names the obstacles and gives the hours by month', () => {
    const lines = skyPictureText(picture({ obstacles: { house: HOUSE, tree: TREE } })!, 'the garden');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(100);
    expect(lines[0]).toBe('Sky from the garden, trees in leaf (bearing across, degrees of elevation up):');
    expect(lines.some((line) => line === '  house: from 121 to 239, up to 60 degrees')).toBe(true);
    // Seen across north: the bearing it begins at stands first.
    expect(lines.some((line) => line === '  tree: from 331 to 29, up to 65 degrees')).toBe(true);
    expect(lines.at(-1)).toMatch(/^ {2}in sight {2}( +\d+\.\d){12}$/);
  });

  it('shows shut sky, and the sun small where it is hidden', () => {
    const lines = skyPictureText(picture({ obstacles: { house: HOUSE } })!, 'x');
    const low = lines[16]!;
    expect(low.startsWith('  15 |')).toBe(true);
    expect(low).toContain('█');
    expect(low).toContain('d');
    expect(lines.join('\n')).toContain('J');
  });

  it('puts north into the middle in the south, and draws bare trees when asked', () => {
    const site = { ...GARDEN, latitude_deg: -40 };
    const south = picture(
      { obstacles: { tree: TREE } },
      skyCalendar({ start_ms: CALENDAR.sun.start_ms, count: 8760 }, site),
    )!;
    const lines = skyPictureText(south, 'x', { southern: true, bare: true });
    expect(lines[0]).toContain('trees bare');
    expect(lines.find((line) => line.includes('NE'))?.trim()).toMatch(/^S +SW +W +NW +N +NE +E +SE +S$/);
    expect(lines.join('\n')).toContain('▒');
  });
});
