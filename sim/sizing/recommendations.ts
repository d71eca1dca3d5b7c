import type { LampParams } from '../lamp/params.ts';
import { lampPrice } from '../lamp/partsList.ts';
import type { NightCause } from '../night/nightLedger.ts';
import { overWinters } from '../statistics/overWinters.ts';
import { type LeanOutcome, LeanTrials } from '../trial/LeanTrials.ts';
import { genericEnds } from '../trial/partEnds.ts';
import type { HourlyTrial } from '../trial/Trial.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { aloneIn } from './aloneIn.ts';
import type { Design } from './Design.ts';
import { type DesignSpace, presentDesign } from './DesignSpace.ts';
import { outcomeOf, type SpaceTrials } from './DesignTrials.ts';
import type { Nearest, Recommended, SizedDesign, SizingAnswer, SizingStep } from './SizedDesign.ts';
import type { Best, Standing } from './Standings.ts';

type Recommendations = Omit<SizingAnswer, 'spot' | 'designs' | 'sized' | 'partial'>;

/**
 * What the best designs of a space are, each that is recommended run whole.
 *
 * in: trials; weather; best of all that were run; ran
 * throws: Error where a whole run and its nights alone do not come to the same (a defect)
 */
export function recommendations(
  trials: SpaceTrials,
  weather: WeatherRecord | undefined,
  best: Best,
  ran: readonly SizedDesign[],
): Recommendations {
  const { space } = trials;
  const byIndex = new Map(ran.map((sized) => [sized.design.index, sized]));
  const sized = ({ index }: Standing) => byIndex.get(index)!;
  const known = new Map<number, Recommended>();
  const recommended = (standing: Standing | undefined) => {
    if (standing === undefined) return undefined;
    const { index } = standing;
    const made = known.get(index) ?? recommend(trials, weather, sized(standing)).recommended;
    known.set(index, made);
    return made;
  };
  const front = best.front.map(sized);
  const { cheapest, brightest, leastChange, nearest, twice } = best;
  return {
    present: ran.find(({ design }) => design.changed.length === 0) ?? presentOf(trials),
    cheapest: recommended(cheapest),
    nearest: nearest && nearestOf(trials, weather, sized(nearest)),
    brightest: recommended(brightest),
    leastChange: recommended(leastChange),
    front,
    steps: stepsAlong(front),
    oneOrTwo: cheapest && {
      two: { price: lampPrice(sized(cheapest).design.section, 2), light_lm_h: 2 * cheapest.light_lm_h },
      one: twice && sized(twice),
    },
  };

  function presentOf({ space: { spots } }: { space: DesignSpace }): SizedDesign | undefined {
    const design = presentDesign(space, spots[0]!.name);
    const lamp = trials.lamp(design);
    if ('why' in lamp) return undefined;
    const outcome = trials.outcome(design, lamp);
    return 'why' in outcome ? undefined : { design, ...outcome };
  }
}

function recommend(trials: SpaceTrials, weather: WeatherRecord | undefined, sized: SizedDesign) {
  const { design, ...outcome } = sized;
  const trial = trials.whole(design, trials.lamp(design) as LampParams);
  const whole = outcomeOf(trial);
  if (JSON.stringify(whole) !== JSON.stringify(outcome))
    throw new Error(
      `design ${design.index} comes to ${JSON.stringify(whole)} with its hours, not ${JSON.stringify(outcome)}`,
    );
  const recommended: Recommended = {
    ...sized,
    withPoorParts: withPoorParts(trials, weather, design),
    margin: { smallestReserve_J: whole.smallestReserve_J, oneYearOnly: whole.winters <= 1 },
    verdict: trial.statistics.verdict,
    flags: trial.flags,
  };
  return { recommended, trial };
}

function withPoorParts(
  { space, lights }: SpaceTrials,
  weather: WeatherRecord | undefined,
  design: Design,
): LeanOutcome | null | undefined {
  const alone = aloneIn(space.scenario, design);
  const [spot, lamp] = [alone.spots[0]!, alone.lamps[0]!];
  const lean = new LeanTrials(alone, weather, lights);
  const poor = genericEnds(alone)(0, lean.premises(spot, lamp), spot, lamp);
  return poor && (lean.outcome(poor) ?? null);
}

function nearestOf(trials: SpaceTrials, weather: WeatherRecord | undefined, sized: SizedDesign): Nearest {
  const { recommended, trial } = recommend(trials, weather, sized);
  return { ...recommended, inTheWay: causesOf(trial) };
}

/** What the failed nights of a trial come from, most first. */
function causesOf({ statistics }: HourlyTrial): Nearest['inTheWay'] {
  const nights = new Map<NightCause, number>();
  for (const { causes } of overWinters(statistics.winters).winters)
    for (const [cause, count] of Object.entries(causes) as [NightCause, number][])
      nights.set(cause, (nights.get(cause) ?? 0) + count);
  return [...nights].map(([cause, count]) => ({ cause, nights: count })).sort((a, b) => b.nights - a.nights);
}

/** Along the front by price: each time the failed nights become fewer. */
function stepsAlong(front: readonly SizedDesign[]): SizingStep[] {
  const stairs: SizedDesign[] = [];
  for (const sized of front) {
    if (sized.failedNights < (stairs.at(-1)?.failedNights ?? Number.POSITIVE_INFINITY)) stairs.push(sized);
  }
  return stairs.slice(1).map((to, k) => {
    const from = stairs[k]!;
    return {
      from,
      to,
      adds: to.design.price! - from.design.price!,
      mends: from.failedNights - to.failedNights,
    };
  });
}
