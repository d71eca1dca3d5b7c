import fc from 'fast-check';
import { expect, test } from 'vitest';
import { OpenQuote, rowSplitter, splitLine } from '../../sim/tables/rowSplitter.ts';

/** Rows of a text handed over in pieces cut at the given places. */
function rowsOf(
  text: string,
  cuts: readonly number[] = [],
  firstLine = 1,
): [cells: string[], line: number, last: boolean][] {
  const rows: [string[], number, boolean][] = [];
  const splitter = rowSplitter(',', 'all', firstLine, (cells, _, line, last) =>
    rows.push([[...cells], line, last]),
  );
  const places = [0, ...[...cuts].map((cut) => cut % (text.length + 1)).sort((a, b) => a - b), text.length];
  for (let i = 1; i < places.length; i++) splitter.push(text.slice(places[i - 1], places[i]));
  splitter.end();
  return rows;
}

test.each([
  ['plain rows', 'a,1,2\nb, 3 ,\n\nc,5,6\n'],
  ['CRLF', 'a,1,2\r\nb,3,4\r\n'],
  ['lone carriage returns', 'a,1,2\rb,3,4\r'],
  ['quotes', '"a","1","2"\nb,3,4\n"c, with comma",5,"6"\n'],
  ['a line break inside quotes', 'a,1,2\n"b\nc",3,4\nd,5,6'],
  ['a line break inside quotes at the very end', 'a,1,2\nb,3,"c\nd"'],
  ['no line break at the end', 'a,1,2\nb,3,4'],
])('rowSplitter gives the same rows of %s however the text is cut', (_, text) => {
  const whole = rowsOf(text);
  fc.assert(
    fc.property(fc.array(fc.nat(60), { maxLength: 6 }), (cuts) => {
      expect(rowsOf(text, cuts)).toEqual(whole);
    }),
  );
});

test('rowSplitter tells lines and the last row that lacks its line break', () => {
  expect(rowsOf('a,1\n\n"b\nc",2\nd,3')).toEqual([
    [['a', '1'], 1, false],
    [['b\nc', '2'], 4, false],
    [['d', '3'], 5, true],
  ]);
});

test('rowSplitter passes over the lines above the rows, quotes and all', () => {
  expect(rowsOf('a 5" gauge\nx\na,1\nb,2\n', [4, 9], 3)).toEqual([
    [['a', '1'], 3, false],
    [['b', '2'], 4, false],
  ]);
});

test('rowSplitter puts wanted cells in the order wanted, empty where the row has none', () => {
  const rows: string[][] = [];
  const splitter = rowSplitter(';', [2, 0, 2], 1, (cells) => rows.push([...cells]));
  splitter.push('a;b;c;d\ne\n');
  splitter.end();
  expect(rows).toEqual([
    ['c', 'a', 'c'],
    ['', 'e', ''],
  ]);
});

test('rowSplitter refuses a quote that is never closed', () => {
  expect(() => rowsOf('a,1\n"b,2\n')).toThrow(OpenQuote);
});

test('rowSplitter splits a row that stands in quotes as a whole, and the quotes inside it', () => {
  const rows = [
    [['a', '1', '2'], 1, false],
    [['b, c', '3 "', '4'], 2, false],
  ];
  expect(rowsOf('"a,""1"",2"\n"""b, c"",""3 """""",4"\n')).toEqual(rows);
  expect(splitLine('"a;1;""2;3"""', ';')).toEqual(['a', '1', '2;3']);
});

test('rowSplitter takes quotes that open no cell as they stand', () => {
  expect(rowsOf('a 5" pipe,1\nb,"2"\n').map(([cells]) => cells)).toEqual([
    ['a 5" pipe', '1'],
    ['b', '2'],
  ]);
});

test('rowSplitter names the line on which a quote opens that is never closed', () => {
  expect(() => rowsOf('a,1\nb,"2\nc,3\n')).toThrow(OpenQuote);
  try {
    rowsOf('a,1\nb,"2\nc,3\n');
  } catch (error) {
    expect((error as OpenQuote).line).toBe(2);
  }
});
