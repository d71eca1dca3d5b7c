import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { yamlText } from '../../../sim/trial/live/yamlText.ts';

/** Words that YAML has a meaning for, signs at every place, and what any text holds. */
const words = fc.oneof(
  fc.constantFrom(
    'on',
    'No',
    'null',
    '1e3',
    '.5',
    '~',
    '',
    ' a',
    'a ',
    'a: b',
    'a #b',
    '- a',
    '../a b.csv',
    '16:00',
    'é',
  ),
  fc.string({ maxLength: 12, unit: 'grapheme' }),
);
const { json } = fc.letrec<{ json: unknown }>((tie) => ({
  json: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    words,
    fc.double({ noDefaultInfinity: true, noNaN: true }).map((value) => value + 0),
    fc.boolean(),
    fc.constant(null),
    fc.array(tie('json'), { maxLength: 4 }),
    fc.dictionary(words, tie('json'), { maxKeys: 4 }),
  ),
}));

describe('yamlText', () => {
  it('is read back as what it was, whatever stands in it', () => {
    fc.assert(
      fc.property(fc.dictionary(words, json, { minKeys: 1, maxKeys: 5 }), (map) => {
        const plain = JSON.parse(JSON.stringify(map));
        expect(parse(yamlText(plain))).toEqual(plain);
      }),
      { numRuns: 500 },
    );
  });

  it('has a short map on its line, and a long one below', () => {
    const rows = Array.from({ length: 3 }, (_, i) => ({ resistor_ohm: 10 + i, after: 'rest'.repeat(12) }));
    expect(yamlText({ promise: { from: 'dusk', hours: 6 }, rows })).toBe(
      `promise: { from: dusk, hours: 6 }\nrows:\n${rows
        .map(({ resistor_ohm, after }) => `  - { resistor_ohm: ${resistor_ohm}, after: ${after} }\n`)
        .join('')}`,
    );
  });
});
