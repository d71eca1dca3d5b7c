import { median, quantile } from 'd3-array';
import { hypot } from '../common/elementary/hypot.ts';
import { log } from '../common/elementary/log.ts';
import { HOUR_MS } from '../common/time.ts';
import { changedLamp } from '../fitting/serviceDays.ts';
import type { CapacitorChange } from '../lamp/capacitor/params.ts';
import type { LampParams } from '../lamp/params.ts';
import type { ScenarioLamp } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { TrialTerms } from '../trial/runTrial.ts';
import { agedLamp, type LampAge, NEW } from './agedLamp.ts';
import { capacitorAge, lifeRating } from './capacitorWear.ts';
import { autumnOf, type Days, daysOf, type Evening, evenings } from './evenings.ts';

/** When a voltmeter is held to a capacitor in the dark. */
export interface ReadingTime {
  /** Hours after dusk, or the dawn after. */
  at: number | 'dawn';
  /** What counts is how far it has fallen since dusk, which takes a reading then too. */
  sinceDusk: boolean;
}

/** What a reading is at some of the capacitance. */
export interface ReadingStep {
  /** Share of the capacitance of a new lamp. */
  capacitance: number;
  /** The middle of clear evenings. */
  volts: number;
}

/** Something else that moves a reading. */
export interface OtherCause {
  what: string;
  moves_V: number;
  /** Percent of the capacitance that would have to be lost for as much; below 0 where it reads as if there were more. */
  asIfLost_percent: number;
}

/** The reading of a voltmeter that tells most about the capacitance of one lamp in one spot. */
export interface CapacitorReading extends ReadingTime {
  /** 1 to 12, before the dark weeks. */
  month: number;
  /** Mean of the instants of reading in that month, UTC milliseconds in the middle of its evenings. */
  middle_ms: number;
  /** Of the weather, that it is taken from. */
  clearEvenings: number;
  /** From a new capacitor on, falling. */
  steps: ReadingStep[];
  causes: OtherCause[];
  /** How closely one reading tells the capacitance: percent of a new one's to either side. */
  alone_percent: number;
  /** The same of how far it has moved since this very lamp was new, which the driver's own draw is no part of. */
  sinceNew_percent: number;
}

/** What the readings of a lamp in the dark say of its capacitance. */
export interface CapacitorReadings {
  /** Undefined where none tells 30 percent less from everything else. */
  best: CapacitorReading | undefined;
  /** Of all that were tried, the most that 30 percent less capacitance does over what everything else does; NaN without any. */
  mostTelling: number;
  /** What 30 percent less capacitance does at dusk, volts; NaN where nothing was tried. */
  atDusk_V: number;
}

/** Capacitance of a new lamp and of three worn ones, as shares. */
const SHARES = [1, 0.85, 0.7, 0.5] as const;
const WORN = SHARES.indexOf(0.7);
/** Hours after dusk at which somebody may still be up. */
const HOURS = [0, 1, 2, 3, 4, 5] as const;
const LEAST_EVENINGS = 4;
/** A second walk to the lamp, at dusk, must make a reading so much better. */
const SECOND_WALK = 1.25;
/** A reading that tells: 30 percent less moves it by so many times what everything else does. */
const LEAST_TELLING = 2;
/** Of a plain multimeter: share of what it shows, and its last digit above 2 V, volts. */
const METER = { share: 0.005, digit_V: 0.005 };
const LATE_H = 0.25;

const CAUSES = {
  light: 'dirt on the cover or a poorer cell, 15 percent less light',
  leakage: 'three times the leakage',
  led: 'an LED that gives a third less light',
  draw: 'a driver that draws 10 percent more',
  mixed: 'a day of sun and cloud before',
  dull: 'a dull day before',
  late: 'read a quarter of an hour off',
} as const;
type Cause = keyof typeof CAUSES;

/**
 * Which voltage in the dark tells how much capacitance a lamp has left, found by running it new, with 85, 70 and 50
 * percent, and with what else may have changed.
 *
 * in: lamp; light of its spot, whole years or a record that holds autumn; terms
 * out: the reading that 30 percent less moves most against everything else: the scatter of clear evenings, a day not
 *   quite clear, the meter, a quarter of an hour, light, leakage and LED; in one of the three months before the dark weeks
 * throws: as `runTrial`
 * valid: voltages of the capacitor itself; its series resistance adds millivolts while the LED is on. Evenings of the
 *   brightest third of the days of a month without snow on the lid
 */
export function capacitorReadings(
  lamp: ScenarioLamp,
  light: SpotLight,
  terms: TrialTerms,
): CapacitorReadings {
  const months = terms.site.latitude_deg < 0 ? [3, 4, 5] : [9, 10, 11];
  const autumn = autumnOf(light, terms.site, months[0]! - 1);
  const run = (aged: LampParams) => evenings(aged, autumn, terms);
  const worn = SHARES.map((share) => run(wornLamp(lamp, share)));
  const changed = changedLamps(lamp.params).map(([what, other]) => [what, run(other)] as const);
  const tried = months.flatMap((month) => {
    const days = daysOf(worn[0]!, month);
    if (days.clear.length < LEAST_EVENINGS) return [];
    return READINGS.map((time) => judged(time, { month, days, worn, changed }));
  });
  const worth = ({ telling, reading }: Judged) => telling / (reading.sinceDusk ? SECOND_WALK : 1);
  const [first] = tried.toSorted((one, other) => worth(other) - worth(one));
  const month = first?.reading.month;
  const dusk = tried.find(({ reading }) => reading.at === 0 && reading.month === month)?.reading.steps;
  return {
    best: first !== undefined && first.telling >= LEAST_TELLING ? first.reading : undefined,
    mostTelling: first?.telling ?? Number.NaN,
    atDusk_V: dusk === undefined ? Number.NaN : dusk[WORN]!.volts - dusk[0]!.volts,
  };
}

