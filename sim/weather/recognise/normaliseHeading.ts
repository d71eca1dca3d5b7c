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
