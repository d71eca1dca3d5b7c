import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { browserPath, openFile, startBrowser, violationsOf } from './browser.ts';
import { smallLifePage } from './pages.ts';

const path = browserPath();

// The test of the run's page says where there is no browser.
test.skipIf(path === undefined)('the page of lives in a browser', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'life-page-'));
  const file = join(folder, 'report.html');
  writeFileSync(file, smallLifePage());
  const browser = await startBrowser(path!);
  try {
    for (const options of [
      { colorScheme: 'light' as const },
      { colorScheme: 'dark' as const },
      { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true },
    ]) {
      const { page, problems, requests } = await openFile(browser, file, options);
      expect(await page.locator('.trial:visible').count()).toBe(2);
      expect(await page.locator('svg.picture:visible').count()).toBe(5);
      expect(await violationsOf(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(
        page.viewportSize()!.width,
      );
      const slider = page.locator('#life-1-life-nights .reader:visible');
      await slider.focus();
      await page.keyboard.press('Home');
      expect(await page.locator('#life-1-life-nights .reading').textContent()).toContain('low0 nights');
      await page.keyboard.press('End');
      expect(await page.locator('#life-1-life-nights .reading').textContent()).toContain('low15 nights');
      expect(problems).toEqual([]);
      expect(requests).toEqual([]);
      await page.context().close();
    }
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true });
  }
});
