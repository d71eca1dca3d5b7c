import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { csvText, textOfCell } from '../../sim/common/csvText.ts';

/** The first cell of a table, as it stands between quotes. */
const written = (cell: string): string =>
  (
    parse(
      csvText(
        [
          { heading: 'a', cell: String },
          { heading: 'b', cell: String },
        ],
        [cell],
      ),
    ) as string[][]
  )[1]![0]!;

describe('a cell that a spreadsheet would calculate', () => {
  test.each(['=1+1', '+x', '-x', '@sum', '\t=1', '\r=1', '-1+2', '--1', '+5'])('is text: %j', (text) => {
    expect(written(text)).toBe(`'${text}`);
    expect(textOfCell(`'${text}`)).toBe(text);
  });

  test.each(['-1', '-0.50', '-1.5e-7', '0', '12.5', "'quoted'", 'a=b', '2025-01-01', ''])(
    'is not %j',
    (text) => {
      expect(written(text)).toBe(text);
      expect(textOfCell(text)).toBe(text);
    },
  );

  test('any text comes back as it is, and none is calculated', () => {
    const start = fc.constantFrom('', '=', '+', '-', '@', "'=", "''+", '\t', '\r', "'");
    fc.assert(
      fc.property(start, fc.string({ unit: 'binary' }), (first, rest) => {
        const text = `${first}${rest}`;
        const cell = written(text);
        expect(textOfCell(cell)).toBe(text);
        if (Number.isNaN(Number(cell))) expect(cell).not.toMatch(/^[=+\-@\t\r]/);
      }),
    );
  });
});
