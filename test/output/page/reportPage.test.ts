import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { drawnTrials } from '../../../sim/output/figures/drawnTrials.ts';
import { embeddedJson } from '../../../sim/output/page/embeddedJson.ts';
import { CITED, FIGURE_NOTES, LIFE_CITED } from '../../../sim/output/page/figureNotes.ts';
import { hourlyPack } from '../../../sim/output/page/hourlyPack.ts';
import { packedColumn, unpackedColumn } from '../../../sim/output/page/packedColumn.ts';
import { reportPage } from '../../../sim/output/page/reportPage.ts';
import { civilHours } from '../../../sim/statistics/civilHours.ts';
import { demoComparePage, demoPage, hostilePage, manyTrials } from '../../browser/pages.ts';
import { fileAt } from '../../house/simFiles.ts';
import { brokenStatistics, darkNight, nightsFrom, smallRun, smallTrial } from '../smallRun.ts';

const { run, html } = await demoPage();
describe('the page of a run', () => {
  test('stays under 1.5 MB for the demo of four trials', () => {
    expect(Buffer.byteLength(html)).toBeLessThan(1.5e6);
  });

  test('holds 20 lamps in 20 spots in less than 5 MB: all as nights, the decisive ones by the hour', () => {
    const page = reportPage(manyTrials(run), new Map(), []);
    expect(Buffer.byteLength(page)).toBeLessThan(5e6);
    expect(page.match(/<a class="cell"/g)).toHaveLength(400);
    expect(page.match(/<section class="trial"/g)).toHaveLength(400);
    expect(page.match(/<div data-block="fortnight"><figure/g)).toHaveLength(8);
    // Every cell leads to a part that shows its strip again, or all of it.
    const brief = [...page.matchAll(/<section class="trial" id="(trial-\d+)"[^>]* data-brief/g)];
    expect(brief).toHaveLength(392);
    for (const [, id] of brief) {
      expect(page).toContain(`href="#${id}"`);
      expect(page).toContain(`<use href="#${id}-strip"/>`);
      expect(page).toContain(`id="${id}-strip"`);
    }
  }, 20_000);

  test('asks nothing of the network: no address outside, and a policy that forbids it', () => {
    const markup = html
      .replace(/<script>[\s\S]*?<\/script>/g, '')
      .replaceAll('http://www.w3.org/2000/svg', '');
    expect(markup).not.toMatch(/https?:|\bsrc=|@import|url\((?!#)/);
    expect(html).toContain("default-src 'none'");
  });

  test('lets only its own scripts run: the policy holds the digest of each', () => {
    const policy = /content="(default-src[^"]*)"/.exec(html)![1]!;
    const scripts = [...html.matchAll(/<script>([\s\S]*?)<\/script>/g)].map((found) => found[1]!);
    expect(scripts).toHaveLength(2);
    for (const script of scripts) {
      expect(policy).toContain(`'sha256-${createHash('sha256').update(script, 'utf8').digest('base64')}'`);
    }
    expect(policy).not.toContain("script-src 'unsafe");
  });

  test('carries the licence of the library it inlines, with script and style; the page of a comparison has no library', () => {
    const licence = readFileSync(createRequire(import.meta.url).resolve('uplot/LICENSE'), 'utf8').trim();
    expect(licence).toContain('Copyright (c)');
    const [style] = [...html.matchAll(/<style>([\s\S]*?)<\/style>/g)].map((found) => found[1]!).slice(-1);
    const script = /<script>([\s\S]*?)<\/script>/.exec(html)![1]!;
    for (const text of [style!, script]) {
      expect(text.startsWith(`/*! uPlot\n${licence}\n*/`)).toBe(true);
      expect(text.toLowerCase()).toContain('u-legend');
    }
    expect(demoComparePage(run)).not.toMatch(/uPlot|u-over/);
  });

  test('names scenario, weather file, filled hours, version, seed and digests, so that it can be repeated', () => {
    for (const words of [
      'longnight run invented-garden.yaml',
      run.scenario.sha256,
      run.weather.sha256,
      'invented-year.csv',
      'seed 1',
      '8760 hours from 2025-01-01T00:00:00Z',
      `${run.weather.filled_hours}, filled or standing in`,
    ])
      expect(html).toContain(words);
    for (const caution of run.cautions) expect(html).toContain(caution);
  });

  test('gives every picture its unit, its assumption and its source', () => {
    const figures = [...html.matchAll(/<figure class="figure figure-([\w-]+)"[\s\S]*?<\/figure>/g)];
    expect(figures.length).toBeGreaterThan(20);
    for (const [text, key] of figures) {
      expect(FIGURE_NOTES[key!], key).toBeDefined();
      expect(text).toMatch(
        /<dt>Unit<\/dt><dd>[^<]+[\s\S]*<dt>Assumption<\/dt><dd>[^<]+[\s\S]*<dt>Source<\/dt><dd>[^<]+/,
      );
    }
  });

  test('holds no markup of a hostile name', () => {
    const hostile = hostilePage(run);
    expect(hostile).not.toContain('<script>window.harmed');
    expect(hostile).not.toContain('<img');
    const count = (text: string) => text.match(/<script/g)!.length;
    // One of two skies is left, since spots bear other names now: its data block is gone, nothing else has come.
    expect(count(hostile)).toBe(count(html) - 1);
  });

  test('asks at its head of numbers that hardly anyone has', () => {
    const run = smallRun();
    const questions = ['obstacles.it.height_m 180 m: ... Did you mean 1.8 m, 180 cm? [lawn]'];
    const page = reportPage({ ...run, scenario: { ...run.scenario, questions } }, new Map(), []);
    const head = page.slice(page.indexOf('<header'), page.indexOf('</header>'));
    expect(head).toContain('aria-label="Please check"');
    expect(head).toContain('Did you mean 1.8 m, 180 cm?');
    expect(reportPage(run, new Map(), [])).not.toContain('Please check');
  });

  test('is made of the smallest run too, whatever its verdict', () => {
    const broken = smallTrial({
      statistics: brokenStatistics(),
      nights: nightsFrom('2025-12-01', 23, (night) => darkNight(night, 3, 1)),
    });
    for (const trial of [broken, smallTrial()]) {
      const page = reportPage(smallRun([trial]), new Map(), []);
      expect(page).toContain('<bdi>single</bdi>');
      expect(page.replace(/<script[\s\S]*?<\/script>/g, '')).not.toMatch(/NaN|undefined|Infinity/);
    }
  });
});

test('a cited source is one of the list, in its words', () => {
  const rows = fileAt('sim/common/SOURCES.md').text.split('\n');
  for (const [key, words] of Object.entries({ ...CITED, ...LIFE_CITED })) {
    const row = rows.find((line) => line.startsWith(`| ${key} |`));
    expect(row, key).toBeDefined();
    for (const word of words.split(/[^\p{L}\d]+/u)) expect(row, key).toContain(word);
  }
  for (const { sources } of Object.values(FIGURE_NOTES))
    for (const key of sources) expect({ ...CITED, ...LIFE_CITED }).toHaveProperty([key]);
});

describe('numbers packed for the page', () => {
  test('come back to half of their last decimal, NaN as NaN', () => {
    const values = Float64Array.of(0, 1.23456, 2.7, Number.NaN, -0.2);
    expect([...unpackedColumn(packedColumn(values, 4))]).toEqual([0, 1.2346, 2.7, Number.NaN, 0]);
  });

  test('lose decimals rather than overflow', () => {
    expect(packedColumn(Float64Array.of(1200), 4).scale).toBe(10);
    expect([...unpackedColumn(packedColumn(Float64Array.of(1200.26), 4))]).toEqual([1200.3]);
  });

  test('are in the order of the season: July first', () => {
    const days = civilHours(run.trials[0]!.light.start_ms, 8760, run.scenario.site.timeZone);
    const pack = hourlyPack(run, drawnTrials(run, new Map()).trials, days);
    const trial = pack.trials['trial-1']!;
    const start = (Date.UTC(2025, 5, 30, 22) - pack.start_ms) / 3_600_000;
    expect(trial.days.from[0]).toBe(start);
    expect(unpackedColumn(trial.capacitor_V)[0]).toBeCloseTo(
      run.trials[0]!.year.columns.capacitorEnd_V[start]!,
      3,
    );
    expect(unpackedColumn(trial.capacitor_V)).toHaveLength(8760);
    expect(Object.keys(pack.lights)).toHaveLength(2);
  });
});

test('embedded data cannot end its element', () => {
  const value = { name: '</script><!--\u2028' };
  const text = embeddedJson(value);
  expect(text).not.toMatch(/[<\u2028]/);
  expect(JSON.parse(text)).toEqual(value);
});
