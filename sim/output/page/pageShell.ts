import { createHash } from 'node:crypto';
import { escapeText } from '../figures/escapeText.ts';
import { FIGURE_PATTERNS } from '../figures/figureStyle.ts';
import { STANDALONE_STYLE } from '../figures/standaloneSvg.ts';
import { embeddedJson } from './embeddedJson.ts';
import { PAGE_STYLE } from './pageStyle.ts';

/** What a page is made of. */
export interface PageParts {
  title: string;
  /** Markup of the body. */
  body: string;
  /** JavaScript, run in this order at the end of the page. */
  scripts: readonly string[];
  /** Style sheets beside the page's own. */
  styles: readonly string[];
  /** Blocks of data for the scripts, by the id of their element. */
  data: Readonly<Record<string, unknown>>;
}

/**
 * A page as the text of one HTML file that needs nothing else. Its own policy forbids it the network, and every script
 * but those given here.
 *
 * in: parts
 * out: HTML text, ending in LF
 */
export function pageShell(parts: PageParts): string {
  const hashes = parts.scripts
    .map((script) => `'sha256-${createHash('sha256').update(script, 'utf8').digest('base64')}'`)
    .join(' ');
  const policy = `default-src 'none'; style-src 'unsafe-inline'; img-src data: blob:; script-src ${hashes}; base-uri 'none'; form-action 'none'`;
  const blocks = Object.entries({
    ...parts.data,
    'picture-style': STANDALONE_STYLE,
    'picture-patterns': FIGURE_PATTERNS,
  });
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="color-scheme" content="light dark">',
    `<title>${escapeText(parts.title)}</title>`,
    ...[PAGE_STYLE, ...parts.styles].map((style) => `<style>${style}</style>`),
    '</head>',
    '<body>',
    `<svg class="patterns" aria-hidden="true" width="0" height="0">${FIGURE_PATTERNS}</svg>`,
    parts.body,
    ...blocks.map(
      ([id, data]) => `<script type="application/json" id="${id}">${embeddedJson(data)}</script>`,
    ),
    ...parts.scripts.map((script) => `<script>${script}</script>`),
    '</body>',
    '</html>',
    '',
  ].join('\n');
}
