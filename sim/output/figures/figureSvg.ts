import { element } from './element.ts';
import { escapeText } from './escapeText.ts';

/** What a picture is, beside its marks. */
export interface PictureFacts {
  key: string;
  /** Makes the ids of the picture its own on a page with many. */
  id: string;
  title: string;
  summary: string;
  width: number;
  height: number;
}

/**
 * A picture as SVG text with its title and its description for whoever cannot see it. Colours come from classes, which
 * the page's style sheet or `standaloneSvg` gives.
 *
 * in: facts; marks, markup
 * out: markup
 */
export function figureSvg(facts: PictureFacts, marks: readonly string[]): string {
  const { id, key, title, summary, width, height } = facts;
  const title_id = `${id}-${key}-title`;
  const summary_id = `${id}-${key}-summary`;
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: `picture picture-${key}`,
      viewBox: `0 0 ${width} ${height}`,
      role: 'img',
      'aria-labelledby': `${title_id} ${summary_id}`,
    },
    element('title', { id: title_id }, escapeText(title)) +
      element('desc', { id: summary_id }, escapeText(summary)) +
      marks.join(''),
  );
}
