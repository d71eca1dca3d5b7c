/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
import type { Page } from 'playwright-core';

/**
 * What is wrong with the pictures that a page shows: a figure without one picture in sight, or with one wider than its
 * box; letters too small, cut off at the edge, or with a line through them; anything but a table that scrolls sideways.
 *
 * in: page; least_px, height of the smallest letters, and of those of a wiring picture
 */
export function pictureFaults(page: Page, least_px: { all: number; wiring: number }): Promise<string[]> {
  return page.evaluate((least) => {
    const faults: string[] = [];
    const shown = (element: Element) => element.getClientRects().length > 0;
    const name = (element: Element) => element.closest('[id]')?.id ?? element.className.toString();
    for (const box of document.querySelectorAll('.figure > .scroll, .wiring')) {
      if (!shown(box)) continue;
      const pictures = [...box.querySelectorAll('svg.picture')].filter(shown);
      const widths = pictures.map((picture) => picture.getBoundingClientRect().width);
      if (widths.length !== 1 || widths[0]! > box.clientWidth + 0.5)
        faults.push(`${name(box)}: pictures of ${widths.join()} px in ${box.clientWidth} px`);
    }
    for (const element of document.querySelectorAll<HTMLElement>('body, body *')) {
      if (element.scrollWidth <= element.clientWidth + 1 || !shown(element)) continue;
      if (!['auto', 'scroll'].includes(getComputedStyle(element).overflowX)) continue;
      if (element.querySelector(':scope > table') === null) faults.push(`${name(element)} scrolls sideways`);
    }

    /** Points along the lines of a picture, in px, those of borrowed marks too. */
    const linesOf = (picture: SVGSVGElement): DOMPoint[] => {
      const points: DOMPoint[] = [];
      const trace = (paths: Iterable<SVGPathElement>, matrix: (path: SVGPathElement) => DOMMatrix) => {
        for (const path of paths) {
          const { fill, stroke } = getComputedStyle(path);
          if (
            (fill !== 'none' && path.classList.length > 0 && !path.matches('.event, .grid')) ||
            stroke === 'none'
          )
            continue;
          const toScreen = matrix(path);
          const length = path.getTotalLength();
          for (let at = 0; at <= length; at += 2)
            points.push(DOMPoint.fromPoint(path.getPointAtLength(at)).matrixTransform(toScreen));
        }
      };
      trace(picture.querySelectorAll('path'), (path) => DOMMatrix.fromMatrix(path.getScreenCTM()!));
      for (const use of picture.querySelectorAll('use')) {
        const group = document.querySelector(use.getAttribute('href')!)!;
        trace(group.querySelectorAll('path'), () => DOMMatrix.fromMatrix(use.getScreenCTM()!));
      }
      return points;
    };

    for (const picture of document.querySelectorAll<SVGSVGElement>('svg.picture')) {
      if (!shown(picture)) continue;
      const frame = picture.getBoundingClientRect();
      const lines = linesOf(picture);
      const least_px = picture.closest('.wiring') === null ? least.all : least.wiring;
      for (const text of picture.querySelectorAll('text')) {
        const what = `${name(picture)}: '${text.textContent}'`;
        const style = getComputedStyle(text);
        const scale = text.getScreenCTM()!.a;
        const size = Number.parseFloat(style.fontSize) * scale;
        if (size < least_px) faults.push(`${what} has letters of ${size.toFixed(1)} px`);
        const box = text.getBoundingClientRect();
        if (box.left < frame.left - 2 || box.right > frame.right + 2 || box.bottom > frame.bottom + 2)
          faults.push(`${what} reaches out of its picture`);
        // Letters themselves fill about the middle half of their line; those with a ground of their own cover lines.
        if (style.stroke !== 'none' || text.previousElementSibling?.matches('.tag')) continue;
        const [top, bottom] = [box.top + box.height * 0.25, box.bottom - box.height * 0.25];
        if (lines.some(({ x, y }) => x > box.left + 1 && x < box.right - 1 && y > top && y < bottom))
          faults.push(`${what} has a line through it`);
      }
    }
    return faults;
  }, least_px);
}
