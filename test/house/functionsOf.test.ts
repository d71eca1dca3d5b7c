import { expect, it } from 'vitest';
import { bareCode } from './bareCode.ts';
import { functionsOf } from './functionsOf.ts';

const TEXT = [
  'export function first(',
  '  a: number, // {',
  '): { b: string } {',
  "  const text = '}' + `${[a].map((x) => {",
  "    return x + '`';",
  '  })} // no comment`;',
  '  if (/[/{]/.test(text)) {',
  '    return { b: text };',
  '  }',
  '  return { b: "" };',
  '}',
  '',
  'class Second {',
  '  /** { */',
  '  private async third(a = {}): Promise<void> {',
  '    await a;',
  '  }',
  '}',
  '',
].join('\n');

it('functions are found with their lines, whatever braces stand in strings, templates, patterns and comments', () => {
  expect(functionsOf(TEXT).map(({ name, line, lines }) => [name, line, lines])).toEqual([
    ['export function first(', 1, 11],
    ["const text = '}' + `${[a].map((x) => {", 4, 3],
    ['private async third(a = {}): Promise<void> {', 15, 3],
  ]);
});

it('bare code has no comments and keeps what only looks like one', () => {
  const { code, bones } = bareCode(TEXT);
  expect(code).toContain('// no comment`');
  expect(code).not.toContain('// {');
  expect(bones.match(/[{]/g)).toHaveLength(bones.match(/[}]/g)!.length);
});
