// Pictures of each part of the pages, into out/screenshots/, to be looked at by whoever changes them.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContextOptions } from 'playwright-core';
import { browserPath, openFile, startBrowser } from './browser.ts';
import { demoComparePage, demoPage, hostilePage, smallLifePage } from './pages.ts';

const OUT = 'out/screenshots';

interface Shot {
  /** Begins the names of its files. */
  name: string;
  page: 'report' | 'compare' | 'hostile' | 'life';
  options: BrowserContextOptions;
  media?: 'print';
  /** A way of seeing, as the browser's own tools name it. */
  sight?: 'achromatopsia' | 'deuteranopia';
  parts: readonly string[];
}

const DESK = { width: 1600, height: 1000 };
const FIGURES = ['nights', 'changes', 'capacitor', 'fortnight', 'brightness', 'energy', 'sky'].map(
  (key) => `#trial-3-${key}`,
);
const ALL = ['top', ...FIGURES, '#run-weather', '#bench-2', '#survey-1', '#grounds'];
const COMPARED = ['top', '#compared-light', '#compared-nights-compared', '#spot-limits'];

const LIVED = ['top', '#life-1', '#sweep-1', '#grounds'];

const SHOTS: readonly Shot[] = [
  { name: 'desk-light', page: 'report', options: { viewport: DESK, colorScheme: 'light' }, parts: ALL },
  { name: 'desk-dark', page: 'report', options: { viewport: DESK, colorScheme: 'dark' }, parts: ALL },
  { name: 'phone', page: 'report', options: { viewport: { width: 360, height: 740 } }, parts: ALL },
  {
    name: 'paper',
    page: 'report',
    options: { viewport: { width: 1032, height: 703 } },
    media: 'print',
    parts: ALL,
  },
  { name: 'grey', page: 'report', options: { viewport: DESK }, sight: 'achromatopsia', parts: ALL },
  {
    name: 'red-green',
    page: 'report',
    options: { viewport: DESK },
    sight: 'deuteranopia',
    parts: ['#trial-3-nights', '#trial-3-fortnight'],
  },
  { name: 'compare', page: 'compare', options: { viewport: DESK }, parts: COMPARED },
  {
    name: 'compare-phone',
    page: 'compare',
    options: { viewport: { width: 360, height: 740 } },
    parts: COMPARED,
  },
  { name: 'life', page: 'life', options: { viewport: DESK, colorScheme: 'light' }, parts: LIVED },
  { name: 'life-dark', page: 'life', options: { viewport: DESK, colorScheme: 'dark' }, parts: LIVED },
  {
    name: 'life-phone',
    page: 'life',
    options: { viewport: { width: 360, height: 740 } },
    parts: LIVED,
  },
  {
    name: 'hostile',
    page: 'hostile',
    options: { viewport: DESK },
    parts: ['top', '#trial-3-changes', '#trial-3-sky'],
  },
];

const executable = browserPath();
if (executable === undefined) throw new Error('no browser found; install chromium, or name one in CHROMIUM');
const folder = mkdtempSync(join(tmpdir(), 'pages-'));
const { run, html } = await demoPage();
writeFileSync(join(folder, 'report.html'), html);
writeFileSync(join(folder, 'compare.html'), demoComparePage(run));
writeFileSync(join(folder, 'hostile.html'), hostilePage(run));
writeFileSync(join(folder, 'life.html'), smallLifePage());
rmSync(OUT, { recursive: true, force: true });
mkdirSync(OUT, { recursive: true });
const browser = await startBrowser(executable);
for (const shot of SHOTS) {
  const { page } = await openFile(
    browser,
    join(folder, `${shot.page}.html`),
    shot.options,
    shot.page === 'compare' || shot.page === 'life' ? '' : '#trial-3',
  );
  if (shot.media !== undefined) await page.emulateMedia({ media: shot.media });
  if (shot.sight !== undefined) {
    const tools = await page.context().newCDPSession(page);
    await tools.send('Emulation.setEmulatedVisionDeficiency', { type: shot.sight });
  }
  for (const part of shot.parts) {
    const path = join(OUT, `${shot.name}-${part.replace(/\W+/g, '') || 'top'}.png`);
    if (part === 'top') {
      await page.evaluate(() => window.scrollTo({ top: 0, behavior: 'instant' }));
      await page.screenshot({ path });
    } else {
      const box = page.locator(part);
      await box.scrollIntoViewIfNeeded();
      await page.waitForTimeout(300);
      await box.screenshot({ path });
    }
    process.stdout.write(`${path}\n`);
  }
  await page.context().close();
}
await browser.close();
rmSync(folder, { recursive: true });
