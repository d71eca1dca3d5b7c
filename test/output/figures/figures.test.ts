import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

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

  test('parts lit from short by lightness alone, for grey print and any colour vision: 3 to 1 (WCAG 2.1, 1.4.11)', () => {
    expect(contrast(theme.light, theme.short)).toBeGreaterThan(3);
    expect(contrast(theme.shortHatch, theme.short)).toBeGreaterThan(3);
    expect(contrast(theme.light, theme.night)).toBeGreaterThan(1.4);
  });
});
