import { expect, test } from 'vitest';
import { sunColumns } from '../../../sim/sun/sunColumns.ts';
import { bytesSource } from '../../../sim/tables/TableSource.ts';
import { importWeather } from '../../../sim/weather/importWeather.ts';
import { WEATHER_MARKS } from '../../../sim/weather/WeatherRecord.ts';
import { known, PLACE } from '../knownYear.ts';
import { readText } from '../recognise/readText.ts';

const HOUR = 3_600_000;
const sun = sunColumns(known.start_ms, known.count, known);
const direct = known.dni_W_m2.map((value, i) => value * sun.upCosZenith[i]! * sun.upShare[i]!);

/** A year of direct and diffuse irradiance and no global one. */
function parts(heading: string, beam: Float64Array, factor = 1): string {
  const rows = Array.from({ length: known.count }, (_, i) => {
    const time = new Date(known.start_ms + i * HOUR).toISOString().slice(0, 16);
    return `${time},${(beam[i]! * factor).toFixed(4)},${(known.dhi_W_m2[i]! * factor).toFixed(4)}`;
  });
  return `${[heading, ...rows].join('\n')}\n`;
}
const quantities = async (heading: string, beam: Float64Array): Promise<string[]> =>
  (await readText([parts(heading, beam)], PLACE)).recognition.columns.map(({ quantity }) => quantity);

test('direct on the horizontal and diffuse make the global irradiance, marked as closed', async () => {
  const text = parts('start utc,direct horizontal (W/m2),diffuse (W/m2)', direct);
  const source = bytesSource({ name: 'made-up.csv', bytes: new TextEncoder().encode(text) });
  const { record } = await importWeather([source], PLACE);
  const off = record!.ghi_W_m2.map((value, i) => Math.abs(value - known.ghi_W_m2[i]!));
  expect(Math.max(...off)).toBeLessThan(0.001);
  expect(new Set(Array.from(record!.mark, (mark) => WEATHER_MARKS[mark]))).toEqual(new Set(['closed']));
});

test('a direct column without a word on which way it faces is told by its numbers', async () => {
  const heading = 'start utc,direct (W/m2),diffuse (W/m2)';
  expect(await quantities(heading, direct)).toEqual(['bhi', 'dhi']);
  expect(await quantities(heading, known.dni_W_m2)).toEqual(['dni', 'dhi']);
});

test('parts without a unit take the one in which their sum can be light', async () => {
  const { recognition } = await readText(
    [parts('start utc,direct horizontal,diffuse', direct, 0.0036)],
    PLACE,
  );
  expect(recognition.columns.map(({ unit }) => unit)).toEqual(['MJ/m2', 'MJ/m2']);
});

test('beside a global column the direct part of the horizontal is not needed', async () => {
  const rows = parts('', direct)
    .trim()
    .split('\n')
    .slice(1)
    .map((line, i) => `${line},${known.ghi_W_m2[i]!.toFixed(2)}`);
  const heading = 'start utc,direct horizontal (W/m2),diffuse (W/m2),GHI (W/m2)';
  const { recognition } = await readText([`${[heading, ...rows].join('\n')}\n`], PLACE);
  expect(recognition.columns.map(({ quantity }) => quantity)).toEqual(['ghi', 'dhi']);
});
