/**
 * A name as a part of a file name: letters, digits and hyphens of ASCII, at most 40, in lower case.
 *
 * in: name, of any origin
 * out: '' where none of it is left
 * @example slug('North Side / 2'); // => 'north-side-2'
 */
export function slug(name: string): string {
  return name
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .toLowerCase()
    .slice(0, 40)
    .replace(/^-+|-+$/g, '');
}
