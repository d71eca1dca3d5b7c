import { properSigns } from './properSigns.ts';

/** What an element can have: numbers are written with two decimals at most; undefined leaves the attribute out. */
type Attributes = Readonly<Record<string, string | number | undefined>>;

/** A rectangle of a picture: where it begins and how large it is. */
export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

/**
 * An element of SVG or HTML as text, its attributes escaped.
 *
 * in: name; attributes; content, markup that is already escaped ('' closes the element at once)
 * out: markup
 * @example element('rect', { x: 1.005, class: 'a' }); // => '<rect x="1" class="a"/>'
 */
export function element(name: string, attributes: Attributes, content = ''): string {
  let text = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined) continue;
    const written =
      typeof value === 'number'
        ? coordinate(value)
        : SPOKEN.has(key)
          ? wordsMarkup(value)
          : escapeText(value);
    text += ` ${key}="${written}"`;
  }
  return content === '' ? `${text}/>` : `${text}>${content}</${name}>`;
}

/** Attributes that are read out to people. */
const SPOKEN: ReadonlySet<string> = new Set(['aria-label', 'aria-valuetext', 'title']);

/**
 * A length or a place in a picture, to a hundredth of a unit, as short as can be.
 * @example coordinate(12.5004); // => '12.5'
 */
export function coordinate(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}

/** A picture of a class and a size, with what says of it what it is. */
export function svg(
  kind: string,
  { width, height }: Pick<Box, 'width' | 'height'>,
  attributes: Attributes,
  marks: readonly string[],
): string {
  const own = {
    xmlns: 'http://www.w3.org/2000/svg',
    class: `picture ${kind}`,
    viewBox: `0 0 ${width} ${height}`,
  };
  return element('svg', { ...own, ...attributes }, marks.join(''));
}

/** A group of marks once more, through a matrix. */
export function use(id: string, matrix: readonly number[]): string {
  const values = matrix.map((value) => String(Math.round(value * 1e5) / 1e5));
  return element('use', { href: `#${id}`, transform: `matrix(${values.join(' ')})` });
}

/** The marks of one box once more, stretched into another. */
export function borrowed(id: string, from: Box, to: Box): string {
  const [wide, high] = [to.width / from.width, to.height / from.height];
  return use(id, [wide, 0, 0, high, to.x - from.x * wide, to.y - from.y * high]);
}

/** A rect of a class. */
export function rect(kind: string, { x, y, width, height }: Box): string {
  return element('rect', { class: kind, x, y, width, height });
}

/** A path of a class; without a line where there is nothing to draw. */
export function path(kind: string, d: string | null): string {
  return element('path', { class: kind, d: d || undefined });
}

/**
 * A text in a picture.
 *
 * in: x and y of its anchor; words; kind, its class
 * out: markup
 */
export function label(x: number, y: number, words: string, kind = 'axis'): string {
  return element('text', { x, y, class: kind }, wordsMarkup(words));
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * A text as it may stand in SVG and HTML, between tags or in a quoted attribute. What XML does not allow (control
 * characters, halves of pairs) becomes the replacement character; marks that override the writing direction go.
 *
 * in: text, of any origin
 * out: the text, escaped
 * @example escapeText('<b>'); // => '&lt;b&gt;'
 */
export function escapeText(text: string): string {
  return (
    text
      .replace(/(?![\t\n\r])\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu, '\ufffd')
      // Embeddings and overrides would turn the words after a name; scripts written from the right need none of them.
      .replace(/[\u202a-\u202e]/g, '')
      .replace(/[&<>"']/g, (character) => ENTITIES[character]!)
  );
}

/**
 * A sentence, a heading, a label or a cell as it stands in SVG and HTML: escaped, and with the proper signs of units.
 * Names, keys and files that stand alone keep every character: `escapeText`.
 *
 * in: words
 * out: markup
 * @example wordsMarkup('below 2 W/m2'); // => 'below 2 W/m²'
 */
export function wordsMarkup(words: string): string {
  return escapeText(properSigns(words));
}

/**
 * A name from a scenario for use within a sentence: fenced off, so that its writing direction does not turn the words
 * around it, nor its unclosed marks run on.
 *
 * in: name
 * out: the name between a first strong isolate (U+2068) and its end (U+2069); direction marks within it taken out
 */
export function isolated(name: string): string {
  return `\u2068${name.replace(/[\u202a-\u202e\u2066-\u2069]/g, '')}\u2069`;
}
