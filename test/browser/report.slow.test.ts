import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { HourlyTrial, RunResult } from '../../sim/trial/Trial.ts';
import { browserPath, openFile, startBrowser, violationsOf } from './browser.ts';
import { demoComparePage, demoPage, HOSTILE, hostilePage } from './pages.ts';

const path = browserPath();

if (path === undefined) {
  test('a browser is there, or none is required', () => {
    process.stderr.write(
      'BROWSER PART NOT RUN: no browser found; install chromium, or name one in CHROMIUM\n',
    );
    expect(process.env.BROWSER_TEST, 'BROWSER_TEST=required, and no browser').not.toBe('required');
  });
} else {
  describe('the page in a browser', () => pageInBrowser(path));
}

/** An A4 sheet across, less the margins of the print style sheet: 273 by 186 mm in CSS pixels. */
const SHEET = { width: 1032, height: 703 };
/** The same of the sheets for bench and spot: 283 by 196 mm. */
const HANDS_SHEET = { width: 1069, height: 740 };

function pageInBrowser(executable: string): void {
  const folder = mkdtempSync(join(tmpdir(), 'page-'));
  const file = join(folder, 'report.html');
  let browser: Browser;
  let run: RunResult<HourlyTrial>;

  beforeAll(async () => {
    const demo = await demoPage();
    run = demo.run;
    writeFileSync(file, demo.html);
    writeFileSync(join(folder, 'hostile.html'), hostilePage(run));
    writeFileSync(join(folder, 'compare.html'), demoComparePage(run));
    browser = await startBrowser(executable);
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true });
  });

  const count = (page: Page, selector: string) => page.locator(selector).count();

  test('opens from disk with no problem and no request, and all of it is drawn on scrolling', async () => {
    const { page, problems, requests } = await openFile(browser, file);
    for (let k = 1; k <= run.trials.length; k++) {
      await page.evaluate((hash) => {
        location.hash = hash;
      }, `#trial-${k}-capacitor`);
      await page.waitForSelector(`#trial-${k}-capacitor canvas`);
    }
    expect(problems).toEqual([]);
    expect(requests).toEqual([]);
    await page.context().close();
  });

  test('holds every picture, with as many marks as there are data', async () => {
    const { page } = await openFile(browser, file);
    for (const [k, trial] of run.trials.entries()) {
      const of = (key: string, marks: string) => count(page, `#trial-${k + 1}-${key} .across ${marks}`);
      const { nights, changes, statistics } = trial;
      const drawn = (mark: string) =>
        placesOf(page, `#trial-${k + 1}-nights .across path.${mark}:not(.legend *)`);
      expect(await drawn('lit')).toBe(nights.filter((row) => row.lit_h > 0).length);
      const seen = (of_h: (row: (typeof nights)[0]) => number) =>
        nights.filter((row) => of_h(row) * 3600 > 1).length;
      expect(await drawn('dim')).toBe(seen((row) => row.dim_h));
      expect(await drawn('hatched')).toBe(seen((row) => row.out_h));
      expect(await drawn('solid')).toBe(statistics.winters[0]!.failedNights);
      expect(await of('capacitor', 'path.band:not(.legend *)')).toBe(1);
      expect(await of('capacitor', 'path.limit:not(.legend *)')).toBe(2);
      const failed = statistics.winters[0]!.darkestFortnight!.failedNights;
      expect(await of('fortnight', 'path.event')).toBe(failed);
      expect(await of('brightness', 'rect.lit:not(.legend *)')).toBe(12);
      expect(await of('brightness', 'rect.fill-lightDeep:not(.legend *)')).toBe(12);
      // The LED's share and the cell's in each month.
      expect(await of('energy', 'rect.lit:not(.legend *)')).toBe(24);
      expect(await of('changes', 'rect.fill-shortPale:not(.legend *)')).toBe(
        changes.filter((change) => change.failedNights > 0).length,
      );
      expect(await count(page, `#trial-${k + 1}-changes`)).toBe(changes.length > 0 ? 1 : 0);
      expect(await count(page, `#trial-${k + 1}-sky`)).toBe(trial.spot === 'north-side' ? 1 : 0);
    }
    expect(await count(page, '#trial-3-sky .across rect.lit:not(.legend *)')).toBe(12);
    expect(await count(page, '#run-weather path[class^="step"]')).toBe(8);
    expect(await count(page, '.overview .strip')).toBe(run.trials.length);
    await page.context().close();
  });

  test('the pointer reads a night: its date, short hours, capacitor and cause', async () => {
    const { page } = await openFile(browser, file, {}, '#trial-3');
    const trial = run.trials[2]!;
    const season = [
      ...trial.nights.filter((row) => row.night >= '2025-07-01'),
      ...trial.nights.filter((row) => row.night < '2025-07-01'),
    ];
    const worst = trial.statistics.winters[0]!.worstNight!.night;
    const index = season.findIndex((row) => row.night === worst);
    const slider = page.locator('#trial-3-nights .across .reader');
    await slider.scrollIntoViewIfNeeded();
    const box = (await slider.boundingBox())!;
    await page.mouse.move(box.x + (box.width * (index + 0.5)) / season.length, box.y + 40);
    const reading = await page.locator('#trial-3-nights .reading').textContent();
    const row = season[index]!;
    expect(reading).toContain('30 Dec 2025');
    expect(reading).toContain(`${row.short_h.toFixed(2)} h`);
    expect(reading).toContain(`${row.capacitorDusk_V.toFixed(2)} V`);
    expect(reading).toContain(`${row.capacitorDawn_V.toFixed(2)} V`);
    expect(reading).toContain('it was too dim');
    await page.context().close();
  });

  test('a finger reads a night too', async () => {
    const { page } = await openFile(
      browser,
      file,
      { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true },
      '#trial-3',
    );
    const slider = page.locator('#trial-3-nights .narrow .reader');
    const before = await slider.getAttribute('aria-valuenow');
    await slider.scrollIntoViewIfNeeded();
    const box = (await slider.boundingBox())!;
    await page.touchscreen.tap(box.x + 60, box.y + box.height / 2);
    expect(await slider.getAttribute('aria-valuenow')).not.toBe(before);
    // Half-way down the year is the turn of the year.
    expect(await page.locator('#trial-3-nights .place').textContent()).toMatch(/(Dec|Jan) 2025$/);
    await slider.focus();
    const touched = Number(await slider.getAttribute('aria-valuenow'));
    await page.keyboard.press('ArrowDown');
    expect(Number(await slider.getAttribute('aria-valuenow'))).toBe(touched + 1);
    await page.context().close();
  });

  test('keys read night by night, and jump from failed night to failed night', async () => {
    const { page } = await openFile(browser, file, {}, '#trial-1');
    const slider = page.locator('#trial-1-nights .across .reader');
    await slider.focus();
    const night = async () => Number(await slider.getAttribute('aria-valuenow'));
    await page.keyboard.press('Home');
    expect(await night()).toBe(1);
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/^1 Jul 2025, promise kept, short 0.00 h/);
    await page.keyboard.press('ArrowRight');
    expect(await night()).toBe(2);
    await page.keyboard.press('End');
    expect(await night()).toBe(365);
    await page.keyboard.press('ArrowRight');
    expect(await night()).toBe(365);
    await page.keyboard.press('p');
    expect(await slider.getAttribute('aria-valuetext')).toContain('promise failed');
    await page.keyboard.press('Home');
    const failed = run.trials[0]!.statistics.winters[0]!.failedNights;
    const seen = new Set<number>();
    for (let k = 0; k < failed + 2; k++) {
      await page.locator('#trial-1-nights').getByRole('button', { name: 'Next failed night' }).click();
      seen.add(await night());
    }
    expect(seen.size).toBe(failed);
    await page.context().close();
  });

  test('a card of the overview chooses the trial that is shown', async () => {
    const { page } = await openFile(browser, file);
    expect(await page.locator('.trial:visible').count()).toBe(1);
    await page.locator('.card').nth(3).click();
    await expect.poll(() => page.locator('#trial-4').isVisible()).toBe(true);
    expect(await page.locator('.trial:visible').count()).toBe(1);
    expect(await page.locator('.card[aria-current]').count()).toBe(1);
    await page.context().close();
  });

  test('the capacitor can be looked at closer, down to the day the pointer chose', async () => {
    const { page } = await openFile(browser, file, {}, '#trial-1-capacitor');
    const figure = page.locator('#trial-1-capacitor');
    await figure.locator('canvas').waitFor();
    const slider = figure.locator('.across .reader');
    await slider.focus();
    await page.keyboard.press('Home');
    await page.keyboard.press('ArrowRight');
    await figure.getByRole('button', { name: 'Day', exact: true }).click();
    expect(await figure.locator('.range').textContent()).toBe('2 Jul 2025');
    await figure.getByRole('button', { name: 'Later' }).click();
    expect(await figure.locator('.range').textContent()).toBe('3 Jul 2025');
    await figure.getByRole('button', { name: 'All', exact: true }).click();
    expect(await figure.locator('.range').textContent()).toBe('1 Jul 2025 to 30 Jun 2025');
    await page.context().close();
  });

  test('saves the data behind a picture as CSV, and the picture as SVG', async () => {
    const { page } = await openFile(browser, file, { acceptDownloads: true });
    const saved = async (selector: string, name: string) => {
      const waiting = page.waitForEvent('download');
      await page.locator(selector).getByRole('button', { name }).click();
      return readFileSync(await (await waiting).path(), 'utf8');
    };
    const nights = (await saved('#trial-1-nights', 'Save data (CSV)')).trimEnd().split('\n');
    expect(nights).toHaveLength(366);
    expect(nights[0]).toMatch(/^night,outcome,short_h,/);
    const weather = (await saved('#run-weather', 'Save data (CSV)')).trimEnd().split('\n');
    expect(weather).toHaveLength(8761);
    const noon = weather.find((line) => line.startsWith('2025-06-20T11:00:00Z'))!;
    const hour = (Date.UTC(2025, 5, 20, 11) - run.trials[0]!.light.start_ms) / 3_600_000;
    expect(Number(noon.split(',')[1])).toBeCloseTo(run.trials[0]!.light.ghi_W_m2[hour]!, 1);
    // What lies beyond the screen comes to life when it is seen.
    await page.locator('#trial-1-capacitor').scrollIntoViewIfNeeded();
    const hours = (await saved('#trial-1-capacitor', 'Save hours (CSV)')).trimEnd().split('\n');
    const at = hours.find((line) => line.startsWith('2025-06-20T11:00:00Z'))!.split(',');
    expect(Number(at[1])).toBeCloseTo(run.trials[0]!.year.columns.capacitorEnd_V[hour]!, 3);
    const picture = await saved('#trial-1-nights', 'Save picture (SVG)');
    expect(picture).toMatch(/^<svg [\s\S]*<style>[\s\S]*<\/svg>$/);
    await page.context().close();
  });

  test('shows the data as a table on demand', async () => {
    const { page } = await openFile(browser, file);
    const figure = page.locator('#trial-1-brightness');
    await figure.getByRole('button', { name: 'Show as table' }).click();
    expect(await figure.locator('table tbody tr').count()).toBe(12);
    await page.context().close();
  });

  test.each([360, 1600])('at %i pixels nothing is wider than the page', async (width) => {
    const { page } = await openFile(
      browser,
      file,
      { viewport: { width, height: 900 } },
      '#trial-3-capacitor',
    );
    await page.locator('#trial-3-capacitor canvas').waitFor();
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(width);
    const box = (await page.locator('#trial-3-nights .scroll').boundingBox())!;
    expect(box.width).toBeGreaterThan(Math.min(width, 1040) * 0.85);
    await page.context().close();
  });

  test('on paper every trial is there, and every picture whole on one sheet', async () => {
    const { page } = await openFile(browser, file, { viewport: SHEET });
    await page.emulateMedia({ media: 'print' });
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    expect(await page.locator('.trial:visible').count()).toBe(run.trials.length);
    // Why, of the one that is chosen; assumptions and sources for all.
    expect(await page.locator('.reasons:visible').count()).toBe(1);
    expect(await page.locator('.grounds .assumptions li:visible').count()).toBe(run.assumptions.length);
    const figures = await page.locator('.figure:visible').evaluateAll((all) =>
      all.map((figure) => {
        const picture = figure.querySelector('svg.picture')!.getBoundingClientRect();
        const scroll = figure.querySelector('.scroll')!;
        return {
          id: figure.id,
          left: picture.left,
          right: picture.right,
          height: figure.getBoundingClientRect().height,
          whole: getComputedStyle(figure).breakInside,
          hidden: scroll.scrollWidth - scroll.clientWidth,
        };
      }),
    );
    expect(figures.map(({ id }) => id)).toEqual([
      'trial-1-nights',
      'trial-1-fortnight',
      'trial-1-capacitor',
      'trial-1-energy',
      'trial-2-nights',
      'trial-3-nights',
      'trial-4-nights',
    ]);
    for (const figure of figures) {
      expect(figure.left, figure.id).toBeGreaterThanOrEqual(-1);
      expect(figure.right, figure.id).toBeLessThanOrEqual(SHEET.width + 1);
      expect(figure.height, figure.id).toBeLessThanOrEqual(SHEET.height);
      expect(figure.whole, figure.id).toBe('avoid');
      expect(figure.hidden, figure.id).toBeLessThanOrEqual(1);
    }
    const answers = await page
      .locator('.screen')
      .evaluateAll((all) => all.map((answer) => answer.getBoundingClientRect().height));
    for (const height of answers) expect(height).toBeLessThanOrEqual(SHEET.height);
    expect(
      await page.locator('.reader:visible, .closer:visible, .tools:visible, .chooser:visible').count(),
    ).toBe(0);
    await page.context().close();
  });

  test('the demo prints on at most 12 sheets, each part begun on a new one', async () => {
    const { page } = await openFile(browser, file);
    const printed = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(printed.match(/\/Type\s*\/Page[^s]/g)!.length).toBeLessThanOrEqual(12);
    await page.emulateMedia({ media: 'print' });
    const breaks = await page
      .locator('.trial, .bench, .grounds')
      .evaluateAll((all) => all.map((part) => getComputedStyle(part).breakBefore));
    expect(new Set(breaks)).toEqual(new Set(['page']));
    await page.context().close();
  });

  test('the answer of a trial is on one screen of a desk: verdict, sentences, numbers, nights, what mends it', async () => {
    const { page } = await openFile(browser, file, { viewport: { width: 1600, height: 1000 } });
    for (const part of ['h2', '.plain', '.facts', '.mends', '#trial-1-nights svg.picture']) {
      const box = (await page.locator(`#trial-1 ${part}`).first().boundingBox())!;
      expect(box.y, part).toBeGreaterThan(0);
      expect(box.y + box.height, part).toBeLessThanOrEqual(1000);
    }
    await page.context().close();
  });

  test('the list of trials chooses by name, and stays at the picture that is read; sheets follow', async () => {
    const { page } = await openFile(browser, file, {}, '#trial-1-energy');
    // The page glides there; what is read is what stands in the window by then.
    const top = () =>
      page.locator('#trial-1-energy').evaluate((energy) => energy.getBoundingClientRect().top);
    await expect.poll(top, { timeout: 10_000 }).toBeLessThan(100);
    const sheets = () => page.locator('.bench:visible').evaluateAll((all) => all.map((sheet) => sheet.id));
    // The other spot has its horizon measured.
    expect(await sheets()).toEqual(['bench-1', 'survey-1']);
    const list = page.locator('.chooser select');
    expect(await list.locator('option').count()).toBe(run.trials.length);
    await list.selectOption({ label: 'double on north-side ● kept' });
    await expect.poll(() => page.locator('#trial-4-energy').isVisible()).toBe(true);
    expect(await page.evaluate(() => location.hash)).toBe('#trial-4-energy');
    expect(await sheets()).toEqual(['bench-2']);
    // A link to the sheet of another lamp goes to it.
    await page.evaluate(() => {
      location.hash = '#bench-1';
    });
    await expect.poll(() => page.locator('#bench-1').isVisible()).toBe(true);
    await page.context().close();
  });

  test('on paper the sheets for bench and spot take one page each', async () => {
    const { page } = await openFile(browser, file, { viewport: HANDS_SHEET });
    await page.emulateMedia({ media: 'print' });
    const heights = await page
      .locator('.bench')
      .evaluateAll((all) => all.map((part) => [part.id, part.getBoundingClientRect().height] as const));
    expect(heights.map(([id]) => id)).toEqual(['bench-1', 'bench-2', 'survey-1']);
    for (const [id, height] of heights) expect(height, id).toBeLessThanOrEqual(HANDS_SHEET.height);
    await page.evaluate(() => {
      for (const part of document.querySelectorAll('header, main > :not(.bench)')) part.remove();
    });
    const printed = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(printed.match(/\/Type\s*\/Page[^s]/g)).toHaveLength(heights.length);
    await page.context().close();
  });

  test.each(['light', 'dark'] as const)(
    'passes the accessibility checks in the %s theme',
    async (colorScheme) => {
      for (const hash of ['#trial-3', '#trial-2']) {
        const { page } = await openFile(browser, file, { colorScheme }, `${hash}-capacitor`);
        await page.locator(`${hash}-capacitor canvas`).waitFor();
        expect(await violationsOf(page)).toEqual([]);
        await page.context().close();
      }
    },
  );

  test('shows names that look like markup as they are written, and runs none of them', async () => {
    const { page, problems, requests } = await openFile(
      browser,
      join(folder, 'hostile.html'),
      {},
      '#trial-3-capacitor',
    );
    await page.locator('#trial-3-capacitor canvas').waitFor();
    for (const figure of await page.locator('#trial-3 .figure:visible').all()) {
      await figure.getByRole('button', { name: 'Show as table' }).click();
    }
    expect(await page.evaluate(() => (window as unknown as { harmed?: number }).harmed)).toBeUndefined();
    expect(problems).toEqual([]);
    expect(requests).toEqual([]);
    expect(await page.locator('h1').textContent()).toBe(HOSTILE.scenario);
    expect(await page.locator('#trial-3-name').textContent()).toContain(`${HOSTILE.spot} 3`);
    expect(await page.locator('img').count()).toBe(0);
    const scripts = await page.locator('script:not([type])').count();
    expect(scripts).toBe(2);
    await page.context().close();
  });

  test('the page of a comparison opens alike: no problem, no request, every mark, readable by key', async () => {
    const { page, problems, requests } = await openFile(browser, join(folder, 'compare.html'));
    const marks = (key: string, selector: string) =>
      count(page, `#compared-${key} .across ${selector}:not(.legend *)`);
    expect(await marks('light', 'rect')).toBe(24);
    const lit = run.trials.flatMap((trial) => trial.nights.filter((row) => row.lit_h > 0)).length;
    expect(await marks('nights-compared', 'path.lit')).toBe(lit);
    expect(await count(page, '.figure-sky')).toBe(2);
    expect(await page.locator('.figure-sky h3').allTextContents()).toEqual([
      expect.stringContaining('lawn'),
      expect.stringContaining('north-side'),
    ]);
    expect(await count(page, 'main section table')).toBe(2);
    await page.locator('#compared-nights-compared .across .reader').focus();
    await page.keyboard.press('Home');
    expect(await page.locator('#compared-nights-compared .reading').textContent()).toContain('1 Jul 2025');
    expect(await violationsOf(page)).toEqual([]);
    expect(problems).toEqual([]);
    expect(requests).toEqual([]);
    await page.locator('#compared-light summary').click();
    await page.locator('#compared-light').getByRole('link').click();
    expect(await page.locator('section:visible').count()).toBe(await count(page, 'section'));
    await page.setViewportSize({ width: 360, height: 800 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    await page.context().close();
  });

  test('without scripts shows every trial and every picture', async () => {
    const { page, problems } = await openFile(browser, file, { javaScriptEnabled: false });
    expect(await page.locator('.trial:visible').count()).toBe(run.trials.length);
    expect(await page.locator('figure svg.picture:visible').count()).toBeGreaterThan(20);
    expect(problems.filter((text) => !/JavaScript/i.test(text))).toEqual([]);
    await page.context().close();
  });
}

/** At how many places across a picture its paths have marks: those of a month are one path. */
function placesOf(page: Page, paths: string): Promise<number> {
  return page
    .locator(paths)
    .evaluateAll(
      (all) => new Set(all.flatMap((path) => path.getAttribute('d')?.match(/M[\d.]+/g) ?? [])).size,
    );
}
