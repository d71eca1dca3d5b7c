import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { drawnTrials } from '../../sim/output/figures/drawnTrials.ts';
import { reportPage } from '../../sim/output/page/reportPage.ts';
import { trialBlocks } from '../../sim/output/page/trialBlocks.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import { spotSkies } from '../../sim/trial/spotSkies.ts';
import type { HourlyTrial, RunResult } from '../../sim/trial/Trial.ts';
import { browserPath, openFile, startBrowser, violationsOf } from './browser.ts';
import { builtTrial } from './builtTrial.ts';
import { demoPage } from './pages.ts';

const path = browserPath();
const DEMO = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));

describe.skipIf(path === undefined)('trials that run again in the page', () => liveInBrowser(path ?? ''));

function liveInBrowser(executable: string): void {
  const folder = mkdtempSync(join(tmpdir(), 'live-'));
  const file = join(folder, 'report.html');
  let browser: Browser;
  let run: RunResult<HourlyTrial>;

  beforeAll(async () => {
    const demo = await demoPage();
    run = demo.run;
    writeFileSync(file, demo.html);
    browser = await startBrowser(executable);
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true });
  });

  const open = (hash: string, options = {}) => openFile(browser, file, options, hash);

  test('start from a file on disk, and with nothing turned come to the file’s result in every block', async () => {
    const { page, problems, requests } = await open('#trial-1');
    for (const { place, id, trial, setting } of drawnTrials(run, spotSkies(run)).trials) {
      const written = trialBlocks(id, trial, setting);
      const made = await blocksOf(page, place);
      expect(made.map(({ block }) => block).sort()).toEqual(written.map(({ block }) => block).sort());
      for (const { block, markup } of made)
        expect(markup, `${id} ${block}`).toBe(written.find((each) => each.block === block)!.markup);
    }
    expect(problems).toEqual([]);
    expect(requests).toEqual([]);
    await page.context().close();
  });

  test('come to the same hours as the file’s, to the bit', async () => {
    const { start_ms, capacitor_V, light_W_m2 } = builtTrial(2);
    const { page } = await open('#trial-3-capacitor', { acceptDownloads: true });
    const saved = page.waitForEvent('download');
    await page.locator('#trial-3-capacitor').getByRole('button', { name: 'Save hours (CSV)' }).click();
    const [, ...lines] = readFileSync(await (await saved).path(), 'utf8')
      .trimEnd()
      .split('\n');
    // The page begins the year where its winter begins.
    const there = lines.map((line) => line.split(',')).sort(([a], [b]) => Date.parse(a!) - Date.parse(b!));
    expect(Date.parse(there[0]![0]!)).toBe(start_ms);
    expect(there.map(([, volts]) => Number(volts))).toEqual(capacitor_V);
    expect(there.map(([, , , light]) => Number(light))).toEqual(light_W_m2);
    await page.context().close();
  });

  test('get ready before a hand turns anything: with a run of each kind of turn', async () => {
    const { page } = await open('');
    await page.evaluate(() => {
      const post = Worker.prototype.postMessage;
      Worker.prototype.postMessage = function (this: Worker, ...words: [unknown]) {
        const { tried } = (words[0] as { ask?: { tried: { turns: { of: string }[] } } }).ask ?? {};
        for (const { of } of tried?.turns ?? [])
          document.body.dataset.ready = `${document.body.dataset.ready ?? ''} ${of}`;
        return Reflect.apply(post, this, words);
      };
    });
    await page.goto(`file://${file}#trial-1`);
    await page.waitForFunction(() => document.body.dataset.ready?.trim().split(' ').length === 3);
    expect((await page.evaluate(() => document.body.dataset.ready))?.trim().split(' ').sort()).toEqual([
      'lamp',
      'promise',
      'spot',
    ]);
    await page.context().close();
  });

  test('follow a key: drawings, numbers, words for a screen reader, address; all marked as tried, on paper too', async () => {
    const { page, problems, requests } = await open('#trial-3');
    const slider = page.locator('#trial-3 [data-key="capacitor.capacitance_F"]');
    expect(await slider.getAttribute('aria-valuetext')).toBe('360 F, as in the file');
    const before = await page.locator('#trial-3-nights svg.picture').first().innerHTML();
    await slider.focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await settled(page, 3);
    expect(await slider.getAttribute('aria-valuetext')).toBe('470 F; the file has 360 F');
    expect(await page.locator('#trial-3-nights svg.picture').first().innerHTML()).not.toBe(before);
    const failed = await failedNights(page, 3);
    expect(failed).toBeLessThan(run.trials[2]!.statistics.winters[0]!.failedNights);
    expect(await page.locator('#trial-3 [role="status"]').textContent()).toContain(`${failed} of 365`);
    expect(await page.evaluate(() => location.hash)).toBe('#trial-3?lamp.capacitor.capacitance_F=470');
    const banner = page.locator('#trial-3 .tried');
    expect(await banner.textContent()).toMatch(/^Tried, not the file’s: .*470 F instead of 360 F$/);
    // The reader of a picture that was drawn again still reads.
    const reader = page.locator('#trial-3-nights .across .reader');
    await reader.focus();
    await page.keyboard.press('Home');
    expect(await reader.getAttribute('aria-valuetext')).toMatch(/^1 Jul 2025/);
    await page.emulateMedia({ media: 'print' });
    expect(await banner.isVisible()).toBe(true);
    const marks = await page
      .locator('#trial-3 [data-tried]:not(:empty)')
      .evaluateAll((all) => all.map((block) => getComputedStyle(block, '::before').content));
    expect(marks.length).toBeGreaterThan(4);
    for (const mark of marks) expect(mark).toContain('not the file’s');
    expect(problems).toEqual([]);
    expect(requests).toEqual([]);
    await page.context().close();
  });

  test('show under the hand the picture that is drawn whole when it pauses, and go back to the file’s', async () => {
    const { page } = await open('#trial-3');
    await page.locator('#trial-3 .try:visible').waitFor();
    const block = page.locator('#trial-3 [data-block="nights"]');
    const before = await block.innerHTML();
    // At each turn, before anything else can happen: what is seen of the nights, and whether their data wait.
    await block.evaluate((nights) => {
      const section = nights.closest<HTMLElement>('.trial')!;
      const look = () => {
        const seen = [...nights.querySelectorAll('figcaption, svg.picture')].map((each) => each.outerHTML);
        section.dataset.followed = JSON.stringify({ seen, waiting: (nights as HTMLElement).dataset.waiting });
      };
      new MutationObserver(look).observe(section.querySelector('.tried')!, { childList: true });
    });
    for (const steps of [1, 2]) {
      await page.locator('#trial-3 [data-key="capacitor.capacitance_F"]').focus();
      for (let k = 0; k < steps; k++) await page.keyboard.press('ArrowRight');
      const value = await page.locator('#trial-3 .knob output').first().textContent();
      await page.locator('#trial-3 .tried', { hasText: `${value} instead of 360 F` }).waitFor();
      await settled(page, 3);
      const { seen, waiting } = JSON.parse((await page.locator('#trial-3').getAttribute('data-followed'))!);
      expect(waiting).toBe('data');
      const whole = await block
        .locator('figcaption, svg.picture')
        .evaluateAll((all) => all.map((each) => each.outerHTML));
      expect(seen).toEqual(whole);
    }
    expect(await block.innerHTML()).not.toBe(before);
    await page.locator('#trial-3').getByRole('button', { name: 'Back to the file’s values' }).click();
    expect(await block.innerHTML()).toBe(before);
    await page.context().close();
  });

  test('make ahead what a hand comes to if it goes on as it went', async () => {
    const { page } = await open('#trial-3');
    await page.locator('#trial-3 .try:visible').waitFor();
    await page.evaluate(() => {
      const post = Worker.prototype.postMessage;
      document.body.dataset.asked = '';
      Worker.prototype.postMessage = function (this: Worker, ...words: unknown[]) {
        const { ask } = words[0] as { ask?: { kind: string; tried: { turns: { value: number }[] } } };
        if (ask?.kind === 'hand') document.body.dataset.asked += ` ${ask.tried.turns.at(0)?.value}`;
        return Reflect.apply(post, this, words);
      };
    });
    await page.locator('#trial-3 [data-key="capacitor.capacitance_F"]').focus();
    for (const value of [390, 470]) {
      await page.keyboard.press('ArrowRight');
      await page.locator('#trial-3 .tried', { hasText: `${value} F instead of 360 F` }).waitFor();
      await settled(page, 3);
    }
    expect(await page.evaluate(() => document.body.dataset.asked)).toMatch(/ 390 470 470 560$/);
    await page.context().close();
  });

  test('follow a finger that draws a slider along, and end where it ends', async () => {
    const { page } = await open('#trial-1');
    const slider = page.locator('#trial-1 [data-key="capacitor.capacitance_F"]');
    await slider.scrollIntoViewIfNeeded();
    const box = (await slider.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    for (let k = 0; k < 12; k++) await page.mouse.move(box.x + box.width * (0.5 - 0.03 * k), box.y + 8);
    await page.mouse.up();
    await settled(page, 1);
    const output = await page.locator('#trial-1 .knob output').first().textContent();
    expect(await page.locator('#trial-1 .tried').textContent()).toContain(`${output} instead of 360 F`);
    expect(await failedNights(page, 1)).toBeGreaterThan(run.trials[0]!.statistics.winters[0]!.failedNights);
    await page.context().close();
  });

  test('are as an address says, and go back to the file’s', async () => {
    const { page } = await open('#trial-2?lamp.capacitor.parallel=1&promise.hours=7&lamp.wings=2');
    expect(await page.locator('#trial-2 .refused').textContent()).toContain('lamp.wings');
    await settled(page, 2);
    expect(await page.locator('#trial-2 .tried').textContent()).toMatch(
      /1 instead of 2; .*7 h instead of 6 h/,
    );
    await page.locator('#trial-2').getByRole('button', { name: 'Back to the file’s values' }).click();
    expect(await page.locator('#trial-2 [data-tried], #trial-2 [data-waiting]').count()).toBe(0);
    expect(await page.locator('#trial-2 .tried').isVisible()).toBe(false);
    expect(await page.evaluate(() => location.hash)).toBe('#trial-2');
    await page.context().close();
  });

  test('are taken away as a scenario that runs to the same nights', async () => {
    const { page } = await open('#trial-3?lamp.capacitor.capacitance_F=470', { acceptDownloads: true });
    await settled(page, 3);
    const waiting = page.waitForEvent('download');
    await page.locator('#trial-3').getByRole('button', { name: 'Take away as YAML' }).click();
    const beside = join(
      fileURLToPath(new URL('../../scenarios', import.meta.url)),
      `tried-${process.pid}.yaml`,
    );
    try {
      writeFileSync(beside, readFileSync(await (await waiting).path()));
      const again = await runAll(loadScenario(beside, 'tried.yaml'), { withChanges: false });
      const trial = again.trials.find(({ spot }) => spot === 'north-side')!;
      expect(trial.statistics.winters[0]!.failedNights).toBe(await failedNights(page, 3));
    } finally {
      rmSync(beside, { force: true });
    }
    await page.context().close();
  });

  test('a trial that the page does not draw is drawn when it is chosen', async () => {
    const text = readFileSync(DEMO, 'utf8');
    const spot = (k: number) =>
      `  bed-${k}:\n    cell_tilt_deg: ${10 + k}\n    cell_bearing_deg: 180\n    cover: { part: flat-lid }\n`;
    const many = text
      .replace('spots:\n', `spots:\n${Array.from({ length: 6 }, (_, k) => spot(k)).join('')}`)
      .replaceAll('../data-samples', fileURLToPath(new URL('../../data-samples', import.meta.url)));
    const scenario = join(folder, 'many.yaml');
    writeFileSync(scenario, many);
    const big = await runAll(loadScenario(scenario, 'many.yaml'), { withChanges: false });
    writeFileSync(join(folder, 'many.html'), reportPage(big, spotSkies(big), []));
    const { page, problems } = await openFile(browser, join(folder, 'many.html'));
    const brief = page.locator('.trial[data-brief]').first();
    const id = (await brief.getAttribute('id'))!;
    await page.evaluate((hash) => {
      location.hash = hash;
    }, `#${id}`);
    await page.locator(`#${id}-nights svg.picture`).first().waitFor();
    expect(await page.locator(`#${id} .try:visible`).count()).toBe(1);
    expect(problems).toEqual([]);
    await page.context().close();
  });

  test('leave the page as it is where the browser has no workers', async () => {
    const context = await browser.newContext();
    const page = await context.newPage();
    const problems: string[] = [];
    page.on('pageerror', (error) => problems.push(String(error)));
    await page.addInitScript('delete window.Worker');
    await page.goto(`file://${file}#trial-1`);
    expect(await page.locator('.try:visible').count()).toBe(0);
    expect(await page.locator('#trial-1-nights svg.picture').first().isVisible()).toBe(true);
    expect(problems).toEqual([]);
    await context.close();
  });

  test.each(['light', 'dark'] as const)(
    'pass the accessibility checks while tried, %s',
    async (colorScheme) => {
      const { page } = await open('#trial-3?promise.hours=7', { colorScheme });
      await settled(page, 3);
      expect(await violationsOf(page)).toEqual([]);
      await page.context().close();
    },
  );

  test.each([360, 1600])('at %i pixels nothing is wider than the page while tried', async (width) => {
    const { page } = await open('#trial-3?promise.hours=7', { viewport: { width, height: 900 } });
    await settled(page, 3);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    await page.context().close();
  });
}

