import { expect, it } from 'vitest';
import { knownSeries } from './knownSeries.ts';
import { problemsOf, readText } from './readText.ts';

const known = knownSeries(Date.UTC(2025, 2, 1), 40);
const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 }, offset_min: -30 };

function table(
  row: (ghi: number, air: number, i: number) => string,
  heading = 'time utc;Radiation;Outside',
): string {
  const rows = Array.from(known.ghi_W_m2, (ghi, i) => {
    const stamp = new Date(known.start_ms + i * 3_600_000).toISOString().slice(0, 16).replace('T', ' ');
    return `${stamp};${row(ghi, known.air_degC[i]!, i)}`;
  });
  return [heading, ...rows].join('\n');
}

async function expectKnown(text: string) {
  const { hourly, recognition } = await readText([text], PLACE);
  known.ghi_W_m2.forEach((value, i) => {
    if (!Number.isNaN(hourly.columns.ghi![i]!))
      expect(Math.abs(hourly.columns.ghi![i]! - value)).toBeLessThan(0.06);
  });
  return { hourly, recognition };
}

it('reads numbers that bear their unit in every cell', async () => {
  const { recognition, hourly } = await expectKnown(
    table((ghi, air) => `${ghi.toFixed(1)} W/m²;${air.toFixed(1)} °C`, 'time utc;Radiation;Temp'),
  );
  expect(recognition.columns).toMatchObject([
    { quantity: 'ghi', unit: 'W/m2', unitReason: 'the cell says "W/m²"' },
    { quantity: 'air_temperature', unit: 'degC', unitReason: 'the cell says "°C"' },
  ]);
  expect(hourly.columns.air_temperature![12]!).toBeCloseTo(known.air_degC[12]!, 1);
});

it('takes the unit that the cells bear', async () => {
  await expectKnown(
    table(
      (ghi, air) => `${(ghi / 10).toFixed(3).replace('.', ',')}mW/cm2;${air.toFixed(1).replace('.', ',')}°C`,
    ),
  );
});

it('reads them beside cells that say that a value is missing, and refuses a word among them', async () => {
  const bare = (word: string) =>
    table((ghi, air, i) => `${i % 50 === 40 ? word : `${ghi.toFixed(1)} W/m2`};${air.toFixed(1)} °C`);
  const { hourly } = await expectKnown(bare('n/a'));
  expect(hourly.columns.ghi!.filter((value) => Number.isNaN(value)).length).toBeGreaterThanOrEqual(19);
  const [problem] = await problemsOf(readText([bare('dark')], PLACE));
  expect(problem).toMatchObject({
    code: 'WEATHER_VALUE_NOT_NUMBER',
    line: 42,
    got: expect.stringContaining('dark'),
  });
});

it('takes what stands behind numbers for a unit in nine cells of ten, not in eight', async () => {
  const some = (share: number) =>
    table((ghi, air, i) => `${ghi.toFixed(1)}${(i * 7) % 100 < share ? ' W/m2' : ' x'};${air.toFixed(1)}`);
  const said = async (share: number) => (await problemsOf(readText([some(share)], PLACE)))[0]!;
  // Taken for one, the others are no numbers; else there is no column of numbers.
  expect((await said(92)).code).toBe('WEATHER_VALUE_NOT_NUMBER');
  expect((await said(88)).code).toBe('WEATHER_COLUMN_MISSING');
});
