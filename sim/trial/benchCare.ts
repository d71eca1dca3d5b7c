import { log } from '../common/elementary/log.ts';
import { square } from '../common/numeric.ts';
import { capacitorEnergy_J } from '../lamp/capacitor/step.ts';
import type { LampParams } from '../lamp/params.ts';
import type { SettledSection } from '../lamp/schema.ts';
import { dischargeMinutes } from './benchMeters.ts';
import { WHERE_IT_SERVES } from './cautions.ts';
import { type LoadResistor, loadResistor, ohmWords } from './loadResistor.ts';

/** How the capacitor bank of a lamp is emptied before anybody touches its wires. */
export interface Discharge extends LoadResistor {
  from_V: number;
  /** Empty for hands and tools; of a bank that must not be emptied a little above its lowest voltage. */
  to_V: number;
  hours: number;
  /** Into the resistor, from from_V to to_V. */
  heat_J: number;
  /** What to do, sentence by sentence. */
  steps: string[];
}

/** Below it a bank counts as empty: common practice, no source. */
const EMPTY_V = 0.1;
/** A bank that must not be emptied is left so far above its lowest voltage. */
const ABOVE_LOWEST = 1.05;
/** Its delayed charge is all in. */
const LONG_HELD_H = 1000;
/** The resistor is to take so long, if it can begin with no more than this current and power; the current counts more. */
const WANTED_S = 3 * 3600;
const MOST_W = 1;
const MOST_A = 1;
/** Of the supply that fills a bank. */
const SUPPLY_LIMIT_A = 1;

/**
 * How to empty the capacitor bank of a lamp through a resistor: ohms, watts, hours, joules and the steps.
 *
 * in: lamp, its bank; section, its parts
 * out: from the rated voltage down to 0.1 V; of a bank with a lowest voltage to 5 percent above that
 * source: ZubietaBonert2000 (dQ/dV = C0 + C1 V)
 */
export function dischargeOf({ capacitor }: Pick<LampParams, 'capacitor'>, section: BankSection): Discharge {
  const { rated_V: from_V, lowest_V } = capacitor;
  const bank = wholeBank(capacitor);
  // A voltage so low that it counts as empty is brought to a tenth of it.
  const to_V = Math.max(Math.min(EMPTY_V, from_V / 10), Math.min(lowest_V * ABOVE_LOWEST, 0.99 * from_V));
  // R (C0 ln(from / to) + C1 (from - to)), delayed charge as if it followed at once.
  const secondsAnOhm = bank.capacitance_F * log(from_V / to_V) + bank.rise_F_V * (from_V - to_V);
  const wanted_ohm = Math.max(from_V / MOST_A, Math.min(WANTED_S / secondsAnOhm, square(from_V) / MOST_W));
  const resistor = loadResistor(wanted_ohm, from_V);
  const left_J = capacitorEnergy_J(bank, to_V);
  const found = {
    ...resistor,
    from_V,
    to_V,
    hours: dischargeMinutes(capacitor, { from_V, to_V, held_h: LONG_HELD_H, load_ohm: resistor.ohm }) / 60,
    heat_J: capacitorEnergy_J(bank, from_V) - left_J,
  };
  const steps = lowest_V > 0 ? partlySteps(found, lowest_V, left_J) : emptySteps(found, section);
  return { ...found, steps };
}

type BankSection = SettledSection['capacitor'];
type Course = Omit<Discharge, 'steps'>;

/** The bank with its delayed branches counted in. */
function wholeBank(capacitor: LampParams['capacitor']): LampParams['capacitor'] {
  const [quick, delayed] = capacitor.delayed;
  const capacitance_F = capacitor.capacitance_F + quick.capacitance_F + delayed.capacitance_F;
  return { ...capacitor, capacitance_F };
}

function emptySteps(course: Course, { series }: BankSection): string[] {
  const to = volts(course.to_V);
  const each = series > 1 ? ' across each part; a part that is not gets the resistor by itself' : '';
  return [
    `Cover the cell. Put ${ohmWords(course.ohm)}, rated ${course.rated_W} W or more, across ${series > 1 ? 'the whole bank' : 'the capacitor'}. ${courseWords(course)}`,
    `Check with the meter: below ${to}${each}. Leave the resistor across it while you work: charge that had crept in comes back.`,
  ];
}

function partlySteps(course: Course, lowest_V: number, left_J: number): string[] {
  return [
    `Never empty this capacitor: below ${volts(lowest_V)} it is spoilt. Cover the cell. Put ${ohmWords(course.ohm)}, rated ${course.rated_W} W or more, across it and stay there. ${courseWords(course)}`,
    `At ${volts(course.to_V)} on the meter take the resistor off. Never leave it across.`,
    `It stays charged, with ${two(left_J)} J: tape over every terminal but the one you work at, and have a fuse in its plus lead, drawn while you wire.`,
  ];
}

function courseWords({ from_V, to_V, hours, begins_A, begins_W, heat_J }: Course): string {
  return `From ${volts(from_V)} to ${volts(to_V)} takes about ${spanWords(hours)}. It begins with ${two(begins_A)} A and ${two(begins_W)} W and makes ${two(heat_J)} J of heat: the resistor gets hot, lay it on a tile and do not touch it.`;
}

/**
 * What can hurt whoever builds a lamp and measures it, in sentences; common practice, no source.
 *
 * in: lamp, its bank; section, its parts
 */
export function benchCautions({ capacitor }: Pick<LampParams, 'capacitor'>, section: BankSection): string[] {
  const { rated_V, lowest_V } = capacitor;
  const { parallel, series } = section;
  const full_h = (wholeBank(capacitor).capacitance_F * rated_V) / SUPPLY_LIMIT_A / 3600;
  const found = [
    'Charged, a supercapacitor gives hundreds of amperes when shorted: no rings, eye protection, insulated tools, tape over its terminals.',
    `Plus to plus, and never above ${volts(rated_V)}. Reversed, overcharged or overheated it swells and vents: the fumes harm and can burn. Leave it, open the windows, touch a leak only with gloves, never use it again.`,
    parallel > 1 &&
      (lowest_V > 0
        ? 'Join parts in parallel only when all stand at the same voltage, to 0.02 V, and first through the resistor for an hour: a fuller one drives hundreds of amperes into the other.'
        : `Join the ${parallel} ${series > 1 ? 'strings ' : ''}in parallel only when each by itself is empty (step 0): a full one drives hundreds of amperes into an empty one.`),
    series > 1 &&
      `While the bank charges read each of the ${series} parts in series, and take the supply off when one reaches ${volts(rated_V / series)}.`,
    `A supply is set before it is connected: its voltage, and ${SUPPLY_LIMIT_A} A at most (it fills this bank in about ${spanWords(full_h)}). Plus to plus. Stay with it as long as it is connected; take its leads off before you switch it off.`,
    'After every reading of a current put the leads back to the volt sockets: in the ampere socket the meter shorts whatever it touches next.',
    'Do not look into the lit LED from near. Keep children away from bench and open lamp.',
    WHERE_IT_SERVES,
  ];
  return found.filter((sentence) => sentence !== false);
}

/** A span of time in the unit that suits it. */
function spanWords(hours: number): string {
  if (hours < 1 / 60) return `${two(hours * 3600)} s`;
  return hours < 1.5 ? `${two(hours * 60)} min` : `${two(hours)} h`;
}

function two(value: number): number {
  return Number(value.toPrecision(2));
}

function volts(value_V: number): string {
  return `${value_V.toFixed(2)} V`;
}
