import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { readSpotFiles } from '../../sim/spot/readSpotFiles.ts';
import { type SpotLight, spotLight } from '../../sim/spot/spotLight.ts';
import { nightCalendar } from '../../sim/sun/NightCalendar.ts';
import { loadWeather } from '../../sim/trial/loadWeather.ts';

/** The scenario of the demo: invented garden, weather and lamps. */
export const DEMO = loadScenario(
  fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url)),
);

const WEATHER = await loadWeather(DEMO);

const lights = new Map<string, SpotLight>();

/** The year of light on a spot of the demo. */
export function demoLight(spot: string): SpotLight {
  let light = lights.get(spot);
  if (light === undefined) {
    const { site, spots, folder } = DEMO;
    const { params } = spots.find(({ name }) => name === spot)!;
    const files = readSpotFiles(params, (name) => readFileSync(resolve(folder, name)));
    light = spotLight(WEATHER, site, params, files);
    lights.set(spot, light);
  }
  return light;
}

/** Some days of it, from a day of the year on, 0 the first, under their own calendar. */
export function demoStretch(spot: string, firstDay: number, days: number): SpotLight {
  const year = demoLight(spot);
  const start_ms = year.start_ms + firstDay * 86_400_000;
  const count = 24 * days;
  const nights = nightCalendar(start_ms, count, DEMO.site);
  const cut = Object.fromEntries(
    Object.entries(year).map(([name, column]) => [
      name,
      ArrayBuffer.isView(column) && !name.endsWith('_ms')
        ? (column as Float64Array).slice(24 * firstDay, 24 * firstDay + count)
        : column,
    ]),
  ) as unknown as SpotLight;
  return { ...cut, start_ms, count, nights, dusk_ms: nights.dusk_ms, dawn_ms: nights.dawn_ms };
}
