/** What is never rewritten: names, fenced off by `isolated` or listed in brackets, and what is quoted, to be typed or found. */
const AS_GIVEN = /(\u2068[^\u2069]*\u2069|\[[^\]]*\]|"[^"]*")/;

/** Units and signs as they are typed, with the proper sign of each; what belongs to a key (`leakage_uA`) is none. */
const SIGNS: readonly (readonly [typed: RegExp, proper: string])[] = [
  [/(?<![\w.-])degC\b/g, '°C'],
  [/(?<=\d) deg\b/g, '°'],
  [/(?<![\w.-])deg\b/g, '°'],
  [/(?<![\w.-])u(?=[AFHWsV]\b)/g, 'µ'],
  [/(?<![\w.-])([kMm]?)ohm\b/g, '$1Ω'],
  [/(?<![\w.-])([ck]?m)2\b/g, '$1²'],
  [/\b(k?lm) h\b/g, '$1·h'],
  [/\+\/?-(?=\d)/g, '±'],
  [/(?<= )x(?= |\d)/g, '×'],
  [/>=/g, '≥'],
  [/<=/g, '≤'],
];

/**
 * Words with the proper signs of their units, °C, µA, W/m² and their like, for where more than ASCII can be shown: the
 * pages and pictures. Names between isolates or brackets and what stands between quotes are as they were.
 *
 * in: words, of the terminal's ASCII
 * out: the words
 * @example properSigns('372 Wh/m2 at 20 degC'); // => '372 Wh/m² at 20 °C'
 */
export function properSigns(words: string): string {
  return words
    .split(AS_GIVEN)
    .map((part, k) =>
      k % 2 === 1 ? part : SIGNS.reduce((text, [typed, proper]) => text.replace(typed, proper), part),
    )
    .join('');
}
