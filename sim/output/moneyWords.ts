import { fixed } from '../common/csvText.ts';
import type { BuildSheet } from '../trial/benchSheet.ts';
import type { LampMoney } from '../trial/lampMoney.ts';
import type { Change } from '../trial/Trial.ts';
import { plural } from './words.ts';

/**
 * An amount of money, with two decimals and the word for it where there is one.
 *
 * in: amount; currency, as the scenario names it
 * @example moneyWords(12.5, 'EUR'); // => '12.50 EUR'
 */
export function moneyWords(amount: number, currency: string | undefined): string {
  return currency === undefined ? amount.toFixed(2) : `${amount.toFixed(2)} ${currency}`;
}

/**
 * What the parts of a lamp cost together, and whose price is missing, as a sentence.
 *
 * in: cost, undefined without any price; unpriced, names of parts; currency, as the scenario names it
 * @example costSentence({ cost: 12.5, unpriced: ['jar'], currency: 'EUR' }); // => 'Together 12.50 EUR; without a price: jar.'
 */
export function costSentence({
  cost,
  unpriced,
  currency,
}: Pick<BuildSheet, 'cost' | 'unpriced' | 'currency'>): string {
  if (cost === undefined) return 'No prices are given.';
  const without = unpriced.length === 0 ? '' : `; without a price: ${unpriced.join('; ')}`;
  return `Together ${moneyWords(cost, currency)}${without}.`;
}

/**
 * The price of a lamp and the light that money buys with it, as a sentence; '' where parts without a price leave it open.
 *
 * @example priceSentence({ currency: 'EUR', price: 12.5, unpriced: [], lightForUnit_lm_h: 400 }); // => 'Its parts cost 12.50 EUR: 400 lumen-hours a year for each EUR.'
 */
export function priceSentence({ currency, price, lightForUnit_lm_h: light }: LampMoney): string {
  if (price === undefined) return '';
  if (price === 0) return 'Its parts cost nothing more.';
  const each = currency === undefined ? '1.00' : currency;
  const buys = light === undefined ? '' : `: ${fixed(light, 0)} lumen-hours a year for each ${each}`;
  return `Its parts cost ${moneyWords(price, currency)}${buys}.`;
}

/**
 * The prices of several lamps and the light that money buys with each in its spots, as a sentence; '' without a price.
 *
 * in: lamps, each with its money in its spots
 * @example partsSentence([{ lamp: 'a', spots: [{ spot: 'b', money: { currency: undefined, price: 12.5, unpriced: [], lightForUnit_lm_h: 400 } }] }]); // => 'Parts (lumen-hours a year for each 1.00): a 12.50 (b 400).'
 */
export function partsSentence(
  lamps: readonly { lamp: string; spots: readonly { spot: string; money: LampMoney }[] }[],
): string {
  const words = lamps.flatMap(({ lamp, spots }) => {
    const { price, currency } = spots[0]!.money;
    if (price === undefined) return [];
    const buys = spots.flatMap(({ spot, money: { lightForUnit_lm_h: light } }) =>
      light === undefined ? [] : [`${spot} ${fixed(light, 0)}`],
    );
    return [`${lamp} ${moneyWords(price, currency)}${buys.length === 0 ? '' : ` (${buys.join(', ')})`}`];
  });
  const each = lamps[0]?.spots[0]?.money.currency ?? '1.00';
  return words.length === 0 ? '' : `Parts (lumen-hours a year for each ${each}): ${words.join(', ')}.`;
}

/**
 * What a single change costs and mends, in words; '' where nothing is bought or its price is not known.
 *
 * in: change; currency, as the scenario names it
 * @example addsWords({ cost: 1.5, failedNights: 3, failedNightsBefore: 12 }, 'EUR'); // => 'adds 1.50 EUR and mends 9 nights'
 */
export function addsWords(
  { cost, failedNights, failedNightsBefore }: Pick<Change, 'cost' | 'failedNights' | 'failedNightsBefore'>,
  currency: string | undefined,
): string {
  if (cost === undefined || cost === 0) return '';
  const mended = failedNightsBefore - failedNights;
  const mends = mended > 0 ? ` and mends ${mended} ${plural(mended, 'night')}` : '';
  return `adds ${moneyWords(cost, currency)}${mends}`;
}

/** The price of a lamp in a cell of a table; '' where it is not known. */
export function priceCell({ price, currency }: LampMoney): string {
  return price === undefined ? '' : moneyWords(price, currency);
}

/**
 * What tables show of the money of lamps, each cell '' where it is not known.
 *
 * in: shown, all of one table: where these are of one currency it is named
 */
export function moneyCells(
  shown: readonly { money: LampMoney }[],
): { heading: string; cell: (money: LampMoney) => string }[] {
  const currencies = new Set(shown.map(({ money }) => money.currency));
  const [only] = currencies.size === 1 ? currencies : [];
  return [
    { heading: 'price of the parts', cell: priceCell },
    {
      heading: `lumen-hours a year for each ${only ?? '1.00'}`,
      cell: ({ lightForUnit_lm_h: light }) => (light === undefined ? '' : fixed(light, 0)),
    },
  ];
}
