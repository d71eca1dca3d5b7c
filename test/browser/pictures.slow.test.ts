import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { browserPath, openFile, startBrowser } from './browser.ts';
import { demoComparePage, demoPage, smallLifePage, smallSizePage, wintersPage } from './pages.ts';
import { pictureFaults } from './pictureFaults.ts';

const path = browserPath();

// The test of the run's page says where there is no browser.
describe.skipIf(path === undefined)('pictures', () => {
  const folder = mkdtempSync(join(tmpdir(), 'pictures-'));
  let browser: Browser;

  beforeAll(async () => {
    const { run, html } = await demoPage();
    const pages = {
      report: html,
      compare: demoComparePage(run),
      size: await smallSizePage(),
      life: smallLifePage(),
      winters: wintersPage(),
    };
    for (const [name, page] of Object.entries(pages)) writeFileSync(join(folder, `${name}.html`), page);
    browser = await startBrowser(path!);
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true });
  });

  describe.each([360, 700, 1600])('at %i px', (width) => {
    test.each(['report', 'compare', 'size', 'life', 'winters'])(
      'of the page %s fit their boxes, their letters can be read, and no line runs through them',
      async (name) => {
        const options = { viewport: { width, height: 800 } };
        const hash = name === 'report' ? '#trial-3' : '';
        const { page, problems } = await openFile(browser, join(folder, `${name}.html`), options, hash);
        expect(await page.locator('.figure:visible').count()).toBeGreaterThan(0);
        expect(await pictureFaults(page, { all: 9, wiring: 10 })).toEqual([]);
        expect(problems).toEqual([]);
        await page.context().close();
      },
    );
  });
});
