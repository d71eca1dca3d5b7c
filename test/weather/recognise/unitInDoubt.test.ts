import { expect, test } from 'vitest';
import { refuseUnitsOfRecord } from '../../../sim/weather/recognise/unitInDoubt.ts';
import { knownSeries } from './knownSeries.ts';
import { problemsOf, readText } from './readText.ts';

const HOUR = 3_600_000;
const known = knownSeries(Date.UTC(2025, 0, 1), 365);
const { latitude_deg, longitude_deg } = known;
const PLACE = { latitude_deg, longitude_deg };

/** Reads a year (or the days of it) written under a heading, and asks whether its units can be. */
async function judged(
  heading: string,
  light: number,
  { air = (degC: number) => degC, days = 365, from = 0, units = {} } = {},
): Promise<void> {
  const rows = Array.from({ length: days * 24 }, (_, k) => {
    const i = from * 24 + k;
    const time = new Date(known.start_ms + i * HOUR).toISOString().slice(0, 16);
    return `${time},${(known.ghi_W_m2[i]! * light).toFixed(2)},${air(known.air_degC[i]!).toFixed(1)}`;
  });
  const { series, recognition } = await readText([`${[heading, ...rows].join('\n')}\n`], {
    place: PLACE,
    units,
  });
  refuseUnitsOfRecord('made-up.csv', series, recognition.columns, PLACE);
}

const WATTS = 'start utc,GHI (W/m2),air temperature (degC)';

test.each([
  ['J/cm2', 0.36],
  ['kJ/m2', 3.6],
  ['langley', 1 / 11.622],
  ['kW/m2', 0.001],
])('%s under a heading of W/m2 is refused with the unit that explains it', async (unit, factor) => {
  const [problem] = await problemsOf(judged(WATTS, factor));
  expect(problem).toMatchObject({ code: 'WEATHER_AMBIGUOUS', field: 'GHI (W/m2)' });
  expect(problem!.typed).toEqual([`--unit ghi=${unit}`, '--unit ghi=W/m2']);
});

test('W/m2 under a heading of kJ/m2 is refused too', async () => {
  const [problem] = await problemsOf(judged('start utc,GHI (kJ/m2),air temperature (degC)', 1));
  expect(problem!.typed![0]).toBe('--unit ghi=W/m2');
});

test('what the user states stands', async () => {
  await judged(WATTS, 0.36, { units: { ghi: 'W/m2' } });
  await judged(WATTS, 0.36, { units: { ghi: 'J/cm2' } });
});

test('a shaded sensor and a very bright one are read: the clearest days on either side of what is doubted', async () => {
  // The known year's clearest days let 0.76 through.
  await judged(WATTS, 0.44 / 0.76);
  await expect(judged(WATTS, 0.4 / 0.76)).rejects.toThrow('light outside the air');
  await judged(WATTS, 1.2 / 0.76);
});

test('a short dull stretch says nothing of the unit', async () => {
  await judged(WATTS, 0.36, { from: 330, days: 20 });
  await expect(judged(WATTS, 0.36, { from: 330, days: 34 })).rejects.toThrow('J/cm2');
});

test('degrees Fahrenheit under a heading of degrees Celsius are refused, and so is the reverse', async () => {
  const [problem] = await problemsOf(judged(WATTS, 1, { air: (degC) => degC * 1.8 + 32 }));
  expect(problem).toMatchObject({ field: 'air temperature (degC)' });
  expect(problem!.typed![0]).toBe('--unit air_temperature=degF');
  const [reverse] = await problemsOf(judged('start utc,GHI (W/m2),air temperature (degF)', 1));
  expect(reverse!.typed![0]).toBe('--unit air_temperature=degC');
});

test('a cold hollow and a warm town are read', async () => {
  await judged(WATTS, 1, { air: (degC) => degC - 14 });
  await judged(WATTS, 1, { air: (degC) => degC + 12 });
});

test('without a unit a mean of the year near 48 is Fahrenheit though no day is too hot for Celsius', async () => {
  const rows = Array.from({ length: known.count }, (_, i) => {
    const time = new Date(known.start_ms + i * HOUR).toISOString().slice(0, 16);
    const degF = (known.air_degC[i]! - 8.3) * 0.5 * 1.8 + 47;
    return `${time},${known.ghi_W_m2[i]!.toFixed(2)},${degF.toFixed(1)}`;
  });
  const { recognition } = await readText([`start utc,GHI (W/m2),air\n${rows.join('\n')}\n`], {
    place: PLACE,
  });
  expect(recognition.columns.find(({ quantity }) => quantity === 'air_temperature')!.unit).toBe('degF');
});

// 4.7 and 5.4 percent of the rows with light.
test.each([
  [14, 'WEATHER_VALUE_OUT_OF_RANGE'],
  [12, 'WEATHER_AMBIGUOUS'],
])('where every %dth row of the winter is nonsense the refusal is %s', async (every, code) => {
  const isWrong = (i: number): boolean => i % every === 0 && (i < 60 * 24 || i > 300 * 24);
  const rows = Array.from({ length: known.count }, (_, i) => {
    const time = new Date(known.start_ms + i * HOUR).toISOString().slice(0, 16);
    return `${time},${isWrong(i) ? '1000.0' : known.ghi_W_m2[i]!.toFixed(1)}`;
  });
  const text = `start utc,GHI (W/m2)\n${rows.join('\n')}\n`;
  const { series, recognition } = await readText([text], { place: PLACE });
  const refused = (async () => refuseUnitsOfRecord('made-up.csv', series, recognition.columns, PLACE))();
  const [problem] = await problemsOf(refused);
  expect(problem!.code).toBe(code);
  const few = { line: 2, got: expect.stringMatching(/^1000 W\/m2, brighter than any noon .* \d+ rows more/) };
  if (code === 'WEATHER_VALUE_OUT_OF_RANGE') expect(problem).toMatchObject(few);
  else expect(problem!.got).toContain('of the light outside the air');
});
