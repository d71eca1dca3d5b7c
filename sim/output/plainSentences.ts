import { greatest, rollup } from 'd3-array';
import { MONTH_NAMES } from '../common/time.ts';
import type { PromiseSection, ScheduleSection } from '../lamp/schedule/schema.ts';
import type { NightRow } from '../night/nightLedger.ts';
import type { WinterOdds } from '../statistics/WinterOdds.ts';
import { type YearFacts, yearFacts } from '../statistics/yearFacts.ts';
import type { NightTrial } from '../trial/Trial.ts';
import { aboutHours, countWord, hourWords, shareWords } from './numberWords.ts';
import { capital, spokenDates } from './words.ts';

/** What plain sentences must know of a run beside the trial. */
export interface PlainSetting {
  promise: PromiseSection;
  /** North positive. */
  latitude_deg: number;
  /** Of the lamp, which may flash or wait for motion. */
  schedule?: Pick<ScheduleSection, 'motion' | 'on_share'> | undefined;
  /** Whether the one winter there is has not happened, but is the typical one of made winters. */
  made?: boolean;
}

/**
 * What a trial comes to, in two sentences for whoever does not build lamps: on how many nights it shines as long as
 * promised, and what becomes of the others, or how close the closest comes. 'It' is the lamp.
 *
 * in: trial; setting
 * out: two sentences without names
 */
export function plainSentences(
  trial: Pick<NightTrial, 'nights' | 'statistics'>,
  setting: PlainSetting,
): readonly [string, string] {
  const facts = yearFacts(trial, setting.latitude_deg);
  const { totals } = facts;
  if (totals.nights === 0)
    return [
      'No night of this record is promised any light.',
      'So there is nothing to keep, and nothing to fail.',
    ];
  const shines = `it ${shineWords(facts, setting)}`;
  const withYear = totals.winters.length > 1;
  const { odds } = trial.statistics;
  const first =
    odds === undefined
      ? `${frame(facts, setting)}${shines} on ${nightsKept(facts, setting, withYear)}.`
      : `${winterCount(odds)} ${shines} on ${everyNight(facts)}.`;
  if (totals.failedNights === 0) return [capital(first), closestCall(facts, withYear)];
  const second = odds === undefined ? fallingShort(facts, withYear) : worstWinter(facts, odds);
  return [capital(first), `${second}.`];
}

/** Less is not seen. */
const LEAST_FORGIVEN_H = 1 / 60;

/** What it does for how long: 'shines for six hours after dusk'. */
function shineWords({ cutShort, forgiven_h }: YearFacts, { promise, schedule }: PlainSetting): string {
  const { from, hours, until = 'dawn' } = promise;
  const waits = schedule?.motion === undefined ? '' : ', when something moves,';
  const flashes = (schedule?.on_share ?? 1) < 1 ? ' in flashes' : '';
  const begin = from === 'dusk' ? 'after dusk' : `from ${from}`;
  const long = hours === undefined ? `from ${from} until ${until}` : `for ${hourWords(hours)} ${begin}`;
  const asides = [
    cutShort && hours !== undefined && from === 'dusk' ? 'or until dawn' : '',
    forgiven_h > LEAST_FORGIVEN_H ? `give or take ${hourWords(promise.tolerance_h)}` : '',
  ].filter((aside) => aside !== '');
  return `shines${flashes}${waits} ${[long, ...asides].join(', ')}${asides.length > 0 ? ',' : ''}`;
}

/** Of which nights the first sentence speaks, where that is not simply the year. */
function frame({ extent, from, to }: YearFacts, { made }: PlainSetting): string {
  if (made === true) return 'in a typical made winter ';
  if (extent === 'year') return '';
  const span = `from ${spokenDates(from, to, true)}`;
  return `${span}, ${extent === 'part' ? 'all that is on record, ' : ''}`;
}

const PROMISED = ' for which that is promised';
/** Up to this share of failed nights they are the exceptions, named by their dates. */
const FEW = 0.25;

function nightsKept(facts: YearFacts, { made }: PlainSetting, withYear: boolean): string {
  const { nights, failedNights } = facts.totals;
  const year = facts.extent === 'year' && made !== true ? ' of the year' : '';
  const which = `${year}${facts.allPromised ? '' : PROMISED}`;
  if (failedNights === 0) return `every night${which}`;
  if (failedNights === nights) return `no night${which}`;
  if (failedNights <= nights * FEW)
    return `every night${which} but ${countWord(failedNights)}${when(facts, withYear)}`;
  const kept = nights - failedNights;
  return `${kept < nights * FEW ? 'only ' : ''}${countWord(kept)} of the ${nights} nights${which}`;
}

/** Failed nights further apart than this do not belong together. */
const TOGETHER = 45;

