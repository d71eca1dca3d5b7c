import { expect, test } from 'vitest';
import { readmeSection } from '../readmeSection.ts';
import { keysReadme } from './keysReadme.ts';

test('the README of the scenarios shows every key (if not: npm run keys -- --readme)', () => {
  expect(readmeSection('npm run keys')).toBe(keysReadme());
});

test('a key stands there with its words, its unit, what is usual, how to know it and what stands in for it', () => {
  const lines = keysReadme().split('\n');
  const albedo = lines.find((line) => line.startsWith('| `albedo`'))!.split(' | ');
  expect(albedo).toHaveLength(6);
  expect(albedo.slice(3).every((cell) => cell.length > 3)).toBe(true);
  expect(lines.find((line) => line.startsWith('| `kind` | `power`:'))).toContain('`boost`: an inductor');
});
