import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { visibleJson, visibleLine, visibleText } from '../../sim/common/visibleText.ts';

const anyText = fc.string({ unit: 'binary' });

describe('a text in which everything is seen', () => {
  test.each([
    ['a control character', '\u0007', '\\u{7}'],
    ['a control character of the second table', '\u009b2J', '\\u{9b}2J'],
    ['an escape sequence', '\u001b[31m', '\\u{1b}[31m'],
    ['a tab, a return, a delete', '\t\r\u007f', '\\u{9}\\u{d}\\u{7f}'],
    [
      'overrides and isolates',
      '\u202e\u2066\u2069\u200f\u061c',
      '\\u{202e}\\u{2066}\\u{2069}\\u{200f}\\u{61c}',
    ],
    [
      'signs of no width',
      '\u200b\u200d\u2060\ufeff\u00ad\u3164',
      '\\u{200b}\\u{200d}\\u{2060}\\u{feff}\\u{ad}\\u{3164}',
    ],
    ['line separators', '\u2028\u2029\u0085', '\\u{2028}\\u{2029}\\u{85}'],
    ['tags beyond the first plane', '\u{e0041}', '\\u{e0041}'],
    ['half of a pair', 'a\ud800', 'a\\u{d800}'],
  ])('shows %s', (_, text, shown) => {
    expect(visibleText(text)).toBe(shown);
  });

  test('leaves line breaks, and what is seen in any script', () => {
    const text = 'Gärten, 庭, сад, בגינה, บ้าน, 🌻\ntwo lines';
    expect(visibleText(text)).toBe(text);
    expect(visibleLine(text)).toBe(text.replace('\n', '\\u{a}'));
  });

  test('is its own', () => {
    fc.assert(fc.property(anyText, (text) => visibleText(visibleText(text)) === visibleText(text)));
  });
});

test('JSON in which everything is seen is the same JSON', () => {
  fc.assert(
    fc.property(fc.jsonValue(), anyText, (value, text) => {
      const json = visibleJson(JSON.stringify({ [text]: [value, text] }, null, 2));
      expect(visibleText(json)).toBe(json);
      expect(JSON.parse(json)).toEqual(JSON.parse(JSON.stringify({ [text]: [value, text] })));
    }),
  );
});
