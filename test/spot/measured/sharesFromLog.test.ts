import { describe, expect, it } from 'vitest';
import { InputProblem } from '../../../sim/common/InputProblem.ts';
import { randomStream } from '../../../sim/common/random.ts';
import { hourlyMeans } from '../../../sim/spot/measured/placedLog.ts';
import { readSpotFiles } from '../../../sim/spot/readSpotFiles.ts';
import { spotPlace } from '../../../sim/spot/SpotPlace.ts';
import { spotSchema } from '../../../sim/spot/schema.ts';
import { skyCalendar } from '../../../sim/spot/sky/SkyCalendar.ts';
import { openSky } from '../../../sim/spot/sky/skyColumns.ts';
import { lightInSpot, spotLight } from '../../../sim/spot/spotLight.ts';
import { spotParams } from '../../../sim/spot/spotParams.ts';
import type { WeatherRecord } from '../../../sim/weather/WeatherRecord.ts';
import { GARDEN, inventedHours } from '../inventedHours.ts';

const START_MS = Date.UTC(2023, 2, 1);
const WEATHER = inventedHours(GARDEN, START_MS, 30 * 24);
const OPEN = openSky(WEATHER, skyCalendar(WEATHER, GARDEN));
/** A bare flat sensor in the open, the beam apart from the rest. */
const openLight = light({ cover: { kind: 'none' }, cell_front: 'none' });

const LOG = {
  file: 'log.csv',
  stamp: { column: 'utc', zone: 'UTC', marks: 'start' },
  column: 'light',
  unit: 'W/m2',
};

function light(spot: unknown, file = '', weather: WeatherRecord = WEATHER) {
  const params = spotParams(spotSchema.parse(spot), (problem) => {
    throw new Error(problem.got);
  })!;
  const open = weather === WEATHER ? OPEN : undefined;
  const files = readSpotFiles(params, () => new TextEncoder().encode(file));
  return spotLight(weather, GARDEN, params, files, open);
}

/** A log of days from the start of the weather: what a function makes of each hour of the record. */
function log(value: (hour: number) => number, days = 10, from = 48, start_ms = START_MS): string {
  const rows = Array.from({ length: days * 24 }, (_, k) => {
    const stamp = new Date(start_ms + (from + k) * 3_600_000).toISOString().slice(0, 16);
    return `${stamp},${value(from + k).toFixed(3)}`;
  });
  return `utc,light\n${rows.join('\n')}\n`;
}
const shaded = (beam: number, diffuse: number) => (hour: number) =>
  beam * openLight.beam_W_m2[hour]! + diffuse * openLight.sky_W_m2[hour]!;

const messageOf = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    if (error instanceof InputProblem) return error.message;
    throw error;
  }
  return 'no problem';
};

