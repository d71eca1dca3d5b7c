import { expect, test } from 'vitest';
import { element } from '../../../sim/output/figures/element.ts';
import { nightChart } from '../../../sim/output/figures/nightChart.ts';
import type { NightColumn } from '../../../sim/output/figures/nightColumns.ts';
import { slug, standaloneSvg } from '../../../sim/output/figures/standaloneSvg.ts';
import { smallNight } from '../smallRun.ts';
import { expectWellFormed } from './svgMarks.ts';

const NIGHTS: NightColumn[] = [
  {
    row: smallNight('2025-12-20'),
    dusk_h: 16.5,
    dawn_h: 31.5,
    spans: [{ from_h: 16.5, to_h: 22.5, kind: 'lit' }],
    firstShort_h: Number.NaN,
  },
];

test('names that look like markup are escaped in title, words and attributes', () => {
  const name = `"><script>alert(1)</script>'&`;
  const figure = nightChart('t', name, NIGHTS, name);
  expect(figure.svg).not.toContain('<script');
  expect(figure.svg).toContain('&quot;&gt;&lt;script&gt;alert(1)&lt;/script&gt;&#39;&amp;');
  expect(element('g', { id: '"<&' })).toBe('<g id="&quot;&lt;&amp;"/>');
  expectWellFormed(
    standaloneSvg(figure)
      .replace(/^<\?xml.*\n/, '')
      .replace(/<style>.*?<\/style>/s, ''),
  );
});

test('a file name keeps letters and digits of a name, and nothing else', () => {
  expect(slug('../Étang <1>')).toBe('e-tang-1');
  expect(slug('🏡')).toBe('');
});

test('a picture that stands alone carries its style, both themes and its title', () => {
  const text = standaloneSvg(nightChart('t', 'lamp', NIGHTS, 's'));
  expect(text).toContain('prefers-color-scheme:dark');
  expect(text).toContain('>Every night: lamp</text>');
  expect(text).toContain('<pattern id="hatch"');
});