const READINGS = [...HOURS, 'dawn' as const].flatMap((at): ReadingTime[] =>
  at === 0 ? [{ at, sinceDusk: false }] : [false, true].map((sinceDusk) => ({ at, sinceDusk })),
);

/** What is left of a capacitor that has so much of its capacitance; resistance and leakage no further than its rating goes. */
function agedTo({ section }: ScenarioLamp, capacitance: number): CapacitorChange {
  const rating = lifeRating(section.capacitor);
  const wear = log(capacitance) / log(rating.capacitanceLeft);
  return { ...capacitorAge(rating, Math.min(1, wear)), capacitance };
}

function wornLamp(lamp: ScenarioLamp, capacitance: number): LampParams {
  return agedLamp(lamp.params, { ...NEW, capacitor: agedTo(lamp, capacitance) });
}

function changedLamps(lamp: LampParams): [Cause, LampParams][] {
  const at = (age: Partial<LampAge>) => agedLamp(lamp, { ...NEW, ...age });
  return [
    ['light', at({ cell: 0.85 })],
    ['leakage', at({ capacitor: { ...NEW.capacitor, leakage: 3 } })],
    ['led', at({ led: 2 / 3 })],
    ['draw', changedLamp(lamp, 1, 1.1)],
  ];
}

interface Judged {
  reading: CapacitorReading;
  /** What 30 percent less capacitance does, over what everything else but the driver's draw and a dull day does. */
  telling: number;
}

interface Compared {
  month: number;
  days: Days;
  /** By SHARES. */
  worn: readonly (readonly Evening[])[];
  changed: readonly (readonly [Cause, readonly Evening[]])[];
}

function judged({ at, sinceDusk }: ReadingTime, { month, days, worn, changed }: Compared): Judged {
  const read = (of: readonly Evening[], i: number, late_h?: number) =>
    sinceDusk ? of[i]!.volts(at, late_h) - of[i]!.volts(0) : of[i]!.volts(at, late_h);
  const middle = (of: readonly Evening[], places = days.clear, late_h?: number) =>
    median(places, (i) => read(of, i, late_h)) ?? Number.NaN;
  const fresh = worn[0]!;
  const steps = SHARES.map((capacitance, k) => ({ capacitance, volts: middle(worn[k]!) }));
  const new_V = steps[0]!.volts;
  const found: readonly (readonly [Cause, number])[] = [
    ...changed.map(([cause, of]) => [cause, middle(of)] as const),
    ['mixed', middle(fresh, days.mixed)],
    ['dull', middle(fresh, days.dull)],
    ['late', middle(fresh, days.clear, LATE_H)],
  ];
  const moves = found.map(([cause, volts]) => ({ cause, volts, moves_V: volts - new_V }));
  const scatter_V = Math.max(
    ...[fresh, worn[WORN]!].map((of) => halfSpread(days.clear.map((i) => read(of, i)))),
  );
  const others_V = hypot(
    scatter_V,
    METER.share * Math.abs(new_V),
    METER.digit_V * (sinceDusk ? Math.SQRT2 : 1),
    ...moves.flatMap(({ cause, moves_V }) => (cause === 'draw' || cause === 'dull' ? [] : [moves_V])),
  );
  const draw_V = moves.find(({ cause }) => cause === 'draw')!.moves_V;
  const percent_V = Math.abs(steps[WORN]!.volts - new_V) / (100 * (1 - SHARES[WORN]!));
  const evening = fresh[days.clear.toSorted((one, other) => one - other)[days.clear.length >> 1]!]!;
  return {
    telling: (100 * (1 - SHARES[WORN]!) * percent_V) / others_V,
    reading: {
      at,
      sinceDusk,
      month,
      middle_ms: at === 'dawn' ? evening.dawn_ms : evening.dusk_ms + at * HOUR_MS,
      clearEvenings: days.clear.length,
      steps,
      causes: moves.map(({ cause, volts, moves_V }) => ({
        what: CAUSES[cause],
        moves_V,
        asIfLost_percent: 100 * (1 - capacitanceAt(steps, volts)),
      })),
      alone_percent: hypot(others_V, draw_V) / percent_V,
      sinceNew_percent: others_V / percent_V,
    },
  };
}

/** Half of what eight in ten lie within. */
function halfSpread(values: readonly number[]): number {
  return (quantile(values, 0.9)! - quantile(values, 0.1)!) / 2;
}

/**
 * The capacitance, as a share of a new one's, that a reading means; straight lines between the steps and beyond them.
 *
 * in: steps, in their order; volts, read
 * out: not below 0
 */
export function capacitanceAt(steps: readonly ReadingStep[], volts: number): number {
  const rises = steps.at(-1)!.volts > steps[0]!.volts;
  const beyond = steps.findIndex((step) => (rises ? step.volts >= volts : step.volts <= volts));
  const k = Math.max(1, beyond < 0 ? steps.length - 1 : beyond);
  const [one, other] = [steps[k - 1]!, steps[k]!];
  const share = (volts - one.volts) / (other.volts - one.volts);
  return Math.max(0, one.capacitance + share * (other.capacitance - one.capacitance));
}

/** The reading of some capacitance, volts; straight lines between the steps and beyond them. */
export function readingAt(steps: readonly ReadingStep[], capacitance: number): number {
  const beyond = steps.findIndex((step) => step.capacitance <= capacitance);
  const k = Math.max(1, beyond < 0 ? steps.length - 1 : beyond);
  const [one, other] = [steps[k - 1]!, steps[k]!];
  const share = (capacitance - one.capacitance) / (other.capacitance - one.capacitance);
  return one.volts + share * (other.volts - one.volts);
}
