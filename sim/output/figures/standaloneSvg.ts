import { label } from './element.ts';
import type { Figure } from './Figure.ts';
import { DARK_PROPERTIES, FIGURE_PATTERNS, FIGURE_STYLE, LIGHT_PROPERTIES } from './figureStyle.ts';

/** A picture and the name of its file. */
export interface FigureFile {
  name: string;
  figure: Figure;
}

/** Room around the picture, and above it for its title. */
const EDGE = 14;
const HEAD = 40;

/** Style sheet of a picture that stands alone: it follows the reader's theme. */
export const STANDALONE_STYLE = `svg{${LIGHT_PROPERTIES};background:var(--surface)}@media(prefers-color-scheme:dark){svg{${DARK_PROPERTIES}}}${FIGURE_STYLE}`;

/**
 * A picture as the text of an SVG file that needs nothing beside it.
 *
 * in: figure
 * out: SVG text, ending in LF
 */
export function standaloneSvg(figure: Figure): string {
  const begins = figure.svg.indexOf('>') + 1;
  const { width, height } = figure;
  const opening = figure.svg
    .slice(0, begins)
    .replace('<svg ', `<svg width="${width + 2 * EDGE}" height="${height + HEAD + EDGE}" `)
    .replace(
      `viewBox="0 0 ${width} ${height}"`,
      `viewBox="${-EDGE} ${-HEAD} ${width + 2 * EDGE} ${height + HEAD + EDGE}"`,
    );
  const heading = label(0, 20 - HEAD, figure.title, 'strong heading');
  return `<?xml version="1.0" encoding="UTF-8"?>\n${opening}<style>${STANDALONE_STYLE}</style>${FIGURE_PATTERNS}${heading}${figure.svg.slice(begins)}\n`;
}

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
