import { DARK_PROPERTIES, LIGHT_PROPERTIES } from './colours.ts';
import type { Figure } from './Figure.ts';
import { FIGURE_PATTERNS, FIGURE_STYLE } from './figureStyle.ts';
import { label } from './label.ts';

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
  const heading = label(0, 20 - HEAD, figure.title, { class: 'strong heading' });
  return `<?xml version="1.0" encoding="UTF-8"?>\n${opening}<style>${STANDALONE_STYLE}</style>${FIGURE_PATTERNS}${heading}${figure.svg.slice(begins)}\n`;
}
