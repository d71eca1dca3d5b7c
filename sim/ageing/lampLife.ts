import type { ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { LampAge } from './agedLamp.ts';
import { beyondRating_h, wearUnder } from './CapacitorStress.ts';
import { type LifeLaw, lifeRating } from './capacitorWear.ts';
import type { LampWear } from './LampWear.ts';
import { LifeRun, type LifeStretch, type LifeTerms, type LifeWinter } from './LifeRun.ts';
import type { YearStress } from './YearStress.ts';

/** A lamp through the years, under the same weather over and over. */
export interface LampLife {
  law: LifeLaw['name'];
  winters: LifeWinter[];
  /** Winters of weather that each of them is run through; where there are several, `broken` is a chance. */
  throughWinters: number;
  /** The first winter in which a night fails in half of the weather's winters or more; undefined where none does. */
  breaks: number | undefined;
  /** Share of the capacitor's rated life that the first year spends. */
  firstWear: number;
  /** The same, were the capacitor at its rated voltage all the time. */
  firstWearAtRated: number;
  /** Hours of the first year in which the capacitor was warmer or higher than its life is rated for. */
  beyondRating_h: number;
  /** The first winter before which the capacitor's rated life is spent: from it on its state is beyond what the rating says. */
  pastRating: number | undefined;
}

/** A winter breaks the promise where a night fails in so many of the weather's winters. */
const BREAKS = 0.5;
/**
 * Failed nights and share of broken winters by which two winters may differ, and none between them is run: a winter
 * between two that differ by two nights is told to one night by their middle.
 */
const ALIKE = { nights: 2, broken: 0.1 };

/**
 * A lamp of one spot through many winters, each run with the lamp as old as it is then.
 *
 * in: lamp; spot; lights, of whole years: a record, or several made winters, of which the first is what wears the lamp;
 *   terms
 * out: as many winters as asked for
 * throws: as `runTrial`
 * valid: a winter's lamp is as old as at its year's begin. Unless exact, hours are run where a part has changed by 10
 *   percent, and of the winters between those, whose parts age in a straight line, only as many as tell the failed
 *   nights of each to one night, as far as no winter has fewer than one before
 */
export function lampLife(
  lamp: ScenarioLamp,
  spot: ScenarioSpot,
  lights: readonly [SpotLight, ...SpotLight[]],
  terms: LifeTerms,
): LampLife {
  return lifeOf(new LifeRun(lamp, spot, lights, terms), lamp).life;
}

/** The same, with the lamp as it is before each winter. in: run; lamp, that it is of */
export function lifeOf(run: LifeRun, { section }: ScenarioLamp): { life: LampLife; worn: LampWear[] } {
  const fresh = run.fresh();
  const first = run.hours(1, fresh.age());
  const winters: LifeWinter[] = [];
  const worn: LampWear[] = [];
  for (const stretch of run.stretches(fresh, 1, first)) {
    winters.push(...filled(run, stretch));
    worn.push(...stretch.worn.slice(winters.length === 1 ? 0 : 1));
  }
  const life = {
    law: run.terms.law.name,
    winters,
    throughWinters: run.throughWinters,
    breaks: winters.find(isBroken)?.winter,
    ...firstYear(first.stress, fresh, section.capacitor, run.terms.law),
    pastRating: winters[worn.findIndex((lamp) => lamp.capacitorWear() >= 1)]?.winter,
  };
  return { life, worn };
}

/** Whether a winter breaks the promise. */
export function isBroken({ broken }: LifeWinter): boolean {
  return broken >= BREAKS;
}

/**
 * The first winter of a stretch that breaks the promise, by halving: undefined where its last one keeps it.
 *
 * in: run; stretch, whose first winter keeps it
 */
export function firstBroken(run: LifeRun, { worn, begin, end }: LifeStretch): number | undefined {
  if (!isBroken(end)) return undefined;
  let [kept, broken] = [begin.winter, end.winter];
  while (broken - kept > 1) {
    const middle = (kept + broken) >> 1;
    if (isBroken(run.winter(middle, worn[middle - begin.winter]!.age()))) broken = middle;
    else kept = middle;
  }
  return broken;
}

function firstYear(
  { capacitor, years }: YearStress,
  fresh: LampWear,
  section: ScenarioLamp['section']['capacitor'],
  law: LifeLaw,
): Pick<LampLife, 'firstWear' | 'firstWearAtRated' | 'beyondRating_h'> {
  const rating = lifeRating(section);
  const share = fresh.weakShare();
  const bank_V = new Float64Array(capacitor.degC.length).fill(section.rated_V);
  return {
    firstWear: wearUnder(capacitor, rating, law, share) / years,
    firstWearAtRated: wearUnder({ ...capacitor, bank_V }, rating, law, 1) / years,
    beyondRating_h: beyondRating_h(capacitor, rating, share) / years,
  };
}

/** The winters of a stretch but for its first, if it has more than one: halved until its ends are alike. */
function filled(run: LifeRun, { worn, begin, end }: LifeStretch): LifeWinter[] {
  const length = end.winter - begin.winter;
  if (length < 2) return [end];
  const alike =
    Math.abs(end.failedNights - begin.failedNights) <= ALIKE.nights &&
    Math.abs(end.broken - begin.broken) <= ALIKE.broken;
  if (alike && isBroken(begin) === isBroken(end)) {
    const inner = worn.slice(1, -1);
    return [...inner.map((lamp, k) => onLine(begin, end, begin.winter + 1 + k, lamp.age())), end];
  }
  const half = length >> 1;
  const middle = run.winter(begin.winter + half, worn[half]!.age());
  return [
    ...filled(run, { worn: worn.slice(0, half + 1), begin, end: middle }),
    ...filled(run, { worn: worn.slice(half), begin: middle, end }),
  ];
}

/** A winter between two that were run. */
function onLine(begin: LifeWinter, end: LifeWinter, winter: number, age: LampAge): LifeWinter {
  const share = (winter - begin.winter) / (end.winter - begin.winter);
  const at = (of: (each: LifeWinter) => number) => of(begin) + share * (of(end) - of(begin));
  const [fewer, more] = [begin.failedNights, end.failedNights].sort((one, other) => one - other) as [
    number,
    number,
  ];
  const line = at(({ failedNights }) => failedNights);
  // Within a night of both, wherever between them it is.
  const failed = more - fewer > 1 ? Math.min(Math.max(line, more - 1), fewer + 1) : line;
  const whole = Number.isInteger(begin.failedNights) && Number.isInteger(end.failedNights);
  return {
    winter,
    age,
    nights: begin.nights,
    failedNights: whole ? Math.round(failed) : failed,
    short_h: at(({ short_h }) => short_h),
    light_lm_h: at(({ light_lm_h }) => light_lm_h),
    broken: at(({ broken }) => broken),
    smallestReserve_J: at(({ smallestReserve_J }) => smallestReserve_J),
    between: true,
  };
}
