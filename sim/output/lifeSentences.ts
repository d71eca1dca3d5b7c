import type { WornPart } from '../ageing/LampWear.ts';
import type { LifeRenewal, LifeTotal, ScenarioLives, TrialLife } from '../ageing/ScenarioLives.ts';
import { fixed } from '../common/csvText.ts';
import { bandOf, bandWords, nightsText } from './bandWords.ts';
import { capital, plural, shortNumber } from './words.ts';

/** The part that wears, as a reader knows it. */
const WORN_WORDS: Readonly<Record<WornPart, string>> = {
  capacitor: 'the capacitor',
  led: 'the LED',
  cell: 'the cell',
  cover: 'the lid, yellow or dirty',
};

/** The same made new. */
const NEW_WORDS: Readonly<Record<WornPart, string>> = {
  capacitor: 'a new capacitor',
  led: 'a new LED',
  cell: 'a new cell',
  cover: 'a new lid',
};

/** How a lamp's promise stands the years: kept all along, broken when new, or from which winter on. */
export function lifeState({ bands }: Pick<TrialLife, 'bands'>): 'kept' | 'new' | 'breaks' {
  const breaks = bands.map((life) => life.breaks);
  if (breaks.every((winter) => winter === undefined)) return 'kept';
  return breaks.every((winter) => winter === 1) ? 'new' : 'breaks';
}

/**
 * In which winter a trial's promise first breaks.
 *
 * in: trial; years, that it was run through
 * out: what follows the trial's name
 */
export function breakWords(trial: TrialLife, years: number): string {
  const breaks = bandOf(trial.bands, (life) => life.breaks ?? NEVER);
  const state = lifeState(trial);
  if (state === 'kept') return ` keeps its promise through ${all(years)}`;
  if (state === 'new') {
    const { failedNights } = trial.bands[0]!.winters[0]!;
    return ` breaks its promise when new: ${nights(failedNights)} of the first winter`;
  }
  if (breaks.middle === NEVER)
    return ` keeps its promise through ${all(years)}; by the low factor it first breaks in winter ${breaks.low}`;
  return `: the promise first breaks in winter ${bandWords(breaks, (winter) => winterText(winter, years))}`;
}

/** A winter after all others. */
const NEVER = Number.POSITIVE_INFINITY;

function winterText(winter: number, years: number): string {
  return winter === NEVER ? `beyond ${years}` : `${winter}`;
}

function all(years: number): string {
  return years === 1 ? 'its one winter' : `all ${years} winters`;
}

function nights(count: number): string {
  return `${nightsText(count)} failed ${plural(count, 'night')}`;
}

/** What ends a promise, by the middle factor, and by the others where they say otherwise; '' where nothing does. */
export function endSentence(trial: TrialLife): string {
  const state = lifeState(trial);
  if (state === 'kept') return '';
  if (state === 'new')
    return 'No part is worn yet: what to change is a matter of its parts and its spot (longnight run, longnight compare).';
  const ends = bandOf(trial.ends, (end) => end);
  const words = bandOf(trial.ends, (end) =>
    end === undefined ? undefined : end.by === undefined ? 'no part alone' : WORN_WORDS[end.by],
  );
  const first = words.middle ?? words.low!;
  const others = (['low', 'high'] as const).filter((law) => words[law] !== undefined && words[law] !== first);
  const otherwise =
    others.length === 0 ? '' : ` (${others.map((law) => `${law}: ${words[law]}`).join(', ')})`;
  const told = ends.middle ?? ends.low!;
  const [best] = told.withNew;
  const still =
    best === undefined || best.keeps
      ? ''
      : `; with ${NEW_WORDS[best.part]} that winter still has ${nights(best.failedNights)}`;
  const together = told.together ? ['all wear together, ', ' most'] : ['', ''];
  return `What ends it: ${together[0]}${first}${together[1]}${otherwise}${still}.`;
}

/** From where on what is told is an extrapolation beyond the rating of the capacitor; none where nothing is. */
export function extrapolationSentences({ bands }: TrialLife): string[] {
  const past = bands.flatMap(({ law, pastRating }) =>
    pastRating === undefined ? [] : [`${pastRating} (${law})`],
  );
  const beyond_h = Math.max(...bands.map(({ beyondRating_h }) => beyondRating_h));
  return [
    ...(past.length === 0
      ? []
      : [`Past the capacitor's rating, an extrapolation: from winter ${past.join(', ')}.`]),
    ...(beyond_h < 1
      ? []
      : [
          `CAPACITOR BEYOND ITS RATED VOLTS OR DEGREES for ${fixed(beyond_h, 0)} h of the first year: no factor is vouched for there, what is told is an extrapolation, and it may fail at once.`,
        ]),
  ];
}

