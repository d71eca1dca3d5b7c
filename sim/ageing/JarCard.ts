import type { Scenario, ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { type Discharge, dischargeOf } from '../trial/benchCare.ts';
import { coverCautions, WHERE_IT_SERVES } from '../trial/cautions.ts';
import { ohmWords } from '../trial/loadResistor.ts';
import { overRating } from '../trial/overRating.ts';
import { placedIn } from '../trial/runAll.ts';
import type { TrialTerms } from '../trial/runTrial.ts';
import { type CapacitorReadings, capacitorReadings, readingAt } from './capacitorReadings.ts';
import type { LampLife } from './lampLife.ts';
import type { LifeEnd } from './lifeEnd.ts';
import type { LifeWeather } from './lifeWeather.ts';
import { lightLoss } from './lightLoss.ts';
import type { TrialLife } from './ScenarioLives.ts';

/** What the reading should be in a winter, by how the published laws have the capacitor age. */
export interface ExpectedReading {
  winter: number;
  low_V: number;
  high_V: number;
}

/** A card for the jar of one lamp in one spot: what to do each year, and what a reading means. */
export interface JarCard {
  spot: string;
  lamp: string;
  timeZone: string;
  /** Whether the lamp comes on at dusk, so that hours can be counted from that. */
  onAtDusk: boolean;
  readings: CapacitorReadings;
  /** Some winters of its life; none without a life or a reading that tells. */
  expected: ExpectedReading[];
  /** The reading with which the promise first breaks, where the capacitor is what ends it. */
  renew: { volts: number; capacitance: number; winter: number } | undefined;
  /** 1 to 12, when to brush and to look. */
  springMonth: number;
  /** What to do then, sentence by sentence. */
  spring: string[];
  /** Before a wire is touched, what can hurt, and what comes first. */
  care: string[];
}

/** A lamp's life as the card needs it: by band, and what ends each. */
export interface CardLife {
  bands: readonly LampLife[];
  ends: readonly (LifeEnd | undefined)[];
}

const SHOWN_WINTERS = [1, 5, 10, 15, 20, 30];

/**
 * The card for the jar of one lamp in one spot.
 *
 * in: lamp; spot; light, its spot's, with an autumn in it; terms; life, for what to expect in which winter, none where
 *   it is not known
 * throws: as `runTrial`
 */
export function jarCard(
  lamp: ScenarioLamp,
  spot: ScenarioSpot,
  light: SpotLight,
  terms: TrialTerms,
  life: CardLife = { bands: [], ends: [] },
): JarCard {
  const readings = capacitorReadings(lamp, light, terms);
  return {
    spot: spot.name,
    lamp: lamp.name,
    timeZone: terms.site.timeZone,
    onAtDusk: lamp.params.schedule.on === 'dusk',
    readings,
    expected: expectedReadings(readings, life),
    renew: renewal(readings, life),
    springMonth: terms.site.latitude_deg < 0 ? 10 : 4,
    spring: springTasks(lamp, spot),
    care: careOf(lamp, spot),
  };
}

/**
 * The cards for the jars of a scenario's lamps, one a trial, with what their lives let expect.
 *
 * in: scenario; trials, their lives; weather that they were run through, of which the first year or winter is read
 * throws: InputProblem as `runTrial`
 */
export function jarCards(
  scenario: Scenario,
  trials: readonly TrialLife[],
  { lights, start }: Pick<LifeWeather, 'lights' | 'start'>,
): JarCard[] {
  const { site, promise, seed, spots, lamps } = scenario;
  return trials.map((trial) => {
    const lamp = lamps.find(({ name }) => name === trial.lamp)!;
    const spot = spots.find(({ name }) => name === trial.spot)!;
    const terms = { spot: spot.name, lamp: lamp.name, site, promise, start, seed };
    return placedIn(scenario, () => jarCard(lamp, spot, lights.get(spot.name)![0], terms, trial));
  });
}

function expectedReadings({ best }: CapacitorReadings, { bands }: CardLife): ExpectedReading[] {
  if (best === undefined) return [];
  return SHOWN_WINTERS.flatMap((winter) => {
    const volts = bands.flatMap(({ winters }) => {
      const age = winters[winter - 1]?.age;
      return age === undefined ? [] : [readingAt(best.steps, age.capacitor.capacitance)];
    });
    return volts.length === 0 ? [] : [{ winter, low_V: Math.min(...volts), high_V: Math.max(...volts) }];
  });
}

/** That of the middle law, or of the first that the capacitor ends. */
function renewal({ best }: CapacitorReadings, { bands, ends }: CardLife): JarCard['renew'] {
  const byCapacitor = bands
    .map((band, k) => ({ band, end: ends[k] }))
    .filter(({ end }) => end?.by === 'capacitor');
  const { band, end } = byCapacitor.find(({ band: { law } }) => law === 'middle') ?? byCapacitor[0] ?? {};
  const worn = band?.winters[(end?.winter ?? 0) - 1];
  if (best === undefined || worn === undefined) return undefined;
  const { capacitance } = worn.age.capacitor;
  return { volts: readingAt(best.steps, capacitance), capacitance, winter: worn.winter };
}

/** source: common practice, no source */
function springTasks({ section, params }: ScenarioLamp, { section: { cover } }: ScenarioSpot): string[] {
  const { dirt } = lightLoss(section.cell, cover);
  const { series, rated_V, balancing_kohm } = section.capacitor;
  const balanced = balancing_kohm === undefined ? ', which nothing balances' : '';
  const tasks = [
    `Brush and wash ${cover.kind === 'none' ? 'the cell' : 'the cover over the cell'} with water and a soft brush; cut back what has grown over it.${
      dirt > 0
        ? ` Dirt is taken to cost ${Number((100 * dirt).toPrecision(2))} percent of the light a year.`
        : ''
    }`,
    'Look at the seal: water or mist inside, a lifted bead of silicone, green copper, rust? Dry it, seal it again, clear the drain hole. Take cracked glass away.',
    series > 1 &&
      `Read each of the ${series} capacitors in series${balanced}: none above ${rated_V.toFixed(2)} V, and all alike to 0.1 V.`,
    params.capacitor.lowest_V > 0 &&
      `Never let the bank stand below ${params.capacitor.lowest_V.toFixed(2)} V.`,
  ];
  return tasks.filter((task) => task !== false);
}

function careOf({ params, settled }: ScenarioLamp, spot: ScenarioSpot): string[] {
  const withheld = overRating(params, settled);
  const care = [
    withheld !== undefined &&
      `Full sun drives this capacitor to ${withheld.reachable_V.toFixed(2)} V, and it is rated ${withheld.rated_V.toFixed(2)} V: it can burst. Change the lamp before anything else.`,
    emptying(dischargeOf(params, settled.capacitor), params.capacitor.lowest_V > 0),
    'Charged, it gives hundreds of amperes when shorted: no rings, eye protection, meter on volts, probes bare at the tips only. Best read at two points outside the jar, each led through 1 kohm close to the capacitor: the meter shows the same, and a slip shorts nothing.',
    'A swollen or leaking capacitor: leave it, air, gloves, never use it again. Old ones go to electrical waste.',
    ...coverCautions([spot]),
    WHERE_IT_SERVES,
  ];
  return care.filter((sentence) => sentence !== false);
}

function emptying({ ohm, rated_W, hours, to_V }: Discharge, staysCharged: boolean): string {
  const span = hours < 1.5 ? `${Math.ceil(hours * 60)} minutes` : `${hours.toFixed(1)} hours`;
  const end = staysCharged
    ? `down to ${to_V.toFixed(2)} V and no further: take the resistor off there, it stays charged, tape its terminals`
    : `until the meter shows less than ${to_V.toFixed(2)} V, and leave it there`;
  return `Before you touch a wire: cover the cell, ${ohmWords(ohm)} rated ${rated_W} W across the capacitor for about ${span}, ${end}. The resistor gets hot.`;
}
