import { log } from '../common/elementary/log.ts';
import type { Found } from '../sizing/find/Found.ts';
import { type Look, paint } from './textTable.ts';
import { plural, shortNumber } from './words.ts';

/**
 * The answers to a single question as text: one sentence a trial, and what must be known beside it.
 *
 * in: found, of one question; look, of the terminal
 * out: text, ending in a line break
 */
export function findText(found: readonly Found[], look: Look = {}): string {
  const style = paint(look);
  const lines = found.flatMap((one) => style.wrap(`${one.lamp} on ${one.spot}: ${sentence(one)}`, 0, 2));
  return `${lines.join('\n')}\n`;
}

function sentence(found: Found): string {
  const { value, notes } = found;
  const told = value === undefined ? nothingKeeps(found) : answerWords(found, value);
  const beside = [...notes, ...closedWords(found)].map((note) => `; ${note}`);
  return `${told}${beside.join('')}.`;
}

function answerWords(found: Found, value: number): string {
  const { neighbour, stated } = found;
  const limit =
    neighbour === undefined ? `the ${found.end} that was tried` : `not with ${amount(found, neighbour)}`;
  const now = stated === undefined || found.find === 'shade' ? '' : `, ${amount(found, stated)} as stated`;
  return `${amount(found, value)} is ${superlative(found)} (${limit}${now})${shareWords(found, value)}${turnWords(found)}${soldWords(found)}`;
}

function nothingKeeps(found: Found): string {
  const { nearest, lookedFrom, lookedTo, what } = found;
  const tried = `no ${what} from ${amount(found, lookedFrom, 3)} to ${amount(found, lookedTo, 3)} keeps every night`;
  if (nearest === undefined) return `${tried}, and no such lamp can be run`;
  const { failedNights, nights } = nearest;
  return `${tried}; nearest comes ${amount(found, nearest.value, 3)}, with ${failedNights} failed ${plural(failedNights, 'night')} of ${nights}`;
}

function superlative({ find, end, what }: Found): string {
  if (find === 'promise') return 'the longest promise that is kept every night';
  if (find === 'light') return 'what every night still has to the end of the promise';
  return `the ${end} ${what} with which every night is kept`;
}

function amount({ find, unit }: Found, value: number, digits = 4): string {
  if (find === 'promise') {
    const minutes = Math.round(value * 60);
    const rest = minutes % 60;
    return `${Math.floor(minutes / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
  }
  return `${Number(shortNumber(value, digits))}${unit === '1' ? '' : ` ${unit}`}`;
}

/** Shares that are said in words. */
const SHARES = [
  [1 / 10, 'a tenth'],
  [1 / 8, 'an eighth'],
  [1 / 6, 'a sixth'],
  [1 / 5, 'a fifth'],
  [1 / 4, 'a quarter'],
  [1 / 3, 'a third'],
  [2 / 5, 'two fifths'],
  [1 / 2, 'half'],
  [3 / 5, 'three fifths'],
  [2 / 3, 'two thirds'],
  [3 / 4, 'three quarters'],
  [5 / 6, 'five sixths'],
  [9 / 10, 'nine tenths'],
] as const;

/** How that shade looks from where the maker stands. */
function shareWords({ find }: Found, share: number): string {
  if (find !== 'shade') return '';
  if (share > 1) return `: ${amountOf(share)} times as much as it has, so a lighter spot or a larger cell`;
  const [, words] = SHARES.reduce((nearest, one) =>
    Math.abs(log(one[0] / share)) < Math.abs(log(nearest[0] / share)) ? one : nearest,
  );
  const lost = Math.floor(100 * (1 - share));
  return `: some ${share > 0.95 ? 'all' : words} of it, so that leaves, dirt or a hedge may take ${lost} percent at all hours`;
}

function amountOf(share: number): string {
  return `${Number(shortNumber(share, 3))}`;
}

/** Where keeping turns back, so that nobody takes more for better. */
function turnWords(found: Found): string {
  const { turns, end } = found;
  if (turns.length === 0) return '';
  const [up, beyond] = end === 'least' ? ['up to', 'from'] : ['down to', 'from'];
  const words = turns.map((turn, k) =>
    k % 2 === 0
      ? `${k === 0 ? '' : ' '}${up} ${amount(found, turn)}`
      : `, again ${beyond} ${amount(found, turn)}`,
  );
  return `; only ${words.join('')}`;
}

function soldWords(found: Found): string {
  const { preferred, value } = found;
  if (preferred.length === 0 || value === preferred[0]!.value) return '';
  const sizes = [...new Set(preferred.map((one) => one.value))].sort((a, b) => a - b);
  const words = sizes.map((size) => {
    const series = preferred.flatMap((one) => (one.value === size ? [one.series] : []));
    return `${amount(found, size)} (${series.join(' and ')})`;
  });
  return `; the next size to buy is ${words.join(' or ')}`;
}

function closedWords(found: Found): string[] {
  const { closedForm } = found;
  if (closedForm === undefined) return [];
  const { value, from_V } = closedForm;
  return [
    `by closed form ${amount(found, Number(value.toPrecision(3)))} in the dark from a full capacitor, ${from_V.toFixed(2)} V`,
  ];
}
