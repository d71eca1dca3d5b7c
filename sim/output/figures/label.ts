import { type Attributes, element } from './element.ts';
import { escapeText } from './escapeText.ts';

/**
 * A text in a picture.
 *
 * in: x and y of its anchor; words; attributes beside (class 'axis' unless given)
 * out: markup
 */
export function label(x: number, y: number, words: string, attributes: Attributes = {}): string {
  return element('text', { x, y, class: 'axis', ...attributes }, escapeText(words));
}