/** When the failed nights are, after their number. */
function when({ failed }: YearFacts, withYear: boolean): string {
  const { nights, span } = failed;
  const [first, last] = [nights[0]!, nights.at(-1)!];
  const date = (night: string) => spokenDates(night, night, withYear);
  if (nights.length === 1) return `, ${date(first)}`;
  if (span === nights.length) return ` in a row, ${spokenDates(first, last, withYear)}`;
  if (span <= TOGETHER) return `, all between ${date(first)} and ${date(last)}`;
  const months = rollup(
    nights,
    (own) => own.length,
    (night) => night.slice(0, 7),
  );
  const [month, count] = greatest(months, ([, own]) => own)!;
  if (count <= nights.length / 2) return `, the first on ${date(first)}, the last on ${date(last)}`;
  const name = MONTH_NAMES[Number(month.slice(5)) - 1]!;
  return `, ${countWord(count)} of them in ${name}${withYear ? ` ${month.slice(0, 4)}` : ''}`;
}

/** What becomes of the failed nights of one winter. */
function fallingShort({ failed, totals }: YearFacts, withYear: boolean): string {
  const { nights, out, bySnow, span, worst } = failed;
  const count = nights.length;
  if (count === 1) {
    const why = bySnow === 1 ? ', with snow on its lid to blame' : '';
    return `That night it is ${missing(worst!)}${why}`;
  }
  const date = (night: string) => spokenDates(night, night, withYear);
  const between =
    count <= totals.nights * FEW || span > totals.nights * 0.75
      ? ''
      : `, all between ${date(nights[0]!)} and ${date(nights.at(-1)!)},`;
  const which = `the ${countWord(count)} nights that fall short${between}`;
  const snow =
    bySnow === 0 ? '' : ` (snow on the lid is to blame for ${bySnow === count ? 'all' : countWord(bySnow)})`;
  const how =
    out === count
      ? `On ${which} it is ${OUT}`
      : out === 0
        ? `On ${which} it is ${DIM}`
        : `Of ${which} it is ${OUT} on ${countWord(out)}, and ${DIM} on ${countWord(count - out)}`;
  return `${how}${snow}; the worst is ${worstNight(worst!, withYear)}`;
}

const OUT = 'out for some of that time or all of it';
const DIM = 'dim rather than out';

function worstNight(worst: NightRow, withYear: boolean): string {
  return `${spokenDates(worst.night, worst.night, withYear)}, when it is ${missing(worst)}`;
}

/** What of a night's promise is missing: 'too dim for about two hours'. */
function missing({ promised_h, short_h, dim_h, out_h }: NightRow): string {
  const seen = (hours: number) => hours >= LEAST_FORGIVEN_H;
  const how = !seen(dim_h) ? 'out' : seen(out_h) ? 'too dim or out' : 'too dim';
  return `${how} for ${seen(promised_h - short_h) ? aboutHours(short_h) : 'all of that time'}`;
}

/** How near the hardest night of a lamp that kept all comes to failing. */
function closestCall({ totals, usualReserve_J }: YearFacts, withYear: boolean): string {
  const { smallestReserve_J: left_J, smallestReserveNight: night } = totals;
  if (Number.isNaN(left_J)) return 'How near it comes to failing is not known.';
  const left =
    left_J > 0 && usualReserve_J > 0
      ? `${shareWords(left_J / usualReserve_J)} is left`
      : 'nothing is left to shine with';
  return `Its closest call is the night of ${spokenDates(night, night, withYear)}: by morning ${left}.`;
}

/** In how many of several winters; to be followed by what the lamp does there. */
function winterCount({ winters, kept }: WinterOdds): string {
  const all = `${countWord(winters)} winters on record`;
  if (kept === 0) return `of ${all} there is none in which`;
  if (kept < winters) return `in ${countWord(kept)} of ${all}`;
  return winters === 2 ? 'in both winters on record' : `in all ${all}`;
}

function everyNight({ totals, allPromised }: YearFacts): string {
  const whole = totals.winters.every(({ extent }) => extent === 'whole');
  return `every night${whole ? '' : ' that is on record'}${allPromised ? '' : PROMISED}`;
}

/** What the typical and the worst of several winters come to. */
function worstWinter({ failed }: YearFacts, { failedNights, worstWinter: name }: WinterOdds): string {
  const { nights, out, worst } = failed;
  const count = nights.length;
  const begin = `In a typical winter ${shortNights(failedNights.typical)}, in the worst, ${name}, ${countWord(count)}`;
  const night = worstNight(worst!, true);
  if (count === 1) return `${begin}: ${night}`;
  const how =
    out === count
      ? `it is ${OUT} on each`
      : out === 0
        ? `it is ${DIM} on each`
        : `it is ${OUT} on ${countWord(out)} of them, and ${DIM} on ${countWord(count - out)}`;
  return `${begin}: ${how}; the worst is ${night}`;
}

/** A median count of nights, which may lie between two, as the end of a sentence. */
function shortNights(typical: number): string {
  if (typical === 0) return 'no night falls short';
  if (typical < 1) return 'one night at most falls short';
  const [below, above] = [countWord(Math.floor(typical)), countWord(Math.ceil(typical))];
  if (below !== above) return `${below} or ${above} nights fall short`;
  return `about ${below} ${typical === 1 ? 'night falls' : 'nights fall'} short`;
}
