import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DateTime } from 'luxon';
import { afterAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import { spotSchema } from '../../sim/spot/schema.ts';
import { horizonProfile } from '../../sim/spot/shade/horizonProfile.ts';
import { passThrough } from '../../sim/spot/shade/SkyDome.ts';
import { screensAround, surroundings } from '../../sim/spot/shade/seasonDomes.ts';
import { spotParams } from '../../sim/spot/spotParams.ts';
import { solarPosition } from '../../sim/sun/solarPosition.ts';
import { spotSurvey } from '../../sim/trial/spotSurvey.ts';

const at = (name: string) => fileURLToPath(new URL(`../../scenarios/${name}.yaml`, import.meta.url));
const hedges = loadScenario(at('hedge-and-apple-tree'));
const folder = mkdtempSync(join(tmpdir(), 'longnight-survey-'));
afterAll(() => rmSync(folder, { recursive: true }));

function paramsOf(section: object) {
  return spotParams(spotSchema.parse(section), ({ got }) => {
    throw new Error(got);
  })!;
}

/** A scenario of one spot, as far as a survey looks at it. */
function around(section: object, site: Partial<Scenario['site']> = {}) {
  const spot = { name: 'here', section: spotSchema.parse(section), params: paramsOf(section) };
  return { spots: [spot], site: { ...hedges.site, ...site }, folder };
}

it('a spot has a sheet where obstacles are stated or nothing at all, not where a profile or a log tells its light', () => {
  expect(spotSurvey(hedges).sheets.map(({ spot }) => spot)).toEqual(hedges.spots.map(({ name }) => name));
  expect(spotSurvey(loadScenario(at('invented-garden'))).sheets.map(({ spot }) => spot)).toEqual(['lawn']);
  expect(spotSurvey(loadScenario(at('raw-parameters'))).sheets).toEqual([]);
});

it('where nothing is stated the rows are blank, each 10 degrees', () => {
  const [lawn] = spotSurvey(hedges).sheets;
  expect(lawn!.obstacles).toEqual([]);
  expect(lawn!.skyline).toEqual(Array.from({ length: 36 }, (_, k) => ({ bearing_deg: 10 * k })));
});

it('the skyline is that of the sky the simulation sees: stretches are what hides it, and all that does', () => {
  for (const sheet of spotSurvey(hedges).sheets.slice(1)) {
    const { params } = hedges.spots.find(({ name }) => name === sheet.spot)!;
    const screens = screensAround(surroundings(params, undefined), () => true);
    let hidden = 0;
    for (const { bearing_deg, stated } of sheet.skyline) {
      for (let elevation = 0.25; elevation < 90; elevation += 0.5) {
        const shut = stated!.some(({ from_deg, to_deg }) => elevation >= from_deg && elevation < to_deg);
        expect(
          passThrough(screens, bearing_deg, elevation) < 1,
          `${sheet.spot} ${bearing_deg} ${elevation}`,
        ).toBe(shut);
      }
      hidden += stated!.length;
    }
    expect(hidden).toBeGreaterThan(10);
  }
  const fence = spotSurvey(hedges).sheets[2]!.skyline[18]!;
  expect(fence.stated!.map(({ name }) => name)).toEqual(['fence', 'apple-tree']);
});

it('what is stated can be checked with tape and eye: bearing, distance, height of the ridge, width, leaves', () => {
  const [, hedge, tree, house] = spotSurvey(hedges).sheets;
  expect(hedge!.obstacles[0]).toMatchObject({ bearing_deg: 180, distance_m: 1.2, height_m: 1.6, width_m: 9 });
  expect(tree!.obstacles[0]).toMatchObject({ name: 'apple-tree', green: 0.12, bare: 0.55, height_m: 5.5 });
  expect(house!.obstacles[0]).toMatchObject({ kind: 'house', height_m: 8.6 });
});

it('a horizon profile beside obstacles is part of the skyline', () => {
  writeFileSync(join(folder, 'far.csv'), 'bearing_deg,elevation_deg\n0,7\n120,7\n240,7\n');
  const wall = { kind: 'wall', bearing_deg: 180, distance_m: 5, width_m: 2, height_m: 2 };
  const [sheet] = spotSurvey(around({ horizon: { file: 'far.csv' }, obstacles: { wall } })).sheets;
  expect(sheet!.skyline[0]!.stated).toEqual([{ from_deg: 0, to_deg: 7, name: 'horizon' }]);
  expect(sheet!.skyline[18]!.stated).toEqual([
    { from_deg: 0, to_deg: expect.closeTo(20.3, 1), name: 'wall' },
  ]);
});

it('rows that are typed in as a profile give the same sky at each bearing of the sheet', () => {
  const sheet = spotSurvey(hedges).sheets.find(({ spot }) => spot === 'white-wall')!;
  const rows = sheet.skyline.map(
    ({ bearing_deg, stated }) => `${bearing_deg},${(stated![0]?.to_deg ?? 0).toFixed(0)}`,
  );
  const bytes = new TextEncoder().encode(`bearing_deg,elevation_deg\n${rows.join('\n')}\n`);
  const profile = horizonProfile({ name: 'skyline.csv', bytes });
  sheet.skyline.forEach(({ stated }, k) => {
    expect(Math.abs(profile.elevation_deg[k]! - (stated![0]?.to_deg ?? 0))).toBeLessThanOrEqual(0.5);
  });
});

describe('the worked example', () => {
  const { example } = spotSurvey(hedges);

  it('is a profile that reads, and the same shed as the obstacle beside it', () => {
    const profile = horizonProfile({ name: 'x.csv', bytes: new TextEncoder().encode(example.csv) });
    const params = paramsOf({ obstacles: parse(example.obstacle) });
    const screens = screensAround(surroundings(params, undefined), () => true);
    profile.bearing_deg.forEach((bearing, k) => {
      const top = screens[0]!.span(bearing)?.to_deg ?? 0;
      expect(Math.abs(top - profile.elevation_deg[k]!), `${bearing}`).toBeLessThan(0.5);
    });
  });

  it('counts right, from compass and paces to degrees', () => {
    const height_m = 1.5 + 6 * Math.tan((10 * Math.PI) / 180);
    expect(example.words).toContain(`= ${height_m.toFixed(1)} m. From a cell`);
    const angle_deg = (Math.atan((2.6 - 0.15) / 6) * 180) / Math.PI;
    expect(example.words).toContain(`${angle_deg.toFixed(0)} deg. Its edges`);
    expect(150 + 4).toBe(154);
    expect(example.words).toMatch(/^Invented: /);
  });
});

describe("the sun's noon in place of a compass", () => {
  const bearing = (scenario: ReturnType<typeof around>) => spotSurvey(scenario).steps[1]!;

  it('is when the sun stands in the south by the clock of the place', () => {
    const said = bearing(around({}));
    expect(said).toContain('true south');
    const times = [...said.matchAll(/(\d\d:\d\d) on 21 (\w+)/g)];
    expect(times.map(([, , month]) => month)).toEqual(['March', 'June', 'September', 'December']);
    for (const [, clock, month] of times) {
      const noon = DateTime.fromFormat(`2025 21 ${month} ${clock}`, 'yyyy d MMMM HH:mm', {
        zone: 'Europe/Berlin',
        locale: 'en',
      });
      // Half a minute of the clock, and the fastest sun of these in bearing.
      expect(Math.abs(solarPosition(noon.toMillis(), 54, 10).azimuth_deg - 180)).toBeLessThan(0.6);
    }
  });

  it('is in the north south of the equator, on the 21st by local date, and left out where no shadow can be read', () => {
    const south = bearing(
      around({}, { latitude_deg: -37, longitude_deg: 175, timeZone: 'Pacific/Auckland' }),
    );
    expect(south).toContain('true north,');
    expect(south.match(/on 21 /g)).toHaveLength(4);
    const pole = bearing(around({}, { latitude_deg: -88 }));
    expect(pole.match(/on 21 /g)).toHaveLength(1);
    // High at the equinoxes, on one side in June, on the other in December.
    expect(bearing(around({}, { latitude_deg: 0 }))).toContain('true north or south');
  });
});

it('the steps name compass, declination, paces, clinometer, tangents, trees, and how it is typed in', () => {
  const words = spotSurvey(hedges).steps.join(' ');
  for (const said of [
    'sight over a compass',
    'magnetic north: add the declination',
    'count your paces along 20 m of tape',
    'protractor',
    'thread with a nut',
    'Never look at the sun',
    'bare or green',
    'horizon: { file: skyline.csv }',
    '20 deg 0.36',
  ])
    expect(words).toContain(said);
  // 27 paces on 20 m.
  expect((20 / 27).toFixed(2)).toBe('0.74');
});