/** Which part to replace and when, what that changes and costs: a sentence for each part that the factors name. */
export function renewalSentences(trial: TrialLife, { years, currency }: ScenarioLives): string[] {
  const parts = [...new Set(trial.renewal.map(({ part }) => part))];
  return parts.map((part) => {
    const told = trial.renewal.filter((renewal) => renewal.part === part);
    const costs =
      told[0]!.cost === undefined || told[0]!.cost === 0 ? '' : ` (${money(told[0]!.cost, currency)})`;
    const what = `${part === 'cover' && told[0]!.cost === 0 ? 'a clean lid' : NEW_WORDS[part]}${costs}`;
    const winter = ({ breaks = NEVER }: LifeRenewal) => winterText(breaks, years);
    // Where another factor names another part, each is told for itself.
    const alone = told.length < trial.renewal.length;
    const laws = alone ? `${told.map(({ law }) => law).join(', ')}: ` : '';
    const span = (words: (each: LifeRenewal) => string) =>
      alone ? [...new Set(told.map(words))].join(', ') : spanWords(told, words);
    return capital(
      `${laws}${what} before winter ${span((each) => `${each.winter}`)} keeps it until ${span(winter)}.`,
    );
  });
}

/** What renewals say, by the middle factor (or the first there is), then from the first to the last. */
function spanWords<Each extends { law: string }>(
  told: readonly Each[],
  words: (each: Each) => string,
): string {
  const middle = words(told.find(({ law }) => law === 'middle') ?? told[0]!);
  const ends = [words(told[0]!), words(told.at(-1)!)];
  return ends[0] === ends[1] ? middle : `${middle} (${ends.join(' to ')})`;
}

/** The light until the promise breaks and what a kilolumen-hour of it costs, and that of all winters. */
export function lightSentence(trial: TrialLife, { years, currency }: ScenarioLives): string {
  const { totals, price } = trial;
  const klm_h = (of: (total: LifeTotal) => number) => bandWords(bandOf(totals, of), shortNumber, 'klm h');
  const costs = bandOf(totals, ({ cost_per_klm_h }) => cost_per_klm_h ?? Number.NaN);
  const each =
    price === undefined || Object.values(costs).some(Number.isNaN)
      ? ''
      : `; a klm h costs ${bandWords(costs, (cost) => fixed(cost, 3), currency)}, with parts for ${money(price, currency)}`;
  const overAll = klm_h(({ overAll_klm_h }) => overAll_klm_h);
  const until = klm_h(({ untilBreak_klm_h }) => untilBreak_klm_h);
  return lifeState(trial) === 'breaks'
    ? `Light until it breaks: ${until}${each}. In ${all(years)} ${overAll}.`
    : `Light in ${all(years)}: ${overAll}${each}.`;
}

/** The cheap lamp beside it; '' where there is none. */
export function cheapSentence({ cheapLamp }: TrialLife, { years, currency }: ScenarioLives): string {
  if (cheapLamp === undefined) return '';
  const { price, winters, klm_h, cost, cost_per_klm_h } = cheapLamp;
  const often = winters === 1 ? 'each winter' : `every ${winters} winters`;
  return `A cheap lamp for ${money(price, currency)}, new ${often}: a klm h costs ${money(cost_per_klm_h, currency, 3)} (${shortNumber(klm_h)} klm h for ${fixed(cost, 2)} in ${all(years)}).`;
}

/** In how many of a hundred jars no seal has let water in. */
export function sealSentence({ dry, bands }: TrialLife): string {
  const breaks = bands[1]?.breaks;
  const told = [
    ...new Set([breaks !== undefined && breaks > 1 ? breaks : Math.ceil(dry.length / 2), dry.length]),
  ];
  const words = told.map((winter) => `${Math.round(100 * dry[winter - 1]!)} of 100 in winter ${winter}`);
  return `Seal: jars still dry, ${words.join(', ')}.`;
}

/** A sum of money. */
function money(value: number, currency = '', decimals = 2): string {
  return `${fixed(value, decimals)}${currency === '' ? '' : ` ${currency}`}`;
}

/** Which lamps have no price, so that their light has none; '' where all have one. */
export function unpricedSentence(trials: readonly TrialLife[]): string {
  const names = [...new Set(trials.flatMap(({ price, lamp }) => (price === undefined ? [lamp] : [])))];
  return names.length === 0
    ? ''
    : `What light costs is not told of ${names.join(', ')}: a part has no price.`;
}

/**
 * What the trade holds to be true (common practice, no source) beside what each published factor says of it: a sentence a
 * fact.
 */
export function factSentences({ facts }: TrialLife): string[] {
  return [...new Set(facts.map(({ says }) => says))].map((says) => {
    const told = facts.filter((fact) => fact.says === says);
    const values = [...new Set(told.map(({ value }) => value))].map((value) => {
      const same = told.filter((fact) => fact.value === value);
      const laws = same.map(({ law }) => law).join(', ');
      return `${laws} ${value}${same[0]!.holds ? ' (agrees)' : ''}`;
    });
    return `${capital(says)}: ${values.join('; ')}.`;
  });
}

/** What `factSentences` are, and of which trial. */
export function factHeading({ lamp, spot }: TrialLife): string {
  return `Facts of the trade (common practice, no source) beside the three factors, for ${lamp} on ${spot}:`;
}
