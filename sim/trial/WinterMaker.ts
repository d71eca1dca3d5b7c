import { completeWinters, type LearnedClimate, learnClimate } from '../climate/LearnedClimate.ts';
import {
  blockWinter,
  drawnWinter,
  type WinterFrame,
  weatherOfDays,
  winterFrame,
} from '../climate/madeWinters.ts';
import {
  type MeansClimate,
  meansClimate,
  SPREADS,
  type SpreadName,
  spreadsOf,
} from '../climate/meansClimate.ts';
import { meansWinter } from '../climate/meansWinter.ts';
import { recordedDays } from '../climate/RecordedDays.ts';
import type { ClimateSection } from '../climate/schema.ts';
import { InputProblem } from '../common/InputProblem.ts';
import { randomStream } from '../common/random.ts';
import type { Site } from '../sun/Site.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';

/** What winters are made from, as it can be handed to another thread: a record of several, or what is known of months. */
export type WinterBasis = { site: Site; seed: number } & (
  | { record: WeatherRecord }
  | { climate: ClimateSection }
);

/** Ways of making winters: of the days of a record, or by a spread of the days of months. */
export type WinterWay = 'days-alike' | 'blocks' | SpreadName;

/** Winters that a climate can be learned from, at least. */
export const LEAST_WINTERS = 5;
/** A table of monthly means is taken to know a place as well as so many winters; common practice, no source. */
const WORTH_OF_MEANS = 10;

/** Makes winters that have not happened. */
export interface WinterMaker {
  frame: WinterFrame;
  /** The first says the chance, the second, where there is one, is another opinion. */
  ways: readonly WinterWay[];
  /** What winters are made from, in words, and what that is known to be worth. */
  words: string;
  /** Winters on file, or as many as the climate is worth. */
  learnedWinters: number;
  /** Whether it can be learned again, from a draw of the winters on file. */
  learnsAgain: boolean;
  /** True where the two ways are two beliefs about one place, which the stated interval has to hold both. */
  waysAreBeliefs: boolean;
  /**
   * A winter, 8760 hours from 1 July (January in the south).
   *
   * in: way; index, the same winter for the same one; sample, 0 for all winters on file, else the number of a draw of as
   *   many of them, with repetition, that the climate is learned from again
   */
  weather: (way: WinterWay, index: number, sample: number) => WeatherRecord;
}

/** Winters of different samples are drawn apart. */
const SAMPLE_STEP = 1_000_000;

/**
 * Makes winters from a record, or from what is known of months.
 *
 * in: basis
 * throws: InputProblem WEATHER_PARTIAL_YEAR where the record holds fewer winters than can be learned from
 */
export function winterMaker(basis: WinterBasis): WinterMaker {
  const frame = winterFrame(basis.site);
  return 'record' in basis
    ? ofRecord(basis.record, basis.site, basis.seed, frame)
    : ofMonths(basis.climate, basis.seed, frame);
}

function ofRecord(record: WeatherRecord, site: Site, seed: number, frame: WinterFrame): WinterMaker {
  const days = recordedDays(record, site);
  const winters = completeWinters(days);
  const names = winters.map((winter) => days.winters[winter]!);
  if (winters.length < LEAST_WINTERS) throw tooFewWinters(record, names);
  let learned: { sample: number; climate: LearnedClimate } | undefined;
  const climateOf = (sample: number): LearnedClimate => {
    if (learned?.sample !== sample)
      learned = {
        sample,
        climate: learnClimate(days, sample === 0 ? winters : drawn(winters, seed, sample)),
      };
    return learned.climate;
  };
  return {
    frame,
    ways: ['days-alike', 'blocks'],
    words: `${winters.length} winters on file, ${names[0]} to ${names.at(-1)}: the clearness of each day by season, how dull days follow each other, and the hours of real days alike. Other way: whole stretches of ten days on file`,
    learnedWinters: winters.length,
    learnsAgain: true,
    waysAreBeliefs: false,
    weather: (way, index, sample) => {
      const climate = climateOf(sample);
      const make = way === 'blocks' ? blockWinter : drawnWinter;
      return weatherOfDays(make(climate, frame, seed, index + sample * SAMPLE_STEP), climate, frame);
    },
  };
}

/** As many winters, drawn with repetition. */
function drawn(winters: readonly number[], seed: number, sample: number): number[] {
  const random = randomStream(seed, 'winters learned from', sample);
  return winters.map(() => winters[Math.floor(random.uniform() * winters.length)]!);
}

function ofMonths(section: ClimateSection, seed: number, frame: WinterFrame): WinterMaker {
  const ways = spreadsOf(section);
  const climates = new Map<WinterWay, MeansClimate>(
    ways.map((spread) => [spread, meansClimate(section, frame, spread)]),
  );
  const [way, other] = ways;
  const said = (spread: SpreadName) => `${SPREADS[spread].words} (${SPREADS[spread].bias})`;
  return {
    frame,
    ways,
    words: `${section.learned_from ?? 'twelve monthly means'}: days by ${said(way!)}, hours by formula${other === undefined ? '' : `. Other way: ${said(other)}`}`,
    learnedWinters: section.learned_winters ?? WORTH_OF_MEANS,
    learnsAgain: false,
    waysAreBeliefs: ways.length > 1,
    weather: (spread, index) => meansWinter(climates.get(spread)!, frame, seed, index),
  };
}

/** A record that holds too few winters to learn from. in: record; winters, names of those it holds */
export function tooFewWinters({ origin }: WeatherRecord, winters: readonly string[]): InputProblem {
  const count =
    winters.length === 0 ? 'no winter' : `${winters.length} ${winters.length === 1 ? 'winter' : 'winters'}`;
  return new InputProblem({
    code: 'WEATHER_PARTIAL_YEAR',
    file: origin.file,
    got: `${count} whose dark half is on record${winters.length === 0 ? '' : `: ${winters.join(', ')}`}`,
    expected: `${LEAST_WINTERS} or more, to learn from them what other winters may be like`,
    fix: 'give more years (several files make one record), or state twelve monthly means in weather.climate; a run without --winters takes what there is.',
  });
}