/** Waits until every block of a tried trial is drawn. */
async function settled(page: Page, place: number): Promise<void> {
  const section = page.locator(`#trial-${place}`);
  await section.locator('[data-block="nights"][data-tried]').waitFor();
  await expect.poll(() => section.locator('[data-waiting]').count(), { timeout: 60_000 }).toBe(0);
}

/** What the panel says at a glance. */
async function failedNights(page: Page, place: number): Promise<number> {
  const words = await page.locator(`#trial-${place} .tryVerdict`).textContent();
  return Number(/(\d+) of 365 nights failed/.exec(words ?? '')![1]);
}

/** The blocks of a trial with nothing turned, as a worker that the page carries makes them in this browser. */
function blocksOf(page: Page, place: number): Promise<{ block: string; markup: string }[]> {
  return page.evaluate(async (place) => {
    const { code, run } = JSON.parse(document.getElementById('live')!.textContent);
    const bytes = Uint8Array.from(atob(code), (sign) => sign.charCodeAt(0));
    const inflated = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
    const { plain } = JSON.parse((await new Response(inflated).text()).slice(4));
    const worker = new Worker(URL.createObjectURL(new Blob([plain])));
    worker.postMessage({ run });
    const ask = (kind: string) =>
      new Promise<never>((resolve) => {
        worker.onmessage = ({ data }) => resolve(data.answer);
        worker.postMessage({ number: 1, ask: { kind, tried: { place, turns: [] } } });
      });
    const hand: { answer: string } = await ask('hand');
    const pause: { block: string; markup: string }[] = await ask('pause');
    const rest: { block: string; markup: string }[] = await ask('rest');
    worker.terminate();
    return [{ block: 'answer', markup: hand.answer }, ...pause, ...rest];
  }, place);
}
