import type { ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { overWinters } from '../statistics/overWinters.ts';
import { runNights, runTrial, type TrialTerms } from '../trial/runTrial.ts';
import type { NightTrial } from '../trial/Trial.ts';
import { agedLamp, type LampAge } from './agedLamp.ts';
import type { LifeLaw } from './capacitorWear.ts';
import { LampWear } from './LampWear.ts';
import { type YearStress, yearStress } from './YearStress.ts';

/** What a life is run with. */
export interface LifeTerms extends TrialTerms {
  years: number;
  law: LifeLaw;
  /** Whether the cover is cleaned each spring. */
  cleaned: boolean;
  /** Every winter is run with its hours, none is taken from those before and after. */
  exact?: boolean | undefined;
}

/** A winter of a lamp's life. */
export interface LifeWinter {
  /** 1 is the first. */
  winter: number;
  age: LampAge;
  /** Means over the winters that it is run through; of one year of weather they are whole numbers of nights. */
  nights: number;
  failedNights: number;
  short_h: number;
  light_lm_h: number;
  /** Share of those winters in which a night fails. */
  broken: number;
  smallestReserve_J: number;
  /** It was not run itself: it lies on a straight line between two that were. */
  between?: true;
}

/** Winters one after the other over which no part changes much: the lamp before each of them, the first and the last as run. */
export interface LifeStretch {
  worn: readonly LampWear[];
  begin: LifeWinter;
  end: LifeWinter;
}

/** A lamp's hours are run again once a part has changed by that share; less often where every night fails anyway. */
const CHANGED = 0.06;
const CHANGED_OF_DARK = 0.5;

/**
 * A lamp of one spot through its winters, each run with the lamp as old as it is then. Where not all are run, what wears
 * it between two that are goes in a straight line from the one to the other.
 */
export class LifeRun {
  readonly terms: LifeTerms;
  /** Winters of weather that each winter is run through, once one was. */
  throughWinters = 0;
  private readonly lamp: ScenarioLamp;
  private readonly spot: ScenarioSpot;
  private readonly lights: readonly [SpotLight, ...SpotLight[]];

  /**
   * in: lamp; spot; lights, of whole years: a record, or several made winters, of which the first is what wears the lamp;
   *   terms
   */
  constructor(
    lamp: ScenarioLamp,
    spot: ScenarioSpot,
    lights: readonly [SpotLight, ...SpotLight[]],
    terms: LifeTerms,
  ) {
    this.lamp = lamp;
    this.spot = spot;
    this.lights = lights;
    this.terms = terms;
  }

  /** The lamp as it is made. */
  fresh(): LampWear {
    const { law, cleaned } = this.terms;
    return new LampWear(this.lamp.section, this.spot.section.cover, law, cleaned);
  }

  /** A winter with a lamp of some age. throws: as `runNights` */
  winter(winter: number, age: LampAge): LifeWinter {
    const lamp = agedLamp(this.lamp.params, age);
    return winterOf(
      winter,
      age,
      this.lights.map((light) => runNights(lamp, light, this.terms)),
    );
  }

  /** The same with what its hours are to the parts. throws: as `runTrial` */
  hours(winter: number, age: LampAge): { ran: LifeWinter; stress: YearStress } {
    const lamp = agedLamp(this.lamp.params, age);
    const [light, ...others] = this.lights;
    const trial = runTrial(lamp, light, this.terms);
    const trials = [trial, ...others.map((other) => runNights(lamp, other, this.terms))];
    this.throughWinters = trials.reduce(
      (sum, { statistics }) => sum + overWinters(statistics.winters).winters.length,
      0,
    );
    return {
      ran: winterOf(winter, age, trials),
      stress: yearStress(trial.year.columns, this.lamp.section),
    };
  }

  /**
   * Stretches from a winter on, up to the last; the first holds that winter alone.
   *
   * in: fresh, the lamp before that winter; first, its number
   * throws: as `runTrial`
   */
  *stretches(
    fresh: LampWear,
    first: number,
    before = this.hours(first, fresh.age()),
  ): Generator<LifeStretch> {
    const { years, exact } = this.terms;
    let [wear, begin] = [fresh, before];
    yield { worn: [wear], begin: begin.ran, end: begin.ran };
    let earlier = { stress: begin.stress, winter: first - 1 };
    for (let winter = first; winter < years; ) {
      const guess = wear.copy();
      let to = winter;
      do {
        // What wears it goes on to change as it did before.
        guess.spendYear(begin.stress, earlier.stress, (winter - to) / (winter - earlier.winter));
        to++;
      } while (to < years && exact !== true && !isChanged(guess.age(), wear.age(), begin.ran));
      const end = this.hours(to, guess.age());
      const worn = [wear];
      for (let year = winter; year < to; year++) {
        wear = wear.copy();
        wear.spendYear(begin.stress, end.stress, (year - winter) / (to - winter));
        worn.push(wear);
      }
      yield { worn, begin: begin.ran, end: { ...end.ran, age: wear.age() } };
      earlier = { stress: begin.stress, winter };
      begin = end;
      winter = to;
    }
  }
}

/** Whether a part has changed so that hours are to be run again. */
function isChanged(age: LampAge, since: LampAge, { failedNights, nights }: LifeWinter): boolean {
  const least = failedNights === nights ? CHANGED_OF_DARK : CHANGED;
  const moved = (now: number, then: number) => Math.abs(now / then - 1) > least;
  return (
    moved(age.capacitor.capacitance, since.capacitor.capacitance) ||
    moved(age.cell * age.cover, since.cell * since.cover) ||
    moved(age.led, since.led)
  );
}

function winterOf(winter: number, age: LampAge, trials: readonly NightTrial[]): LifeWinter {
  const all = overWinters(trials.flatMap(({ statistics }) => statistics.winters));
  const years = all.winters.length;
  return {
    winter,
    age,
    nights: all.nights / years,
    failedNights: all.failedNights / years,
    short_h: all.short_h / years,
    light_lm_h: all.lightGiven_lm_h / years,
    broken: all.winters.filter(({ failedNights }) => failedNights > 0).length / years,
    smallestReserve_J: all.smallestReserve_J,
  };
}
