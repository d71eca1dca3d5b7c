import { fileURLToPath } from 'node:url';
import { type CsvColumn, csvText, fixed } from '../../sim/common/csvText.ts';
import { randomStream } from '../../sim/common/random.ts';
import { changedLamp } from '../../sim/fitting/serviceDays.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { spotLight } from '../../sim/spot/spotLight.ts';
import { bytesSource } from '../../sim/tables/TableSource.ts';
import { importWeather } from '../../sim/weather/importWeather.ts';
import { statedWeather } from '../../sim/weather/statedWeather.ts';
import { simulateYear } from '../../sim/year/simulateYear.ts';

const HOUR_MS = 3_600_000;
const FIRST_MS = Date.UTC(2025, 10, 3);
const HOURS = 14 * 24;
const NOISE_V = 0.003;

/** What the invented lamp in service differs in from the demo's: more leakage, a shaded spot, a thirstier driver. */
export const IN_SERVICE = { leakage: 1.8, lightShare: 0.8, draw: 1.06 } as const;

/**
 * Capacitor voltage by the hour of an invented lamp in service, two weeks of November as CSV: the demo's lamp with one
 * capacitor on its lawn, simulated with more leakage, less light and more draw, and read with a noise of 3 mV.
 *
 * in: yearCsv, the invented year as it is written
 */
export async function serviceLogCsv(yearCsv: string): Promise<string> {
  const file = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
  const { site, weather, lamps, spots, promise } = loadScenario(file);
  const bytes = new TextEncoder().encode(yearCsv);
  const source = bytesSource({ name: 'invented-year.csv', bytes });
  const { record } = await importWeather([source], { place: site, ...statedWeather(weather!.section) });
  const light = spotLight(record, site, spots[0]!.params);
  const dimmer = {
    ...light,
    planeOfArray_W_m2: light.planeOfArray_W_m2.map((each) => each * IN_SERVICE.lightShare),
  };
  const lamp = changedLamp(lamps[0]!.params, IN_SERVICE.leakage, IN_SERVICE.draw);
  const { columns } = simulateYear(lamp, dimmer, { timeZone: site.timeZone, promise, start: 'cyclic' });
  // Seed 1 was tried first: its noise happens to look like 40 percent less leakage, one of some two hundred.
  const random = randomStream(2, 'service log');
  const first = (FIRST_MS - light.start_ms) / HOUR_MS;
  const rows: CsvColumn<number>[] = [
    {
      heading: 'time_utc',
      cell: (hour) => `${new Date(FIRST_MS + hour * HOUR_MS).toISOString().slice(0, 16)}Z`,
    },
    {
      heading: 'capacitor_V',
      // The end of the hour before is the instant of the stamp.
      cell: (hour) => fixed(columns.capacitorEnd_V[first + hour - 1]! + NOISE_V * random.normal(), 3),
    },
  ];
  return csvText(rows, Array(HOURS).keys());
}
