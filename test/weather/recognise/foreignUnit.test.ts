import { describe, expect, it } from 'vitest';
import { knownSeries } from './knownSeries.ts';
import { problemsOf, readText } from './readText.ts';

const known = knownSeries(Date.UTC(2025, 2, 1), 90);
const PLACE = { place: { latitude_deg: known.latitude_deg, longitude_deg: known.longitude_deg } };

/** A file of light times a factor under each heading, of temperature under those that say so. */
function fileOf(headings: readonly string[], factor = 1, digits = 2): string {
  const rows = Array.from({ length: known.count }, (_, i) => {
    const time = new Date(known.start_ms + i * 3_600_000).toISOString().slice(0, 16);
    return [
      time,
      ...headings.map((heading) =>
        /temp/.test(heading) ? known.air_degC[i]!.toFixed(1) : (known.ghi_W_m2[i]! * factor).toFixed(digits),
      ),
    ].join(';');
  });
  return `${['time utc', ...headings].join(';')}\n${rows.join('\n')}\n`;
}
const read = (heading: string, factor = 1, digits = 2, options = {}) =>
  readText([fileOf([heading], factor, digits)], { ...PLACE, ...options });

describe('a unit that is none of irradiance', () => {
  it.each([
    ['solar cell mV', 0.1, 'mV is a voltage'],
    ['global radiation [µV]', 1, 'µV is a voltage'],
    ['panel V', 0.1, 'V is a voltage'],
    ['solar mA', 0.086, 'mA is a current'],
    ['sunlight %', 0.1, '% is a share'],
    ['light raw', 0.7, 'raw is a count of a converter'],
    ['solar_adc', 0.7, 'adc is a count of a converter'],
    ['radiation umol/m2/s', 2, 'umol counts photons'],
    ['solar power W', 0.86, 'W without an area is the power of a panel'],
    ['panel [W]', 0.86, 'W without an area is the power of a panel'],
    ['solar energy Wh', 0.86, 'Wh without an area is the energy of a panel'],
    ['solar kWh', 0.000_86, 'kWh without an area is the energy of a panel'],
  ])('"%s" is refused with what it is', async (heading, factor, why) => {
    const [problem] = await problemsOf(read(heading, factor, 5));
    expect(problem).toMatchObject({ code: 'WEATHER_COLUMN_MISSING', field: 'ghi', line: 1 });
    expect(problem!.got).toContain(`"${heading}" is left aside: ${why}, no irradiance`);
    expect(problem!.fix).toMatch(/--column "?ghi=.* --unit ghi=.*; what was logged on the cell of a lamp/);
  });

  it.each([
    ['GHI [W]', 1, 'W/m2'],
    ['global radiation W', 1, 'W/m2'],
    ['radiation kWh', 0.001, 'kWh/m2'],
    ['solar power W/m2', 1, 'W/m2'],
    ['solar energy (Wh per square metre)', 1, 'Wh/m2'],
    ['GHI_raw', 1, 'W/m2'],
    ['radiation raw', 1, 'W/m2'],
    ['irradiance A', 1, 'W/m2'],
    ['solar V', 1, 'W/m2'],
  ])('"%s" is read as irradiance', async (heading, factor, unit) => {
    const { recognition } = await read(heading, factor, 5);
    expect(recognition.columns[0]).toMatchObject({ quantity: 'ghi', heading, unit });
  });

  it('is refused of a column that the user names, and stands where the unit is said too', async () => {
    const columns = { ghi: 'pyranometer mV' };
    const [problem] = await problemsOf(read('pyranometer mV', 1, 2, { columns }));
    expect(problem).toMatchObject({ code: 'WEATHER_COLUMN_MISSING', field: 'pyranometer mV' });
    expect(problem!.got).toBe('"pyranometer mV", where mV is a voltage, no irradiance');
    const { recognition } = await read('pyranometer mV', 1, 2, { columns, units: { ghi: 'W/m2' } });
    expect(recognition.columns[0]).toMatchObject({ unit: 'W/m2', unitReason: 'stated by the user' });
  });

  it('is none that a legend ends with', async () => {
    const text = `GHI = global radiation, good in spring to 5 %\nT = air temperature\n${fileOf(['GHI', 'T temp'])}`;
    const { recognition } = await readText([text], PLACE);
    expect(recognition.columns[0]).toMatchObject({ quantity: 'ghi', heading: 'GHI', unit: 'W/m2' });
  });

  it('leaves the light to the column that has one of irradiance', async () => {
    const text = fileOf(['pyranometer mV', 'humidity %', 'pyranometer W/m2']);
    const { recognition } = await readText([text], PLACE);
    expect(recognition.columns.map(({ quantity, heading }) => [quantity, heading])).toEqual([
      ['ghi', 'pyranometer W/m2'],
    ]);
  });
});

it.each([
  ['poa south W/m2', 'light on a tilted plane'],
  ['energy on plane [kWh/m²]', 'light on a tilted plane'],
  ['diffuse W/m2', 'diffuse light alone'],
  ['clear sky GHI W/m2', 'a sky without clouds'],
  ['Tagesertrag Strahlung kWh/m²', 'what a panel or its converter gives'],
  ['light sensor', '"sensor"'],
])('why "%s" alone is no global irradiance is told', async (heading, why) => {
  const [problem] = await problemsOf(readText([fileOf([heading, 'module_temp_C'])], PLACE));
  expect(problem!.got).toContain(`; "${heading}" is left aside: its words speak of ${why}`);
  expect(problem!.got).not.toContain('"module_temp_C" is');
  expect(problem!.fix).toContain(`ghi=${heading}`);
});
