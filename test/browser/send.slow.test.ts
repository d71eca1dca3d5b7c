import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { reportPage } from '../../sim/output/page/reportPage.ts';
import { darkNight, nightsFrom, smallNight, smallRun, smallTrial } from '../output/smallRun.ts';
import { browserPath, openFile, startBrowser } from './browser.ts';
import { demoPage, HOSTILE } from './pages.ts';

const path = browserPath();

describe.skipIf(path === undefined)('the picture to send, in a browser', () => {
  const folder = mkdtempSync(join(tmpdir(), 'send-'));
  let browser: Browser;

  beforeAll(async () => {
    browser = await startBrowser(path!);
    writeFileSync(join(folder, 'demo.html'), (await demoPage()).html);
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true });
  });

  async function saved(
    page: Page,
    kind: 'png' | 'svg',
    id: string,
  ): Promise<{ name: string; bytes: Buffer }> {
    const button = page.locator(`#${id} button[data-send="${kind}"]`);
    await button.scrollIntoViewIfNeeded();
    const [download] = await Promise.all([page.waitForEvent('download'), button.click()]);
    const file = join(folder, download.suggestedFilename());
    await download.saveAs(file);
    return { name: download.suggestedFilename(), bytes: readFileSync(file) };
  }

  /** Size of a picture, the colour of its corner, and how many colours it has, as the browser reads its bytes. */
  function look(page: Page, bytes: Buffer, kind: string) {
    return page.evaluate(
      async ([data, type]) => {
        const image = new Image();
        image.src = `data:${type};base64,${data}`;
        await image.decode();
        const canvas = document.createElement('canvas');
        canvas.width = image.naturalWidth;
        canvas.height = image.naturalHeight;
        const pen = canvas.getContext('2d')!;
        pen.drawImage(image, 0, 0);
        const pixels = pen.getImageData(0, 0, canvas.width, canvas.height).data;
        const colours = new Map<number, number>();
        for (let i = 0; i < pixels.length; i += 4) {
          const colour = (pixels[i]! << 16) | (pixels[i + 1]! << 8) | pixels[i + 2]!;
          colours.set(colour, (colours.get(colour) ?? 0) + 1);
        }
        const share = (colour: number) => (colours.get(colour) ?? 0) / (canvas.width * canvas.height);
        return { width: canvas.width, height: canvas.height, paper: share(0xfdfbf6), lit: share(0xeba427) };
      },
      [bytes.toString('base64'), kind] as const,
    );
  }

  test('is saved as a PNG of 1200 by 800 and as an SVG of the same, in light colours on a dark page, without a request', async () => {
    const { page, problems, requests } = await openFile(browser, join(folder, 'demo.html'), {
      colorScheme: 'dark',
      acceptDownloads: true,
    });
    const png = await saved(page, 'png', 'trial-1');
    expect(png.name).toBe('trial-1-to-send.png');
    expect(png.bytes.subarray(0, 8)).toEqual(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]));
    expect([png.bytes.readUInt32BE(16), png.bytes.readUInt32BE(20)]).toEqual([1200, 800]);
    const seen = await look(page, png.bytes, 'image/png');
    expect(seen).toMatchObject({ width: 1200, height: 800 });
    expect(seen.paper).toBeGreaterThan(0.3);
    expect(seen.lit).toBeGreaterThan(0.05);
    const svg = await saved(page, 'svg', 'trial-1');
    expect(svg.name).toBe('trial-1-to-send.svg');
    const drawn = await look(page, svg.bytes, 'image/svg+xml');
    expect(drawn).toMatchObject({ width: 1200, height: 800 });
    expect(Math.abs(drawn.lit - seen.lit)).toBeLessThan(0.002);
    expect(problems).toEqual([]);
    expect(requests).toEqual([]);
    await page.context().close();
  });

  test('is of what was tried as soon as the hand rests, and says that it was', async () => {
    const { page, problems } = await openFile(browser, join(folder, 'demo.html'), { acceptDownloads: true });
    const said = () =>
      page.evaluate(() => {
        const template = document.querySelector<HTMLTemplateElement>('#trial-1 .send template')!;
        const label = template.content.querySelector('svg')!.getAttribute('aria-label')!;
        return { label, plain: document.querySelector('#trial-1 .plain')!.textContent };
      });
    const before = await said();
    expect(before.label.endsWith(before.plain)).toBe(true);
    await page.locator('#trial-1 .try [data-key="capacitor.capacitance_F"]').focus();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await page.waitForSelector('#trial-1 [data-block="send"][data-tried]:not([data-waiting])');
    const after = await said();
    expect(after.label.endsWith(after.plain)).toBe(true);
    expect(after.plain).not.toBe(before.plain);
    expect(after.label).toContain('tried');
    expect((await saved(page, 'svg', 'trial-1')).name).toBe('trial-1-to-send-tried.svg');
    expect(problems).toEqual([]);
    await page.context().close();
  });

  test('keeps every word within its edges, and apart from the others, whatever the names', async () => {
    const nights = nightsFrom('2025-07-01', 365, (night) =>
      night > '2025-10-20' && night < '2026-02-25' ? darkNight(night, 4, 1) : smallNight(night),
    );
    const names = [
      'single',
      'a lamp with a very long name '.repeat(8),
      'מנורה '.repeat(30),
      '灯'.repeat(60),
      HOSTILE.lamp,
      'W'.repeat(99),
    ];
    const trials = names.map((lamp, k) => smallTrial({ lamp, spot: names[(k + 2) % names.length]!, nights }));
    writeFileSync(join(folder, 'names.html'), reportPage(smallRun(trials), new Map(), []));
    const { page, problems } = await openFile(browser, join(folder, 'names.html'));
    const wrong = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLTemplateElement>('.send template')].flatMap((template) => {
        const box = document.createElement('div');
        box.style.cssText = 'position: absolute; left: 0; top: 0; width: 1200px';
        box.append(template.content.cloneNode(true));
        document.body.append(box);
        const edge = box.getBoundingClientRect();
        const words = [...box.querySelectorAll('text')].map((text) => ({
          text: text.textContent,
          at: text.getBoundingClientRect(),
        }));
        const outside = words.filter(
          ({ at }) =>
            at.left < edge.left || at.right > edge.right || at.top < edge.top || at.bottom > edge.bottom,
        );
        const over = words.filter(({ at }, k) =>
          words.some(
            ({ at: other }, m) =>
              m > k &&
              Math.min(at.right, other.right) - Math.max(at.left, other.left) > 1 &&
              Math.min(at.bottom, other.bottom) - Math.max(at.top, other.top) > 5,
          ),
        );
        box.remove();
        return [...outside, ...over].map(({ text }) => text);
      }),
    );
    expect(wrong).toEqual([]);
    expect(await page.evaluate(() => 'harmed' in window)).toBe(false);
    expect(problems).toEqual([]);
    await page.context().close();
  });
});
