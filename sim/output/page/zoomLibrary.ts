import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/**
 * The library that draws the page's one zoomable chart, as it is inlined: script and style sheet of its package.
 *
 * out: both texts
 * throws: Error where the package is not there (a broken installation)
 */
export function zoomLibrary(): { script: string; style: string } {
  const { resolve } = createRequire(import.meta.url);
  const text = (path: string) => readFileSync(path, 'utf8');
  return {
    script: text(resolve('uplot/dist/uPlot.iife.min.js')),
    style: text(resolve('uplot/dist/uPlot.min.css')),
  };
}
