import { fileURLToPath } from 'node:url';
import { civilOffset } from '../../sim/common/civilTime.ts';
import { randomStream } from '../../sim/common/random.ts';
import { changedLamp } from '../../sim/fitting/serviceDays.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { spotLight } from '../../sim/spot/spotLight.ts';
import { bytesSource } from '../../sim/tables/TableSource.ts';
import { runNights } from '../../sim/trial/runTrial.ts';
import { importWeather } from '../../sim/weather/importWeather.ts';
import { statedWeather } from '../../sim/weather/statedWeather.ts';

const EVERY = 3;
const SEEN_ERROR_MS = 10 * 60_000;

/** What the invented lamp of the diary differs in from the demo's: a worn capacitor and a dirty lid. */
export const WORN = { capacitance: 0.62, lightShare: 0.7 } as const;

/**
 * A diary of an invented lamp, each third night of November and December: the demo's lamp with one capacitor on its lawn,
 * simulated with less capacitance and less light, its times seen to 10 minutes.
 *
 * in: yearCsv, the invented year as it is written
 */
export async function diaryText(yearCsv: string): Promise<string> {
  const file = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
  const { site, weather, lamps, spots, promise, seed } = loadScenario(file);
  const source = bytesSource({ name: 'invented-year.csv', bytes: new TextEncoder().encode(yearCsv) });
  const { record } = await importWeather([source], { place: site, ...statedWeather(weather!.section) });
  const light = spotLight(record, site, spots[0]!.params);
  const dimmer = {
    ...light,
    planeOfArray_W_m2: light.planeOfArray_W_m2.map((each) => each * WORN.lightShare),
  };
  const lamp = changedLamp(lamps[0]!.params, 1, 1, WORN.capacitance);
  const anyLight = { ...promise, least_lumen: 1e-6, tolerance_h: 0 };
  const terms = { spot: 'lawn', lamp: 'single', site, promise: anyLight, start: 'cyclic', seed } as const;
  const { nights } = runNights(lamp, dimmer, terms);
  const random = randomStream(1, 'diary');
  const offset_min = civilOffset(site.timeZone);
  const written = (ms: number) =>
    new Date(Math.round(ms / 300_000) * 300_000 + offset_min(ms) * 60_000)
      .toISOString()
      .slice(0, 16)
      .replace('T', ' ');
  const lines = nights
    .filter(({ night }, i) => i % EVERY === 0 && /-1[12]-/.test(night))
    .map(({ firstShort_ms, dusk_ms }) =>
      Number.isNaN(firstShort_ms)
        ? `${written(dusk_ms + 4 * 3_600_000)} lit`
        : written(Math.max(dusk_ms, firstShort_ms + SEEN_ERROR_MS * random.normal())),
    );
  return ['# when the lamp on the lawn went out, or a time at which it was still lit', ...lines, ''].join(
    '\n',
  );
}
