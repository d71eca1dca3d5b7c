import type { CapacitorReading, ReadingStep } from '../ageing/capacitorReadings.ts';
import type { JarCard } from '../ageing/JarCard.ts';
import { civilOffset } from '../common/civilTime.ts';
import { MONTH_NAMES } from '../common/time.ts';

/** A row of a card's table: what is read, how far from that of the new lamp, what it means. */
export interface MeaningRow {
  reads: string;
  moved: string;
  means: string;
}

/** A card for a jar in words, for terminal and page. */
export interface JarCardWords {
  title: string;
  spring: { title: string; tasks: string[] };
  /** None where no reading tells. */
  autumn: { title: string; how: string[]; rows: MeaningRow[]; headings: MeaningRow; says: string[] };
  expected: string[];
  care: string[];
}

/** Less than that of the capacitance is not worth a word. */
const SEEN_PERCENT = 1;

/** A card for a jar in words. in: card */
export function jarCardWords(card: JarCard): JarCardWords {
  const { spot, lamp, springMonth, spring, care, readings } = card;
  const { best } = readings;
  return {
    title: `For the jar of ${lamp} on ${spot}`,
    spring: { title: `Each ${MONTH_NAMES[springMonth - 1]}`, tasks: spring },
    autumn:
      best === undefined
        ? { title: 'No reading', how: [noReading(card)], rows: [], headings: HEADINGS, says: [] }
        : {
            title: `Each ${MONTH_NAMES[best.month - 1]}, one voltage`,
            how: [howRead(best, card)],
            rows: meaningRows(best),
            headings: { ...HEADINGS, reads: best.sinceDusk ? 'fallen by' : 'reads' },
            says: meaningSentences(best, readings.atDusk_V),
          },
    expected: expectedSentences(card),
    care,
  };
}

const HEADINGS: MeaningRow = { reads: 'reads', moved: 'since new', means: 'capacitance left' };

function noReading({ readings: { mostTelling, atDusk_V } }: JarCard): string {
  if (Number.isNaN(mostTelling))
    return 'The weather holds too few evenings before the dark weeks to say what a voltage means.';
  return `No single voltage in the dark tells this capacitor's age: 30 percent less capacitance moves the best of them only ${mostTelling.toFixed(1)} times as far as clear evenings, meter, dirt and leakage do (at dusk by ${(Math.abs(atDusk_V) * 1000).toFixed(0)} mV). Time a discharge through a resistor instead: longnight check --bench says which.`;
}

function howRead(reading: CapacitorReading, { timeZone, onAtDusk }: JarCard): string {
  const clock = clockAt(reading.middle_ms, timeZone);
  const from = onAtDusk ? 'after it came on' : 'after dusk';
  const when =
    reading.at === 'dawn'
      ? `in the morning before it is light (about ${clock} in the middle of the month), after a clear day`
      : reading.at === 0
        ? `at dusk (about ${clock} in the middle of the month) of a clear day`
        : `${reading.at} ${reading.at === 1 ? 'hour' : 'hours'} ${from} (about ${clock} in the middle of the month), on the evening of a clear day`;
  if (!reading.sinceDusk) return `Multimeter on volts, across the capacitor, ${when}. Nothing is unplugged.`;
  return `Multimeter on volts, across the capacitor, at dusk and again ${when}: what counts is how far it has fallen. Nothing is unplugged.`;
}

function clockAt(ms: number, timeZone: string): string {
  const local = new Date(ms + civilOffset(timeZone)(ms) * 60_000);
  const minutes = Math.round((local.getUTCHours() * 60 + local.getUTCMinutes()) / 10) * 10;
  return `${Math.floor(minutes / 60) % 24}:${String(minutes % 60).padStart(2, '0')}`;
}

/** Between two steps the nearer counts. */
function meaningRows({ steps }: CapacitorReading): MeaningRow[] {
  const [fresh] = steps;
  return steps.map((step) => ({
    reads: volts(step),
    moved:
      step === fresh
        ? ''
        : `${step.volts < fresh!.volts ? '-' : '+'}${Math.abs(step.volts - fresh!.volts).toFixed(2)} V`,
    means: step === fresh ? '100 percent, new' : `${percent(step.capacitance)} percent`,
  }));
}

function meaningSentences(reading: CapacitorReading, atDusk_V: number): string[] {
  const { steps, causes, alone_percent, sinceNew_percent, at } = reading;
  const worn = steps.findIndex(({ capacitance }) => capacitance === 0.7);
  const [before, seventy] = [steps[worn - 1]!, steps[worn]!];
  const passed = Math.abs(seventy.volts) < Math.abs(before.volts) ? 'Below' : 'Above';
  const seen = causes.filter(({ asIfLost_percent }) => Math.abs(asIfLost_percent) >= SEEN_PERCENT);
  const unseen = causes.filter((cause) => !seen.includes(cause));
  const like = ({ what, asIfLost_percent: lost }: (typeof causes)[number]) =>
    `${what} like ${Math.abs(lost).toFixed(0)} percent ${lost > 0 ? 'less' : 'more'}`;
  return [
    `${passed} ${volts(seventy)} the capacitance is 70 percent or less.`,
    `Read it in the first autumn too, and write it down: what changed since then tells the capacitance to ${Math.ceil(sinceNew_percent)} percent either way, the reading by itself to ${Math.ceil(alone_percent)}.`,
    seen.length > 0 ? `Other causes read like a loss too: ${seen.map(like).join('; ')}.` : '',
    unseen.length > 0 ? `It does not see: ${unseen.map(({ what }) => what).join('; ')}.` : '',
    at === 0 || Number.isNaN(atDusk_V)
      ? ''
      : `At dusk the voltage says little: 30 percent less capacitance changes it by ${Math.abs(atDusk_V).toFixed(2)} V.`,
  ].filter((sentence) => sentence !== '');
}

function expectedSentences({ expected, renew }: JarCard): string[] {
  const each = expected.map(({ winter, low_V, high_V }) => {
    const [low, high] = [Math.abs(low_V), Math.abs(high_V)].sort((a, b) => a - b) as [number, number];
    const range = high - low < 0.005 ? low.toFixed(2) : `${low.toFixed(2)} to ${high.toFixed(2)}`;
    return `winter ${winter}: ${range} V`;
  });
  return [
    ...(each.length === 0 ? [] : [`To expect, by the published laws of ageing: ${each.join('; ')}.`]),
    ...(renew === undefined
      ? []
      : [
          `At ${Math.abs(renew.volts).toFixed(2)} V (${percent(renew.capacitance)} percent, about winter ${renew.winter}) fit a new capacitor: from there on nights of the dark weeks fail.`,
        ]),
  ];
}

function volts({ volts: value }: ReadingStep): string {
  return `${Math.abs(value).toFixed(2)} V`;
}

function percent(share: number): string {
  return (100 * share).toFixed(0);
}
