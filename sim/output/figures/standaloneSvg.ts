import { DARK_PROPERTIES, LIGHT_PROPERTIES } from './colours.ts';
import type { Figure } from './Figure.ts';
import { FIGURE_PATTERNS, FIGURE_STYLE } from './figureStyle.ts';

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
  const opening = figure.svg
    .slice(0, begins)
    .replace('<svg ', `<svg width="${figure.width}" height="${figure.height}" `);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${opening}<style>${STANDALONE_STYLE}</style>${FIGURE_PATTERNS}${figure.svg.slice(begins)}\n`;
}
