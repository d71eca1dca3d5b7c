import { expect, test } from 'vitest';
import { escapeText, isolated } from '../../../sim/output/figures/element.ts';

test('characters that XML forbids, and halves of pairs, are replaced; emoji and letters of any script stay', () => {
  expect(escapeText('a\u0000b\u001fc\ud83cd')).toBe('a\ufffdb\ufffdc\ufffdd');
  expect(escapeText('🏡 שלום\t\n')).toBe('🏡 שלום\t\n');
});

test('a name is fenced off, and loses marks that would turn the words after it', () => {
  expect(isolated('ab\u202ec\u2069d')).toBe('\u2068abcd\u2069');
});
