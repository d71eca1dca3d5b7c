import { expect, test } from 'vitest';
import { importWeather } from '../../sim/weather/importWeather.ts';
import type { ImportOptions } from '../../sim/weather/readWithClock.ts';
import { understand, yearFile } from './knownYear.ts';
import { problemsOf } from './recognise/readText.ts';

const at = (latitude_deg: number, longitude_deg: number): ImportOptions => ({
  place: { latitude_deg, longitude_deg },
});

test.each([
  ['its clock named', 'time utc'],
  ['no word on its clock', 'time'],
])('a longitude of the wrong sign is said before any zone, %s', async (_, heading) => {
  const [problem] = await problemsOf(understand(heading, 0, at(54, -10)));
  expect(problem).toMatchObject({ code: 'WEATHER_CLOCK', fix: expect.stringMatching(/^is the place wrong/) });
  expect(problem!.typed![0]).toBe('--place 54,10');
});

test('a longitude that no changed sign explains leaves the zones', async () => {
  const [problem] = await problemsOf(understand('time utc', 0, at(54, -30)));
  expect(problem!.typed!.join()).not.toContain('--place');
});

test('a latitude of the wrong sign is said before any unit, a wrong unit where the place fits', async () => {
  const [problem] = await problemsOf(understand('start utc', 0, at(-54, 10)));
  expect(problem).toMatchObject({ code: 'WEATHER_CLOCK', field: 'site.latitude_deg' });
  expect(problem!.typed![0]).toBe('--place 54,10');
  const inKilojoules = yearFile('start utc', 0, (line) =>
    line.replace(/,([\d.]+)/, (_, ghi) => `,${(3.6 * Number(ghi)).toFixed(1)}`),
  );
  const [unit] = await problemsOf(importWeather(inKilojoules, at(54, 10)));
  expect(unit!.typed![0]).toBe('--unit ghi=kJ/m2');
  // Swapped, but no place explains this light in its unit.
  expect((await problemsOf(importWeather(inKilojoules, at(10, 54))))[0]!.typed![0]).toMatch(/^--unit/);
});
