import { bundled } from '../program.ts';
import { label } from './element.ts';
import type { Figure } from './Figure.ts';
import { lightStyle } from './lightStyle.ts';
import type { SendPicture } from './sendPicture.ts';

/** A picture and the name of its file. */
export interface FigureFile {
  name: string;
  /** With the marks of another within it, where it borrows them. */
  figure: Figure | SendPicture;
}

/** Room around the picture, and above it for its title. */
const EDGE = 14;
const HEAD = 40;

/** Style sheet of a picture that stands alone: it follows the reader's theme. */
export function standaloneStyle(): string {
  return bundled('figures/figures.css');
}

/** Patterns that tell marks apart without colour; once a page, or once a file. */
export const FIGURE_PATTERNS =
  '<defs>' +
  '<pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="hatch-ground" width="5" height="5"/><path class="hatch-line" d="M0 0V5"/></pattern>' +
  '<pattern id="dots" width="5" height="5" patternUnits="userSpaceOnUse"><rect class="dots-ground" width="5" height="5"/><circle class="dots-mark" cx="2.5" cy="2.5" r=".9"/></pattern>' +
  '<pattern id="slant" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><rect class="slant-ground" width="6" height="6"/><path class="slant-line" d="M0 0V6"/></pattern>' +
  '<pattern id="cross" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="cross-ground" width="5" height="5"/><path class="cross-line" d="M0 0V5M0 0H5"/></pattern>' +
  '<pattern id="veil" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="veil-light" d="M1 0V4"/><path class="veil-dark" d="M2.6 0V4"/></pattern>' +
  '</defs>';

/**
 * A picture as the text of an SVG file that needs nothing beside it.
 *
 * in: figure
 * out: SVG text, ending in LF
 */
export function standaloneSvg(figure: Figure | SendPicture): string {
  if ('nights' in figure) return wholeSendPicture(figure);
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
  return `<?xml version="1.0" encoding="UTF-8"?>\n${opening}<style>${standaloneStyle()}</style>${FIGURE_PATTERNS}${heading}${figure.svg.slice(begins)}\n`;
}

/** The picture to send, in light colours whatever the reader's theme. */
function wholeSendPicture({ svg, nights }: SendPicture): string {
  const begins = svg.indexOf('>') + 1;
  const marks = nights.slice(nights.indexOf('>') + 1, nights.lastIndexOf('<'));
  const style = `<style>${lightStyle(standaloneStyle())}</style>`;
  return `<?xml version="1.0" encoding="UTF-8"?>\n${svg.slice(0, begins)}${style}${FIGURE_PATTERNS}${svg.slice(begins).replace('<defs/>', () => `<defs>${marks}</defs>`)}\n`;
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
