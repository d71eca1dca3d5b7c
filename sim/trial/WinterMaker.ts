import { completeWinters, type LearnedClimate, learnClimate } from '../climate/LearnedClimate.ts';
import {
  blockWinter,
  drawnWinter,
  type WinterFrame,
  weatherOfDays,
  winterFrame,
} from '../climate/madeWinters.ts';
import { type RecordedDays, recordedDays } from '../climate/RecordedDays.ts';
import { InputProblem } from '../common/InputProblem.ts';
import { randomStream } from '../common/random.ts';
import type { Site } from '../sun/Site.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';

/** What winters are made from, as it can be handed to another thread. */
export interface WinterBasis {
  record: WeatherRecord;
  site: Site;
  seed: number;
}

/** Ways of making winters, in the order of trust: the first says the chance, the second is another opinion. */
export const WINTER_WAYS = ['days-alike', 'blocks'] as const;
export type WinterWay = (typeof WINTER_WAYS)[number];

/** Winters that a climate can be learned from, at least. */
export const LEAST_WINTERS = 5;

/** Makes winters that have not happened from a record of several. */
export class WinterMaker {
  readonly frame: WinterFrame;
  /** Names of the winters learned from. */
  readonly learnedFrom: string[];
  private readonly days: RecordedDays;
  private readonly winters: number[];
  private readonly seed: number;
  /** The climate learned last, and from which draw of the winters. */
  private learned: { sample: number; climate: LearnedClimate } | undefined;

  /**
   * in: basis
   * throws: InputProblem WEATHER_PARTIAL_YEAR where the record holds fewer winters than can be learned from
   */
  constructor({ record, site, seed }: WinterBasis) {
    this.days = recordedDays(record, site);
    this.winters = completeWinters(this.days);
    this.seed = seed;
    this.learnedFrom = this.winters.map((winter) => this.days.winters[winter]!);
    if (this.winters.length < LEAST_WINTERS) throw tooFew(record, this.winters.length);
    this.frame = winterFrame(site);
  }

  /**
   * A winter, 8760 hours from 1 July (January in the south).
   *
   * in: way; index, the same winter for the same one; sample, 0 for all winters on file, else the number of a draw of as
   *   many of them, with repetition, that the climate is learned from again
   */
  weather(way: WinterWay, index: number, sample = 0): WeatherRecord {
    const climate = this.climateOf(sample);
    // Another sample draws its own winters.
    const at = index + sample * 1_000_000;
    const plan = (way === 'blocks' ? blockWinter : drawnWinter)(climate, this.frame, this.seed, at);
    return weatherOfDays(plan, climate, this.frame);
  }

  private climateOf(sample: number): LearnedClimate {
    if (this.learned?.sample !== sample) {
      const random = randomStream(this.seed, 'winters learned from', sample);
      const drawn = this.winters.map(() => this.winters[Math.floor(random.uniform() * this.winters.length)]!);
      this.learned = { sample, climate: learnClimate(this.days, sample === 0 ? this.winters : drawn) };
    }
    return this.learned.climate;
  }
}

function tooFew({ origin }: WeatherRecord, winters: number): InputProblem {
  return new InputProblem({
    code: 'WEATHER_PARTIAL_YEAR',
    file: origin.file,
    got: `${winters === 0 ? 'no whole winter' : winters === 1 ? 'one whole winter' : `${winters} whole winters`}`,
    expected: `${LEAST_WINTERS} or more, to learn from them what other winters may be like`,
    fix: 'give more years (--weather with several files), or twelve monthly means (weather: { climate: ... }), or run what there is without --winters.',
  });
}
