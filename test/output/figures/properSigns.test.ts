import { describe, expect, test } from 'vitest';
import { isolated } from '../../../sim/output/figures/element.ts';
import { properSigns } from '../../../sim/output/figures/properSigns.ts';
import { reportPage } from '../../../sim/output/page/reportPage.ts';
import { sizePage } from '../../../sim/output/page/sizePage.ts';
import { spotSkies } from '../../../sim/trial/spotSkies.ts';
import { demoComparePage, demoPage, smallLifePage } from '../../browser/pages.ts';
import { smallSizing } from '../../sizing/smallSizing.ts';

describe('properSigns', () => {
  test('writes degrees, micro, ohm, powers, lumen-hours and plus or minus as they are written by hand', () => {
    for (const [typed, proper] of [
      ['372 Wh/m2 a day, 60 W/m2 at 20 degC', '372 Wh/m² a day, 60 W/m² at 20 °C'],
      ['1020 uH instead of 680 uH; 5 uA, 1000 uF', '1020 µH instead of 680 µH; 5 µA, 1000 µF'],
      ['3.9 ohm, 12 mohm (50 cm2)', '3.9 Ω, 12 mΩ (50 cm²)'],
      ['5943 lm h a year; a klm h costs 0.2', '5943 lm·h a year; a klm·h costs 0.2'],
      ['+/-5 percent, +-10 percent, >=0.65 lm', '±5 percent, ±10 percent, ≥0.65 lm'],
      ['10 deg high; bearing, deg', '10° high; bearing, °'],
      ['distance x tangent, 6.0 x 0.18, low x2', 'distance × tangent, 6.0 × 0.18, low ×2'],
    ] as const)
      expect(properSigns(typed)).toBe(proper);
  });

  test('leaves keys, names between isolates, lists in brackets and quotations as they are', () => {
    for (const words of [
      'capacitor.leakage_uA, at_degC, light_on_cell_W_m2',
      `${isolated('lamp 3 ohm 20 degC')} on ${isolated('lawn 4 m2')}`,
      'none [lamp 3 ohm, lawn 4 m2]',
      'column "GHI (W/m2)"',
      'Xu Aachen, 2 m wide, box, decm2',
    ])
      expect(properSigns(words)).toBe(words);
  });
});

/** What a page shows and reads out, without code: keys, values as they are typed, and a file's lines. */
function wordsOf(html: string): string {
  const markup = html.replace(/<(script|style|code|pre)\b[\s\S]*?<\/\1>/g, '');
  const said = [...markup.matchAll(/ aria-label="([^"]*)"/g)].map(([, words]) => words);
  return [markup.replace(/<[^>]*>/g, '\n'), ...said].join('\n');
}

/** Units as they are typed in ASCII; a key's own (`at_degC`) and what is quoted stay. */
const TYPED = /(?<![\w"])(?:degC|u[AFH]|[km]?ohm)\b|W(?:h)?\/m2|\blm h\b|\bm2\b|\+\/?-\d|\d deg\b/g;

const { run, html } = await demoPage();

test('no page shows a unit in its typed form', async () => {
  const pages = {
    run: html,
    compare: demoComparePage(run),
    life: smallLifePage(),
    size: sizePage(await smallSizing({ budget: 9, lamps: 5 }), ['size.json']),
  };
  for (const [name, page] of Object.entries(pages)) {
    const words = wordsOf(page);
    expect(words.match(TYPED) ?? [], name).toEqual([]);
    expect(words, name).toMatch(/lm·h/);
  }
  const words = wordsOf(html);
  for (const sign of ['°C', 'µH', 'W/m²', 'Wh/m²', 'Ω', '×']) expect(words).toContain(sign);
});

test('names that a user gave, what is saved as CSV and keys stay as they are', () => {
  const [lamp, other, spot, best] = ['ohm 3 uH', 'two lm h', 'north 4 m2 deg', 'lawn 20 degC'] as const;
  const named: Record<string, string> = { single: lamp, double: other, lawn: best, 'north-side': spot };
  const trials = run.trials.map((trial) => ({
    ...trial,
    lamp: named[trial.lamp]!,
    spot: named[trial.spot]!,
    changes: trial.changes.map((change) => ({
      ...change,
      change: change.change.replace('lawn', named.lawn!),
    })),
  }));
  const renamed = <T extends { name: string }>(things: readonly T[]) =>
    things.map((thing) => ({ ...thing, name: named[thing.name]! }));
  const scenario = {
    ...run.scenario,
    lamps: renamed(run.scenario.lamps),
    spots: renamed(run.scenario.spots),
  };
  const page = reportPage({ ...run, scenario, trials }, spotSkies({ ...run, scenario }), []);
  const words = wordsOf(page);
  for (const name of [lamp, other, spot, best]) {
    expect(words.includes(name), name).toBe(true);
    expect(words.split('\n').filter((line) => line.includes(properSigns(name)))).toEqual([]);
  }
  for (const [, data] of page.matchAll(/<script type="application\/json" class="data">([\s\S]*?)<\/script>/g))
    expect(data).not.toMatch(/[µΩ²]|lm·h/);
  expect(page).toContain('<code>air_degC</code>');
  expect(page).toContain('<code>W/m2</code>');
});
