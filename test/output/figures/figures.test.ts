import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { FIGURE_PATTERNS } from '../../../sim/output/figures/standaloneSvg.ts';

const STYLE = readFileSync(new URL('../../../sim/output/figures/figures.css', import.meta.url), 'utf8');
/** The colours of both themes, the light one's first, as the style sheet gives them. */
const THEMES = [...STYLE.matchAll(/:root \{([^}]*--paper[^}]*)\}/g)].map(([, rules = '']) =>
  Object.fromEntries([...rules.matchAll(/--(\w+): (#\w{6});/g)].map(([, name, colour]) => [name, colour!])),
);

/** Relative luminance of a colour '#rrggbb': WCAG 2.1, as in its glossary. */
function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

/** Lightness from 0, black, to 100, white: CIE 1976 L*. */
function lightness(relative: number): number {
  return relative > 216 / 24_389 ? 116 * Math.cbrt(relative) - 16 : (relative * 24_389) / 27;
}

/** Luminance of hatched time as it is seen from afar: the mean of its ground and its lines. */
function hatched(theme: Record<string, string>): number {
  const wide = Number(/\.hatch-line \{[^}]*stroke-width: ([\d.]+)/.exec(STYLE)![1]);
  const share = wide / Number(/id="hatch" width="(\d+)"/.exec(FIGURE_PATTERNS)![1]);
  return share * luminance(theme.shortHatch!) + (1 - share) * luminance(theme.short!);
}

test('lightness is that of the CIE: middle grey, 18.42 percent of the light, is 50', () => {
  expect(lightness(0.184187)).toBeCloseTo(50, 3);
  expect(lightness(0.008856)).toBeCloseTo(8, 2);
});

test('contrast is as WCAG 2.1 defines it: black on white is 21 to 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
});

test('there are two themes', () => {
  expect(THEMES).toHaveLength(2);
});

describe.each([
  ['light', 0],
  ['dark', 1],
])('the %s theme', (_, which) => {
  const theme = THEMES[which]!;
  test('gives words 4.5 to 1 on paper and on pictures (WCAG 2.1, 1.4.3)', () => {
    for (const words of [theme.ink, theme.faint, theme.lightWords, theme.accent]) {
      for (const ground of [theme.paper, theme.surface]) expect(contrast(words, ground)).toBeGreaterThan(4.5);
    }
  });

  test('parts lit, dim and out by lightness alone, 18 of a hundred steps from white to black between each', () => {
    const { light, dim, night } = theme;
    const out = hatched(theme);
    expect(lightness(luminance(light!)) - lightness(luminance(dim!))).toBeGreaterThan(18);
    expect(lightness(luminance(dim!)) - lightness(out)).toBeGreaterThan(18);
    expect(Math.abs(lightness(luminance(night!)) - lightness(out))).toBeGreaterThan(15);
  });

  test('outlines every bar 3 to 1 on the surface; on a dark one every bar of the lamp stands out by itself', () => {
    const { edge, surface, light, dim, short, shortPale } = theme;
    expect(contrast(edge, surface)).toBeGreaterThan(3);
    if (which === 1)
      for (const bar of [light, dim, short, shortPale]) expect(contrast(bar, surface)).toBeGreaterThan(3);
  });

  test('parts lit from short by lightness alone, for grey print and any colour vision: 3 to 1 (WCAG 2.1, 1.4.11)', () => {
    expect(contrast(theme.light, theme.short)).toBeGreaterThan(3);
    expect(contrast(theme.shortHatch, theme.short)).toBeGreaterThan(3);
    expect(contrast(theme.light, theme.night)).toBeGreaterThan(1.4);
  });
});
