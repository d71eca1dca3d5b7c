import { mean } from 'simple-statistics';
import { learnClimate } from '../../sim/climate/LearnedClimate.ts';
import { drawnWinter, type WinterFrame, weatherOfDays, winterFrame } from '../../sim/climate/madeWinters.ts';
import { meansClimate } from '../../sim/climate/meansClimate.ts';
import { meansWinter } from '../../sim/climate/meansWinter.ts';
import { DAY_H, type RecordedDays, recordedDays } from '../../sim/climate/RecordedDays.ts';
import { climateSchema } from '../../sim/climate/schema.ts';
import { randomStream } from '../../sim/common/random.ts';
import type { LampParams } from '../../sim/lamp/params.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import { type SkyCalendar, skyCalendar } from '../../sim/spot/sky/SkyCalendar.ts';
import { openSky } from '../../sim/spot/sky/skyColumns.ts';
import type { MadeWinter } from '../../sim/trial/MadeTrials.ts';
import { oddsOf } from '../../sim/trial/odds.ts';
import { runNights } from '../../sim/trial/runTrial.ts';
import type { SpotLights } from '../../sim/trial/SpotLights.ts';
import { scenarioLights } from '../../sim/trial/scenarioLights.ts';
import type { WeatherRecord } from '../../sim/weather/WeatherRecord.ts';

// Odds held against truths: climates of which every number is known make a record of ten winters; what is learned from it
// is held against what many more winters of the true climate give.

/** One lamp under one true climate. */
export interface Checked {
  truth: number;
  hours: number;
  /** Share of winters without a failed night, true and stated. */
  trueShare: number;
  low: number;
  high: number;
  trueNights: number;
  saidNights: number;
}

interface CoverageOptions {
  wintersOnFile: number;
  trueWinters: number;
  madeWinters: number;
  samples: number;
  ofSample: number;
}

const USUAL: CoverageOptions = {
  wintersOnFile: 10,
  trueWinters: 250,
  madeWinters: 120,
  samples: 16,
  ofSample: 8,
};

/** Hours after dusk of lamps that fail rarely, now and then, and often. */
export const HOURS = [2, 3, 4.5];
/** Nights that are run, from the first of the season: October to March. */
const DARK = { first: 92, end: 274 };

/** Lamps of the demo under one truth, whose climate, latitude and persistence are drawn from a seed. */
export function checkTruth(seed: number, options = USUAL): Checked[] {
  const garden = loadScenario('scenarios/invented-garden.yaml');
  const random = randomStream(seed, 'truth');
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const site = { ...garden.site, latitude_deg: between(47, 59) };
  const frame = winterFrame(site);
  const winterClearness = between(0.2, 0.34);
  const section = climateSchema.parse({
    clearness: Array.from({ length: 12 }, (_, month) => {
      const season = (1 - Math.cos((2 * Math.PI * (month - 0.5)) / 12)) / 2;
      return winterClearness + (0.48 - winterClearness) * season + between(-0.02, 0.02);
    }),
    air_degC: Array.from({ length: 12 }, (_, month) => 9 - 8 * Math.cos((2 * Math.PI * (month - 0.7)) / 12)),
    distribution: random.uniform() < 0.5 ? 'bendt' : 'hollands-huget',
    persistence: { daily: between(0.35, 0.7), lasting: between(0.3, 0.55), winter: between(0, 0.03) },
  });
  const climate = meansClimate(section, frame);
  const spot = garden.spots[random.uniform() < 0.5 ? 0 : 1]!;
  const lamps = HOURS.map((hours) => {
    const { params } = garden.lamps[0]!;
    return { hours, params: { ...params, schedule: { ...params.schedule, hours } } as LampParams };
  });
  const runner = new Runner({ ...garden, site, spots: [spot] }, frame, lamps);
  const truth = runner.run((index) => meansWinter(climate, frame, seed, 1000 + index), options.trueWinters);
  const file = Array.from({ length: options.wintersOnFile }, (_, index) =>
    meansWinter(climate, frame, seed, index),
  );
  const days = daysOf(file, frame);
  const made = (winters: number[], step: number, count: number) => {
    const learned = learnClimate(days, winters);
    return runner.run(
      (index) => weatherOfDays(drawnWinter(learned, frame, seed, step + index), learned, frame),
      count,
    );
  };
  const all = file.map((_, winter) => winter);
  const main = made(all, 0, options.madeWinters);
  const again = Array.from({ length: options.samples }, (_, k) => {
    const draw = randomStream(seed, 'learned again', k);
    const drawn = all.map(() => Math.floor(draw.uniform() * all.length));
    return made(drawn, (k + 1) * 10_000, options.ofSample);
  });
  return lamps.map(({ hours }, l) => {
    const odds = oddsOf(
      main[l]!,
      again.map((sample) => sample[l]!),
      all.length,
      0,
    );
    return {
      truth: seed,
      hours,
      trueShare: mean(truth[l]!.map(({ failedNights }) => (failedNights === 0 ? 1 : 0))),
      low: odds.keeps.low,
      high: odds.keeps.high,
      trueNights: mean(truth[l]!.map(({ failedNights }) => failedNights)),
      saidNights: odds.failedNights.mean,
    };
  });
}

