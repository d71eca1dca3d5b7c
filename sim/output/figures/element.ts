import { escapeText } from './escapeText.ts';

/** What an element can have: numbers are written with two decimals at most; undefined leaves the attribute out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

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
    if (value !== undefined)
      text += ` ${key}="${typeof value === 'number' ? shortNumber(value) : escapeText(value)}"`;
  }
  return content === '' ? `${text}/>` : `${text}>${content}</${name}>`;
}

/**
 * A length in a picture, to a hundredth of a unit, as short as can be.
 * @example shortNumber(12.5004); // => '12.5'
 */
export function shortNumber(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}
