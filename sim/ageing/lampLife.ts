import type { ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { overWinters } from '../statistics/overWinters.ts';
import { runNights, runTrial, type TrialTerms } from '../trial/runTrial.ts';
import type { NightTrial } from '../trial/Trial.ts';
import type { YearColumns } from '../year/YearColumns.ts';
import { agedLamp, type LampAge } from './agedLamp.ts';
import { BankAge } from './BankAge.ts';
import { beyondRating_h, type CapacitorStress, stressOf, wearUnder } from './CapacitorStress.ts';
import { type LifeLaw, lifeRating } from './capacitorWear.ts';
import { ledRating, ledWear } from './ledFade.ts';
import { lightLeft, lightLoss } from './lightLoss.ts';

/** A part of a lamp that wears, and can be made new. */
export type WornPart = keyof LampAge;

/** What a life is run with. */
export interface LifeTerms extends TrialTerms {
  years: number;
  law: LifeLaw;
  /** Whether the cover is cleaned each spring. */
  cleaned: boolean;
  /** Parts made new before a winter. */
  renewals?: readonly { winter: number; part: WornPart }[];
  /** Every winter's hours are run, not only those of a lamp that has changed much since. */
  exact?: boolean | undefined;
}

/** A winter of a lamp's life. */
export interface LifeWinter {
  /** 1 is the first. */
  winter: number;
  age: LampAge;
  /** Means over the winters that it is run through; of one year of weather they are whole numbers of nights. */
  failedNights: number;
  short_h: number;
  light_lm_h: number;
  /** Share of those winters in which a night fails. */
  broken: number;
  smallestReserve_J: number;
}

/** A lamp through the years, under the same weather over and over. */
export interface LampLife {
  law: LifeLaw['name'];
  winters: LifeWinter[];
  /** The first winter in which a night fails in half of the weather's winters or more; undefined where none does. */
  breaks: number | undefined;
  /** Share of the capacitor's rated life that the first year spends. */
  firstWear: number;
  /** The same, were the capacitor at its rated voltage all the time. */
  firstWearAtRated: number;
  /** Hours of the first year in which the capacitor was warmer or higher than its life is rated for. */
  beyondRating_h: number;
}

/** Hours are run again once a part has changed by that share. */
const CHANGED = 0.015;
const YEAR_H = 8766;

/**
 * A lamp of one spot through many winters, each run with the lamp as old as it is then.
 *
 * in: lamp; spot; lights, of whole years: a record, or several made winters, of which the first is what wears the lamp;
 *   terms
 * out: as many winters as asked for
 * throws: as `runTrial`
 * valid: a winter's lamp is as old as at its year's begin. Where hours are not run every year, wear is that of a year in
 *   which every part was within 1.5 percent of what it is
 */
export function lampLife(
  lamp: ScenarioLamp,
  spot: ScenarioSpot,
  lights: readonly [SpotLight, ...SpotLight[]],
  terms: LifeTerms,
): LampLife {
  const parts = new LampWear(lamp, spot, terms);
  const winters: LifeWinter[] = [];
  let hoursAt: LampAge | undefined;
  const first = { firstWear: 0, firstWearAtRated: 0, beyondRating_h: 0 };
  const [wearing, ...others] = lights;
  for (let winter = 1; winter <= terms.years; winter++) {
    for (const { part } of terms.renewals?.filter((each) => each.winter === winter) ?? []) parts.renew(part);
    const age = parts.age();
    const aged = agedLamp(lamp.params, age);
    let trial: NightTrial;
    if (terms.exact || hoursAt === undefined || isChanged(age, hoursAt)) {
      const hourly = runTrial(aged, wearing, terms);
      parts.stand(hourly.year.columns);
      if (hoursAt === undefined) {
        first.beyondRating_h = parts.beyondRating_h();
        first.firstWearAtRated = parts.wearAtRated();
      }
      hoursAt = age;
      trial = hourly;
    } else trial = runNights(aged, wearing, terms);
    winters.push(winterOf(winter, age, [trial, ...others.map((light) => runNights(aged, light, terms))]));
    parts.spendYear();
    if (winter === 1) first.firstWear = parts.wear();
  }
  return {
    law: terms.law.name,
    winters,
    breaks: winters.find(({ broken }) => broken >= 0.5)?.winter,
    ...first,
  };
}

function isChanged(age: LampAge, since: LampAge): boolean {
  const moved = (now: number, then: number) => Math.abs(now / then - 1) > CHANGED;
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
    failedNights: all.failedNights / years,
    short_h: all.short_h / years,
    light_lm_h: all.lightGiven_lm_h / years,
    broken: all.winters.filter(({ failedNights }) => failedNights > 0).length / years,
    smallestReserve_J: all.smallestReserve_J,
  };
}

/** How the parts of one lamp wear from year to year. */
class LampWear {
  private readonly lamp: ScenarioLamp;
  private readonly spot: ScenarioSpot;
  private readonly terms: LifeTerms;
  private bank: BankAge;
  private ledSpent = 0;
  private ledYear = 0;
  /** That the hours are of. */
  private years = 1;
  private readonly since = { cell: 0, cover: 0 };
  private stress: CapacitorStress = { bank_V: new Float64Array(), degC: new Float64Array() };

  constructor(lamp: ScenarioLamp, spot: ScenarioSpot, terms: LifeTerms) {
    this.lamp = lamp;
    this.spot = spot;
    this.terms = terms;
    this.bank = new BankAge(lamp.section.capacitor, terms.law);
  }

  age(): LampAge {
    const { section } = this.lamp;
    const loss = lightLoss(section.cell, this.spot.section.cover);
    const cell = lightLeft({ ...loss, yellowing: 0, dirt: 0 }, this.since.cell, true);
    const cover = lightLeft({ ...loss, cell: 0 }, this.since.cover, this.terms.cleaned);
    return {
      capacitor: this.bank.age(),
      led: ledRating(section.led).left ** this.ledSpent,
      cell,
      cover,
    };
  }

  /** What a year of hours is to the parts, until other hours are run. */
  stand(columns: YearColumns): void {
    const { led } = this.lamp.section;
    this.years = columns.count / YEAR_H;
    this.stress = stressOf(columns);
    this.ledYear = ledWear(columns, ledRating(led), led.count) / this.years;
  }

  spendYear(): void {
    this.bank.spend(this.stress, this.years);
    this.ledSpent += this.ledYear;
    this.since.cell++;
    this.since.cover++;
  }

  renew(part: WornPart): void {
    if (part === 'capacitor') this.bank = new BankAge(this.lamp.section.capacitor, this.terms.law);
    else if (part === 'led') this.ledSpent = 0;
    else this.since[part] = 0;
  }

  /** Share of the capacitor's rated life that is spent. */
  wear(): number {
    return this.bank.wear();
  }

  /** Share of its rated life that a year at the rated voltage would spend, as warm as it was. */
  wearAtRated(): number {
    const { degC } = this.stress;
    const rating = lifeRating(this.lamp.section.capacitor);
    const bank_V = new Float64Array(degC.length).fill(this.lamp.section.capacitor.rated_V);
    return wearUnder({ bank_V, degC }, rating, this.terms.law, 1) / this.years;
  }

  /** Hours a year beyond the capacitor's rating. */
  beyondRating_h(): number {
    const rating = lifeRating(this.lamp.section.capacitor);
    return beyondRating_h(this.stress, rating, this.bank.weakShare()) / this.years;
  }
}
