import { mean, quantile } from 'simple-statistics';
import { completeWinters, learnClimate } from '../../sim/climate/LearnedClimate.ts';
import { drawnWinter, weatherOfDays, winterFrame } from '../../sim/climate/madeWinters.ts';
import { recordedDays } from '../../sim/climate/RecordedDays.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { skyCalendar } from '../../sim/spot/sky/SkyCalendar.ts';
import { openSky } from '../../sim/spot/sky/skyColumns.ts';
import { fileSource } from '../../sim/tables/TableSource.ts';
import { runNights } from '../../sim/trial/runTrial.ts';
import type { SpotLights } from '../../sim/trial/SpotLights.ts';
import { scenarioLights } from '../../sim/trial/scenarioLights.ts';
import { unbrokenWeather } from '../../sim/trial/unbrokenWeather.ts';
import { importWeather } from '../../sim/weather/importWeather.ts';

// `npm run held-out -- FILE LAT,LON,ELEVATION`: each whole winter of a measured record held out, learned from the others, and
// its failed nights held against nine in ten of those made; three lamps on both spots of the demo.

const [file, place = ''] = process.argv.slice(2);
if (file === undefined || place === '') throw new Error('npm run held-out -- FILE LAT,LON,ELEVATION');
const [latitude_deg, longitude_deg, elevation_m] = place.split(',').map(Number) as [number, number, number];
const MADE = 100;
const HOURS = { lawn: [3, 4, 6], 'north-side': [2.5, 3.5, 5] } as Record<string, number[]>;

const garden = loadScenario('scenarios/invented-garden.yaml');
const site = { ...garden.site, latitude_deg, longitude_deg, elevation_m };
const { record } = await importWeather([fileSource(file, file)], { place: site });
const weather = unbrokenWeather(record!, site, false);
const days = recordedDays(weather, site);
const winters = completeWinters(days);
const frame = winterFrame(site);
const calendar = skyCalendar({ ...frame.sun, sun: frame.sun }, site);
const lamp = garden.lamps[0]!;

const cases = garden.spots.flatMap((spot) => HOURS[spot.name]!.map((hours) => ({ spot, hours })));
const failedIn = (lights: SpotLights) =>
  cases.map(({ spot, hours }) => {
    const params = { ...lamp.params, schedule: { ...lamp.params.schedule, hours } };
    const promise = { ...garden.promise, hours };
    const terms = { spot: '', lamp: '', site, seed: 1, promise, start: 'lead-in' as const };
    const { statistics } = runNights(params as typeof lamp.params, lights.of(spot.params), terms);
    return new Map(statistics.winters.map(({ winter, failedNights }) => [winter, failedNights]));
  });

const scenario = { ...garden, site };
const real = failedIn(scenarioLights(scenario, weather));
const rows = cases.map(() => ({ held: 0, real: 0, made: 0 }));
let lights: SpotLights | undefined;
for (const out of winters) {
  const learned = learnClimate(
    days,
    winters.filter((winter) => winter !== out),
  );
  const made = cases.map((): number[] => []);
  for (let index = 0; index < MADE; index++) {
    const winter = weatherOfDays(drawnWinter(learned, frame, out + 1, index), learned, frame);
    const sky = openSky(winter, calendar);
    lights = lights?.under(winter, sky) ?? scenarioLights(scenario, winter, sky);
    failedIn(lights).forEach((failed, c) => {
      made[c]!.push(Math.max(...failed.values()));
    });
  }
  cases.forEach((_, c) => {
    const nights = real[c]!.get(days.winters[out]!)!;
    const [low, high] = [quantile(made[c]!, 0.05), quantile(made[c]!, 0.95)];
    rows[c]!.held += nights >= low && nights <= high ? 1 : 0;
    rows[c]!.real += nights / winters.length;
    rows[c]!.made += mean(made[c]!) / winters.length;
  });
}
cases.forEach(({ spot, hours }, c) => {
  const row = rows[c]!;
  console.log(
    `${spot.name}, ${hours} h: real ${row.real.toFixed(1)} failed nights a winter, made ${row.made.toFixed(1)} (${(100 * (row.made / row.real - 1)).toFixed(0)} percent); ${row.held} of ${winters.length} held`,
  );
});
console.log(
  `pooled: ${((100 * rows.reduce((sum, row) => sum + row.held, 0)) / cases.length / winters.length).toFixed(0)} percent held`,
);
