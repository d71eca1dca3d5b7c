import { blockOf } from './page.ts';

/**
 * A picture as a file of its own, with style and patterns; its size is that of its `viewBox`.
 *
 * in: picture, a copy that is changed; restyle, what becomes of the style sheet
 * out: text of an SVG file
 */
export function pictureFile(picture: SVGElement, restyle = (style: string) => style): string {
  const style = document.createElementNS('http://www.w3.org/2000/svg', 'style');
  style.textContent = restyle(String(blockOf('picture-style')));
  picture.prepend(style, document.querySelector('.patterns defs')!.cloneNode(true));
  const [, , width = '', height = ''] = picture.getAttribute('viewBox')!.split(' ');
  picture.setAttribute('width', width);
  picture.setAttribute('height', height);
  return new XMLSerializer().serializeToString(picture);
}
