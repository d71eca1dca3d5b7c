import type { JarCard } from '../ageing/JarCard.ts';
import type { LampLife } from '../ageing/lampLife.ts';
import type { LifeSweep, LifeVariant, ScenarioLives, TrialLife } from '../ageing/ScenarioLives.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { jsonText, published } from './json.ts';
import type { Program } from './program.ts';

/** What a file of lives is made from, beside them. */
export interface LivesOf {
  lives: ScenarioLives;
  /** Of its trials. */
  sweeps: readonly LifeSweep[];
  scenario: Scenario;
  /** For the jars of its trials, where they were asked for. */
  cards?: readonly JarCard[];
}

/** Numbers of lives need no more significant digits. */
const DIGITS = 6;

/**
 * The text of life.json, schema 1: the lives of a scenario's lamps by the three factors, and sweeps, without clock or
 * absolute path, keys in a fixed order. What each winter comes to is a list a quantity, the first winter first.
 *
 * in: lives, sweeps and their scenario; program, what made it; files, SHA-256 (hexadecimal) of each file written beside
 *   it, by name
 * out: JSON text, ending in LF
 */
export function lifeJson(
  { lives, sweeps, scenario, cards = [] }: LivesOf,
  program: Program,
  files: Readonly<Record<string, string>>,
): string {
  const { name, sha256, seed, resolved } = scenario;
  const { years, cleaned, weather, winters, currency, trials, assumptions, flags, partial } = lives;
  return jsonText(program, {
    ...(partial === undefined ? {} : { partial: published(partial) }),
    seed,
    scenario: { name, sha256, resolved },
    weather,
    winters_of_weather: winters,
    years,
    cleaned_each_spring: cleaned,
    currency: currency ?? null,
    assumptions,
    flags,
    trials: trials.map(trialData),
    sweeps: sweeps.map(sweepData),
    ...(cards.length === 0 ? {} : { jar_cards: published(cards, DIGITS) }),
    files,
  });
}

function trialData({ spot, lamp, bands, ends, price, totals, renewal, cheapLamp, dry, facts }: TrialLife) {
  return {
    spot,
    lamp,
    factors: bands.map((life, k) => ({ ...lifeData(life), ended_by: published(ends[k], DIGITS) })),
    price: price ?? null,
    totals: published(totals, DIGITS),
    renewal: published(renewal, DIGITS),
    cheap_lamp: published(cheapLamp, DIGITS),
    dry_share: published(dry, DIGITS),
    facts_of_the_trade: published(facts),
  };
}

/** A life with a list for each quantity of its winters. */
function lifeData({ law, breaks, winters, pastRating, ...first }: LampLife) {
  const list = (of: (winter: LampLife['winters'][number]) => number) => published(winters.map(of), DIGITS);
  return {
    factor: law,
    first_broken_winter: breaks ?? null,
    past_rating_from_winter: pastRating ?? null,
    ...(published(first, DIGITS) as object),
    interpolated: winters.map(({ between }) => (between === true ? 1 : 0)),
    capacitance_left: list(({ age }) => age.capacitor.capacitance),
    resistance_times: list(({ age }) => age.capacitor.resistance),
    leakage_times: list(({ age }) => age.capacitor.leakage),
    led_left: list(({ age }) => age.led),
    cell_left: list(({ age }) => age.cell),
    cover_left: list(({ age }) => age.cover),
    failed_nights: list(({ failedNights }) => failedNights),
    short_h: list(({ short_h }) => short_h),
    light_given_lm_h: list(({ light_lm_h }) => light_lm_h),
    broken_share: list(({ broken }) => broken),
    smallest_reserve_J: list(({ smallestReserve_J }) => smallestReserve_J),
  };
}

function sweepData({ what, spot, lamp, variants, best }: LifeSweep) {
  return { what, spot, lamp, best: best ?? null, values: variants.map(variantData) };
}

function variantData({ label, value, unit, bands, tonight, untilBreak_klm_h, cannotBe }: LifeVariant) {
  if (cannotBe !== undefined) return { label, value, unit, cannot_be: cannotBe };
  return {
    label,
    value,
    unit,
    first_winter: published(
      { failedNights: tonight.failedNights, lightGiven_lm_h: tonight.light_lm_h },
      DIGITS,
    ),
    factors: bands.map((life, k) => ({
      factor: life.law,
      first_broken_winter: life.breaks ?? null,
      until_break_klm_h: published(untilBreak_klm_h[k], DIGITS),
      capacitance_left: published(
        life.winters.map(({ age }) => age.capacitor.capacitance),
        DIGITS,
      ),
    })),
  };
}
