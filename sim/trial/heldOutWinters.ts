import { mean, quantile } from 'simple-statistics';
import { learnedMonths } from '../climate/learnedMonths.ts';
import { type WinterFrame, winterFrame } from '../climate/madeWinters.ts';
import { meansClimate } from '../climate/meansClimate.ts';
import { meansDays } from '../climate/meansWinter.ts';
import { DAY_H, type RecordedDays } from '../climate/RecordedDays.ts';
import { randomStream } from '../common/random.ts';
import type { Site } from '../sun/Site.ts';

/** A figure of winters on file beside that of winters made from others of the same file. */
export interface HeldOutFigure {
  what: 'mean' | 'least ten days';
  /** kWh/m2 a day. */
  recorded: { mean: number; low: number; high: number };
  /** Mean, and the range that nine made winters of ten lie in, kWh/m2 a day. */
  made: { mean: number; low: number; high: number };
  /** Share of the winters held out that lie in the range of the winters made without them, and how many were tried. */
  held: number;
  tried: number;
}

/** How well a climate foretells its own winters. */
export interface HeldOut {
  splits: number;
  figures: HeldOutFigure[];
}

/** Times that half of the winters is learned from, and winters made of each half. */
const SPLITS = 8;
const MADE = 200;
const RUNNING_DAYS = 10;

/** Light of the dark quarter: November to January, in the south May to July. */
interface Quarter {
  mean: number;
  least: number;
}

/**
 * How well winters made from half of the winters of a record foretell the other half: mean light from November to January
 * (May to July in the south), and the least of ten days running there.
 *
 * in: days; winters, indices of those that hold their dark months, four or more; site; seed
 * out: figures over several such splits
 */
export function heldOutWinters(
  days: RecordedDays,
  winters: readonly number[],
  site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>,
  seed: number,
): HeldOut {
  const frame = winterFrame(site);
  const recorded = new Map(winters.map((winter) => [winter, recordedQuarter(days, winter)]));
  const made: Quarter[] = [];
  const tries = { mean: [] as boolean[], least: [] as boolean[] };
  for (let split = 0; split < SPLITS; split++) {
    const random = randomStream(seed, 'winters held out', split);
    const order = winters
      .map((winter) => ({ winter, at: random.uniform() }))
      .sort((a, b) => a.at - b.at)
      .map(({ winter }) => winter);
    const half = order.slice(0, Math.floor(order.length / 2));
    const fromHalf = madeQuarters(days, half, frame, seed + split);
    made.push(...fromHalf);
    for (const winter of order.slice(half.length)) {
      for (const key of ['mean', 'least'] as const) {
        const values = fromHalf.map((quarter) => quarter[key]);
        const value = recorded.get(winter)![key];
        tries[key].push(value >= quantile(values, 0.05) && value <= quantile(values, 0.95));
      }
    }
  }
  const figure = (what: HeldOutFigure['what'], key: keyof Quarter): HeldOutFigure => {
    const onFile = [...recorded.values()].map((quarter) => quarter[key]);
    const values = made.map((quarter) => quarter[key]);
    return {
      what,
      recorded: { mean: mean(onFile), low: Math.min(...onFile), high: Math.max(...onFile) },
      made: { mean: mean(values), low: quantile(values, 0.05), high: quantile(values, 0.95) },
      held: tries[key].filter(Boolean).length / tries[key].length,
      tried: tries[key].length,
    };
  };
  return { splits: SPLITS, figures: [figure('mean', 'mean'), figure('least ten days', 'least')] };
}

function madeQuarters(
  days: RecordedDays,
  half: readonly number[],
  frame: WinterFrame,
  seed: number,
): Quarter[] {
  const climate = meansClimate(learnedMonths(days, half, ''), frame);
  const { sky } = climate.months;
  return Array.from({ length: MADE }, (_, i) => {
    const { clearness } = meansDays(climate, seed, i);
    const light = clearness.map((daily, d) => (daily * sky.dailyExtraterrestrial_Wh_m2[d]!) / 1000);
    return quarterOf(Array.from(light).filter((_, d) => isDarkQuarter(frame.season[d]!, days.southern)));
  });
}

function recordedQuarter(days: RecordedDays, winter: number): Quarter {
  const light: number[] = [];
  for (let d = 0; d < days.count; d++) {
    if (days.winter[d] !== winter || !isDarkQuarter(days.season[d]!, days.southern)) continue;
    const hours = days.record.ghi_W_m2.subarray(days.hour[d]!, days.hour[d]! + DAY_H);
    light.push(hours.reduce((sum, ghi) => sum + Math.max(0, ghi), 0) / 1000);
  }
  return quarterOf(light);
}

/** Days of the season from 1 November to 31 January, or from 1 May to 31 July. */
function isDarkQuarter(season: number, southern: boolean): boolean {
  return southern ? season >= 120 && season < 212 : season >= 304 || season < 31;
}

function quarterOf(light: readonly number[]): Quarter {
  let least = Number.POSITIVE_INFINITY;
  for (let from = 0; from + RUNNING_DAYS <= light.length; from++)
    least = Math.min(least, mean(light.slice(from, from + RUNNING_DAYS)));
  return { mean: mean([...light]), least };
}
