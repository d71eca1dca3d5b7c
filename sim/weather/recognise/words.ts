/**
 * A text as its bare words: lower case, without accents, signs turned into single blanks, letters and digits of a
 * run-together name kept together ('T2m'), humps of camel case parted ('SnowDepth').
 *
 * in: text
 * out: words with single blanks between, none at the ends
 * @example normaliseHeading('Globale Straling (J/cm²)'); // => 'globale straling j cm2'
 */
export function normaliseHeading(text: string): string {
  return text
    .replace(/([a-z])([A-Z][a-z])/g, '$1 $2')
    .toLowerCase()
    .replaceAll('²', '2')
    .replaceAll('ß', 'ss')
    .replaceAll('ø', 'o')
    .replaceAll('æ', 'ae')
    .replaceAll('ł', 'l')
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();
}

/**
 * A text of at most so many characters, for reports: longer ones end at a word, with dots.
 *
 * in: text; most, characters
 * @example shortened('global radiation of the hour', 20); // => 'global radiation ...'
 */
export function shortened(text: string, most: number): string {
  const whole = text.trim();
  if (whole.length <= most) return whole;
  const cut = whole.slice(0, most - 3);
  const blank = cut.lastIndexOf(' ');
  return `${(blank > most / 2 ? cut.slice(0, blank) : cut).trimEnd()} ...`;
}

/** Names in quotes, at most so many of them. */
export function listed(names: Iterable<string>, most: number): string {
  const quoted = Array.from(names, (name) => `"${name}"`);
  return `${quoted.slice(0, most).join(', ')}${quoted.length > most ? ', ...' : ''}`;
}

/** A value as it is typed, in quotes where it must be. */
export function typed(value: string): string {
  return /[^\w=./-]/.test(value) ? `"${value}"` : value;
}
