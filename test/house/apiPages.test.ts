import { expect, it } from 'vitest';
import { type ApiModel, apiPages } from './apiPages.ts';

const lit = {
  name: 'litTime',
  kind: 'Function',
  canonicalReference: 'longnight!litTime:function(1)',
  docComment:
    '/**\n * How long a lamp shines, in hours. More of it.\n *\n * @remarks\n *\n * In: lamp, any\n *\n * Source: KEY\n *\n * @returns hours\n */\n',
  fileUrlPath: 'dist/types/lamp/litTime.d.ts',
  excerptTokens: [
    { text: 'export declare function litTime(lamp: ' },
    { text: 'LitLamp', canonicalReference: 'longnight!~LitLamp:interface' },
    { text: '): number;' },
  ],
};
const lamp = {
  name: 'LitLamp',
  kind: 'Interface',
  canonicalReference: 'longnight!~LitLamp:interface',
  docComment: '',
  fileUrlPath: 'dist/types/lamp/LitLamp.d.ts',
  excerptTokens: [{ text: 'interface LitLamp' }],
  members: [
    {
      name: 'on_h',
      kind: 'PropertySignature',
      canonicalReference: 'longnight!~LitLamp#on_h:member',
      docComment: '/**\n * Hours on.\n */\n',
      excerptTokens: [{ text: 'on_h: ' }, { text: 'number' }, { text: ';' }],
    },
  ],
};
const model = (...members: ApiModel['members'][0]['members']): ApiModel => ({ members: [{ members }] });
const pages = apiPages(model(lit, lamp), model(lit));

it('the list of the library has what is exported, its first sentence, and whether browsers have it', () => {
  expect(Object.keys(pages)).toEqual(['README.md', 'lamp.md']);
  expect(pages['README.md']).toContain(
    '## [Lamp](lamp.md)\n\n- [`litTime`](lamp.md#littime-function) *core*: How long a lamp shines, in hours.\n',
  );
  expect(pages['README.md']).not.toContain('LitLamp');
});

it('a page says what goes in and comes out, and leads to the types it names', () => {
  expect(pages['lamp.md']).toContain('**In:** lamp, any\n\n**Source:** KEY\n\n**Out:** hours\n');
  expect(pages['lamp.md']).toContain(
    'function litTime(lamp: LitLamp): number;\n```\n\nNames [LitLamp](lamp.md#litlamp-interface).',
  );
  expect(pages['lamp.md']).toContain('interface LitLamp {\n  // Hours on.\n  on_h: number;\n}');
});