describe('measured_light', () => {
  it('finds the shares that a log was made with, next to no misfit', () => {
    const made = light({ measured_light: LOG }, log(shaded(0.25, 0.7))).measured!;
    expect(made.beam).toBeCloseTo(0.25, 4);
    expect(made.diffuse).toBeCloseTo(0.7, 4);
    expect(made).toMatchObject({ replaces: 'geometry', days: 10 });
    expect(made.misfit_W_m2).toBeLessThan(0.01);
    expect(Math.max(made.beamError, made.diffuseError)).toBeLessThan(1e-4);
  });

  it('reads lux by the stated lumen per watt', () => {
    const lux = log((hour) => 120 * shaded(0.5, 0.8)(hour));
    const made = light({ measured_light: { ...LOG, unit: 'lux', lumen_per_W: 120 } }, lux).measured!;
    expect(made.beam).toBeCloseTo(0.5, 4);
    const kilo = log((hour) => 0.12 * shaded(0.5, 0.8)(hour), 28);
    const made2 = light({ measured_light: { ...LOG, unit: 'klux', lumen_per_W: 120 } }, kilo).measured!;
    expect(made2.diffuse).toBeCloseTo(0.8, 2);
  });

  it('says how sure it is: two standard errors hold the true shares in about 19 of 20 noisy logs', () => {
    let held = 0;
    const logs = 60;
    for (let n = 0; n < logs; n++) {
      const random = randomStream(n, 'log');
      // What a day brings, and what an hour brings, a tenth each.
      const ofDay = Array.from({ length: 30 }, () => 1 + 0.1 * random.normal());
      const noisy = log(
        (hour) =>
          Math.max(shaded(0.3, 0.6)(hour) * ofDay[Math.floor(hour / 24)]! * (1 + 0.1 * random.normal()), 0),
        20,
      );
      const { beam, beamError, diffuse, diffuseError } = light({ measured_light: LOG }, noisy).measured!;
      if (Math.abs(beam - 0.3) < 2 * beamError) held++;
      if (Math.abs(diffuse - 0.6) < 2 * diffuseError) held++;
    }
    // 20 days are few for an error from groups: somewhat under 95 percent; too wide would be a fault as well.
    expect(held / (2 * logs)).toBeGreaterThan(0.8);
    expect(held / (2 * logs)).toBeLessThan(1);
  });

  it('shows a house that hides the morning sun as misfit by hour', () => {
    const morning = (hour: number) => shaded(hour % 24 < 11 ? 0 : 1, 0.9)(hour);
    const { misfitByHour_W_m2: misfit } = light({ measured_light: LOG }, log(morning, 25)).measured!;
    // At 10 degrees east the hours of UTC run some 40 minutes behind the sun.
    expect(misfit[9]!).toBeLessThan(-10);
    expect(misfit[14]!).toBeGreaterThan(10);
    expect(misfit[1]).toBeNaN();
  });

  it('finds no negative share', () => {
    const odd = (hour: number) =>
      Math.max(0.8 * openLight.sky_W_m2[hour]! - 0.1 * openLight.beam_W_m2[hour]!, 0);
    const { beam, diffuse } = light({ measured_light: LOG }, log(odd)).measured!;
    expect(beam).toBe(0);
    expect(diffuse).toBeGreaterThan(0.4);
  });

  it('gives the cell its share of the open in place of all geometry', () => {
    const made = light(
      { cell_tilt_deg: 30, cell_bearing_deg: 'S', measured_light: LOG },
      log(shaded(0.25, 0.7)),
    );
    const open = light({ cell_tilt_deg: 30, cell_bearing_deg: 'S' });
    for (let i = 0; i < made.count; i += 5) {
      expect(made.beam_W_m2[i]).toBeCloseTo(0.25 * open.beam_W_m2[i]!, 1);
      expect(made.sky_W_m2[i]).toBeCloseTo(0.7 * open.sky_W_m2[i]!, 1);
    }
  });

  it('corrects the stated surroundings by a factor where it is asked to', () => {
    const tree = {
      kind: 'tree',
      bearing_deg: 'S',
      distance_m: 2.5,
      crown_base_m: 1,
      crown_top_m: 6,
      crown_width_m: 4,
      bare_transmittance: 0.5,
    };
    const spot = {
      cover: { kind: 'none' },
      cell_front: 'none',
      obstacles: { tree: { ...tree, reflectance: 0 } },
    };
    const behind = light(spot);
    const half = log((hour) => 0.6 * behind.beam_W_m2[hour]! + 0.9 * behind.sky_W_m2[hour]!);
    const made = light({ ...spot, measured_light: { ...LOG, replaces: 'factor' } }, half).measured!;
    expect(made.beam).toBeCloseTo(0.6, 3);
    expect(made.diffuse).toBeCloseTo(0.9, 3);
  });

  it('refuses a saturated log: a flat top', () => {
    const flat = log((hour) => Math.min(shaded(0.9, 0.9)(hour), 60));
    expect(messageOf(() => light({ measured_light: LOG }, flat))).toMatch(
      /^SPOT_PROFILE {2}log\.csv:\d+, "light"\n {2}got a flat top: \d+ of \d+ lit readings are 60 W\/m2; expected a sensor that does not reach its limit\. Fix: log again/,
    );
  });

  it.each<[string, string, string]>([
    ['shorter than a day', log(shaded(1, 1), 0.5), 'got 12 hours; expected at least a whole day'],
    [
      'from other dates than the weather',
      log((hour) => hour % 24, 5, 0, Date.UTC(2022, 2, 1)),
      'got a log from 2022-03-01 00:00 UTC to 2022-03-06 00:00 UTC; expected a day at least within the weather, which runs from 2023-03-01 00:00 UTC to 2023-03-31 00:00 UTC. Fix: take the weather of the days the log was made, or check the year in its stamps.',
    ],
    ['that holds no light', log(() => 0), 'got no light at all'],
  ])('refuses a log %s', (_, file, message) => {
    const said = messageOf(() => light({ measured_light: LOG }, file));
    expect(said).toContain('FIT_UNDETERMINED');
    expect(said).toContain(message);
  });

  it('takes a logger that reads every ten minutes, from any minute on, with gaps', () => {
    const rows: string[] = [];
    for (let k = 0; k < 12 * 144; k++) {
      const ms = START_MS + 3 * 86_400_000 + (k * 10 + 4) * 60_000;
      // Two days without readings, and every reading of a fifth day doubtful.
      const day = Math.floor(k / 144);
      if (day === 4 || day === 5) continue;
      const hour = Math.floor((ms + 5 * 60_000 - START_MS) / 3_600_000);
      // Within the hour the light wanders about its mean.
      const wander = 1 + 0.02 * ((k % 6) - 2.5);
      const value = day === 7 ? 'n/a' : (110 * wander * shaded(0.4, 0.8)(hour)).toFixed(1);
      rows.push(`${new Date(ms).toISOString().slice(0, 16)},${value}`);
    }
    const made = light(
      { measured_light: { ...LOG, unit: 'lux', missing: ['', 'n/a'] } },
      `utc,light\n${rows.join('\n')}\n`,
    ).measured!;
    expect(made.beam).toBeCloseTo(0.4, 3);
    expect(made.diffuse).toBeCloseTo(0.8, 3);
    // 12 days and a bit of a thirteenth after the last whole hour, three without readings.
    expect(made.days).toBe(9);
  });

  it('refuses rows that go back, come twice, are no time or no number, all together', () => {
    const text =
      'utc,light\n2023-03-01T00:00,1\n2023-03-01T02:00,1\n2023-03-01T01:00,1\n2023-03-01T02:00,1\nnoon,1\n';
    const said = messageOf(() => light({ measured_light: LOG }, text));
    expect(said).toContain('WEATHER_DISORDER  log.csv:4, "utc"');
    expect(said).toContain('WEATHER_DUPLICATE  log.csv:5, "utc"');
    expect(said).toContain('WEATHER_STAMP_UNREADABLE  log.csv:6, "utc"');
    const words = log(shaded(1, 1)).replace(/,[\d.]+\n/, ',dim\n');
    expect(messageOf(() => light({ measured_light: LOG }, words))).toContain(
      'got "dim"; expected a number in W/m2.',
    );
    expect(messageOf(() => light({ measured_light: { ...LOG, column: 'lux' } }, text))).toContain(
      'WEATHER_COLUMN_MISSING  log.csv:1, "lux"\n  got the columns "utc", "light"',
    );
  });

  it('refuses light that cannot be, and asks for the unit', () => {
    const lux = log((hour) => 110 * shaded(1, 1)(hour));
    const said = messageOf(() => light({ measured_light: LOG }, lux));
    expect(said).toContain('SPOT_PROFILE');
    expect(said).toContain('check the unit (W/m2 is stated) and the sensor.');
  });

  it('lends the shares of a log to the weather of other years, which do not hold its days', () => {
    const found = light({ measured_light: LOG }, log(shaded(0.25, 0.7))).measured!;
    const other = inventedHours(GARDEN, Date.UTC(2031, 5, 1), 48, 5);
    const calendar = skyCalendar(other, GARDEN);
    const params = spotParams(spotSchema.parse({ measured_light: LOG }), () => {})!;
    const place = spotPlace(params, calendar, {}, found);
    const lent = lightInSpot(place, openSky(other, calendar));
    const bare = light({}, '', other);
    expect(lent.measured).toBe(found);
    for (let i = 0; i < other.count; i++) {
      expect(lent.beam_W_m2[i]).toBeCloseTo(found.beam * bare.beam_W_m2[i]!, 9);
      expect(lent.sky_W_m2[i]).toBeCloseTo(found.diffuse * bare.sky_W_m2[i]!, 9);
    }
  });

  it('refuses days without sun, which tell nothing of the beam', () => {
    const dull = { ...WEATHER, dhi_W_m2: WEATHER.ghi_W_m2, dni_W_m2: new Float64Array(WEATHER.count) };
    const said = messageOf(() => light({ measured_light: LOG }, log(shaded(1, 1)), dull));
    expect(said).toContain('FIT_UNDETERMINED');
    expect(said).toContain('log on until the sun has shone');
  });
});

it('hourlyMeans takes an hour from nine tenths of its readings on: eleven of twelve do, ten do not', () => {
  const of = (readings: number) =>
    hourlyMeans(
      {
        time_ms: Float64Array.from({ length: readings }, (_, k) => START_MS + k * 300_000),
        light_W_m2: new Float64Array(readings).fill(80),
        step_s: 300,
      },
      START_MS,
      1,
    )[0];
  expect([of(12), of(11), of(10)]).toEqual([80, 80, Number.NaN]);
});
