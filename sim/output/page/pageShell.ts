import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { wordsMarkup } from '../figures/element.ts';
import { FIGURE_PATTERNS, standaloneStyle } from '../figures/standaloneSvg.ts';
import { bundled } from '../program.ts';
import { embeddedJson } from './embeddedJson.ts';
import type { LiveBlock } from './live/liveBlock.ts';
import type { HourlyPack } from './packedColumn.ts';

/** What a page is made of. */
export interface PageParts {
  title: string;
  /** Markup of the body. */
  body: string;
  /** Of a run: hours for the closer look at the capacitor, which brings its script and library. */
  hours?: HourlyPack;
  /** What its trials run again with. */
  live?: LiveBlock | undefined;
}

/**
 * A page as the text of one HTML file that needs nothing else. Its own policy forbids it the network, and every script
 * but those given here; of workers it lets those start that it makes itself.
 *
 * in: parts
 * out: HTML text, ending in LF
 */
export function pageShell(parts: PageParts): string {
  const library = parts.hours === undefined ? undefined : chartLibrary();
  const styles = [bundled('page/page.css'), ...(library === undefined ? [] : [library.style])];
  const scripts =
    library === undefined
      ? [bundled('page/scripts/reader.js')]
      : [library.script, bundled('page/scripts/report.js')];
  const hashes = scripts
    .map((script) => `'sha256-${createHash('sha256').update(script, 'utf8').digest('base64')}'`)
    .join(' ');
  const policy = `default-src 'none'; style-src 'unsafe-inline'; img-src data: blob:; script-src ${hashes};${parts.live === undefined ? '' : ' worker-src blob:;'} base-uri 'none'; form-action 'none'`;
  const blocks = Object.entries({
    hours: parts.hours ?? null,
    live: parts.live ?? null,
    'picture-style': standaloneStyle(),
  });
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="color-scheme" content="light dark">',
    `<title>${wordsMarkup(parts.title)}</title>`,
    ...styles.map((style) => `<style>${style}</style>`),
    '</head>',
    '<body>',
    `<svg class="patterns" aria-hidden="true" width="0" height="0">${FIGURE_PATTERNS}</svg>`,
    parts.body,
    ...blocks.map(
      ([id, data]) => `<script type="application/json" id="${id}">${embeddedJson(data)}</script>`,
    ),
    ...scripts.map((script) => `<script>${script}</script>`),
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

/** The library that draws the one zoomable chart, from its package: script and style, each under its licence. */
function chartLibrary(): { script: string; style: string } {
  const { resolve } = createRequire(import.meta.url);
  const text = (path: string) => readFileSync(resolve(path), 'utf8');
  const licence = `/*! uPlot\n${text('uplot/LICENSE').trim()}\n*/\n`;
  return {
    script: licence + text('uplot/dist/uPlot.iife.min.js'),
    style: licence + text('uplot/dist/uPlot.min.css'),
  };
}
