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