/** Runs lamps through the dark half of made winters. */
class Runner {
  private readonly scenario: Scenario;
  private readonly lamps: readonly { hours: number; params: LampParams }[];
  private readonly calendar: SkyCalendar;
  private lights: SpotLights | undefined;

  constructor(
    scenario: Scenario,
    frame: WinterFrame,
    lamps: readonly { hours: number; params: LampParams }[],
  ) {
    this.scenario = scenario;
    this.lamps = lamps;
    this.calendar = skyCalendar({ ...frame.sun, sun: frame.sun }, scenario.site);
  }

  run(weatherOf: (index: number) => WeatherRecord, winters: number): MadeWinter[][] {
    const { scenario, lamps, calendar } = this;
    const made: MadeWinter[][] = lamps.map(() => []);
    for (let index = 0; index < winters; index++) {
      const weather = weatherOf(index);
      const sky = openSky(weather, calendar);
      this.lights = this.lights?.under(weather, sky) ?? scenarioLights(scenario, weather, sky);
      const light = this.lights.of(scenario.spots[0]!.params);
      lamps.forEach(({ hours, params }, l) => {
        const { site, seed, promise } = scenario;
        const terms = {
          spot: '',
          lamp: '',
          site,
          seed,
          promise: { ...promise, hours },
          start: { capacitor_V: 2 },
        };
        const { nights } = runNights(params, light, terms, DARK);
        const failedNights = nights.filter(({ outcome }) => outcome === 'failed').length;
        const none = {
          nights: nights.length,
          short_h: 0,
          out_h: 0,
          longestSpell: 0,
          smallestReserve_J: 0,
          lightGiven_lm_h: 0,
        };
        made[l]!.push({ ...none, failedNights, failed: [] });
      });
    }
    return made;
  }
}

/** The days of winters that follow each other, each as long as the frame. */
function daysOf(winters: readonly WeatherRecord[], frame: WinterFrame): RecordedDays {
  const each = winters.map((weather) => recordedDays(weather, frame.site));
  const column = (of: (record: WeatherRecord) => Float64Array) =>
    Float64Array.from(winters.flatMap((weather) => [...of(weather)]));
  const perWinter = each[0]!.count;
  const record: WeatherRecord = {
    ...winters[0]!,
    count: winters.length * perWinter * DAY_H,
    ghi_W_m2: column((weather) => weather.ghi_W_m2),
    air_degC: column((weather) => weather.air_degC),
    mark: new Uint8Array(winters.length * perWinter * DAY_H),
  };
  const whole = winters.length * perWinter;
  return {
    record,
    southern: false,
    midnight_h: each[0]!.midnight_h,
    count: whole,
    hour: Uint32Array.from({ length: whole }, (_, d) => d * DAY_H),
    season: Uint16Array.from({ length: whole }, (_, d) => each[0]!.season[d % perWinter]!),
    winter: Uint16Array.from({ length: whole }, (_, d) => Math.floor(d / perWinter)),
    winters: winters.map((_, w) => String(w)),
    clearness: Float64Array.from(each.flatMap(({ clearness }) => [...clearness])),
    sunless: Uint8Array.from(each.flatMap(({ sunless }) => [...sunless])),
    hourClearness: Float64Array.from(each.flatMap(({ hourClearness }) => [...hourClearness])),
  };
}

/** What many checks come to. */
interface Summary {
  /** Share of intervals that hold the truth. */
  held: number;
  /** Root mean square of what chances are off, in standard errors as stated; of chances not near 0 or 1. */
  errors: number;
  /** How far failed nights are off on average, and as a share of the true ones. */
  biasNights: number;
  biasShare: number;
}

export function summaryOf(checked: readonly Checked[]): Summary {
  const nights = mean(checked.map(({ trueNights }) => trueNights));
  const biasNights = mean(checked.map(({ saidNights, trueNights }) => saidNights - trueNights));
  // The truth is counted over so many winters; what lies within its own half standard error is held.
  const held = checked.filter(
    ({ trueShare, low, high }) => trueShare >= low - 0.01 && trueShare <= high + 0.01,
  );
  const open = checked.filter(({ trueShare }) => trueShare > 0.05 && trueShare < 0.95);
  const errors = Math.sqrt(
    mean(
      open.map(
        ({ trueShare, low, high }) => (((low + high) / 2 - trueShare) / ((high - low) / 2 / 1.645)) ** 2,
      ),
    ),
  );
  return { held: held.length / checked.length, errors, biasNights, biasShare: biasNights / nights };
}
