import { describe, expect, it, test } from 'vitest';
import { type KeyPath, readDocument, type TextDocument } from '../../sim/common/document.ts';
import { InputProblem, type Problem } from '../../sim/common/InputProblem.ts';

const read = (text: string): TextDocument =>
  readDocument({ name: 'a.yaml', bytes: new TextEncoder().encode(text) });

function problemsOf(text: string | Uint8Array): readonly Problem[] {
  try {
    readDocument({ name: 'a.yaml', bytes: typeof text === 'string' ? new TextEncoder().encode(text) : text });
  } catch (error) {
    if (error instanceof InputProblem) return error.problems;
    throw error;
  }
  throw new Error('no problem was found');
}

describe('readDocument places', () => {
  const document = read(
    `# a comment
one: 1
map:
  two: &anchor
    three: "3"
  empty:
list:
  - four: 4
  - [5, 6]
"quoted key": 7
again: *anchor
`,
  );
  const cases: { path: KeyPath; value: [number, number]; key: [number, number] }[] = [
    { path: [], value: [1, 1], key: [1, 1] },
    { path: ['one'], value: [2, 6], key: [2, 1] },
    { path: ['map'], value: [3, 1], key: [3, 1] },
    { path: ['map', 'two'], value: [4, 3], key: [4, 3] },
    { path: ['map', 'two', 'three'], value: [5, 12], key: [5, 5] },
    { path: ['map', 'empty'], value: [6, 3], key: [6, 3] },
    { path: ['list', 0, 'four'], value: [8, 11], key: [8, 5] },
    { path: ['list', 1, 1], value: [9, 9], key: [9, 9] },
    { path: ['quoted key'], value: [10, 15], key: [10, 1] },
    { path: ['again', 'three'], value: [5, 12], key: [5, 5] },
  ];
  it.each(cases)('$path', ({ path, value, key }) => {
    expect(document.placeOf(path)).toEqual({ line: value[0], column: value[1] });
    expect(document.placeOfKey(path)).toEqual({ line: key[0], column: key[1] });
  });

  it('a path that is not there at the nearest key above it', () => {
    expect(document.placeOf(['map', 'two', 'nothing', 'below'])).toEqual({ line: 4, column: 3 });
    expect(document.placeOf(['list', 7])).toEqual({ line: 7, column: 1 });
    expect(document.placeOf(['nothing'])).toEqual({ line: 1, column: 1 });
  });

  it('and gives plain values', () => {
    expect(document.value).toEqual({
      one: 1,
      map: { two: { three: '3' }, empty: null },
      list: [{ four: 4 }, [5, 6]],
      'quoted key': 7,
      again: { three: '3' },
    });
  });
});

test('readDocument reads clock times, on and off as text', () => {
  expect(read('on: dusk\nuntil: 23:00\nswitch: off\n').value).toEqual({
    on: 'dusk',
    until: '23:00',
    switch: 'off',
  });
});

test('readDocument takes a byte order mark and Windows line ends', () => {
  const document = read('\uFEFFone: 1\r\ntwo: 2\r\n');
  expect(document.value).toEqual({ one: 1, two: 2 });
  expect(document.placeOf(['two'])).toEqual({ line: 2, column: 6 });
});

describe('readDocument refuses', () => {
  it('an empty file', () => {
    expect(problemsOf('')[0]).toMatchObject({ code: 'FILE_EMPTY', file: 'a.yaml', got: 'a file of 0 bytes' });
    expect(problemsOf(' \n\n')[0]).toMatchObject({ code: 'FILE_EMPTY', got: 'nothing but blanks' });
    expect(problemsOf('# only this\n')[0]).toMatchObject({ code: 'FILE_EMPTY', got: 'nothing but comments' });
  });

  it('bytes that are no text', () => {
    expect(problemsOf(Uint8Array.of(0x61, 0))[0]).toMatchObject({
      code: 'FILE_NOT_TEXT',
      got: 'a zero byte at position 2',
    });
    expect(problemsOf(Uint8Array.of(0x61, 0xff))[0]).toMatchObject({
      code: 'FILE_NOT_TEXT',
      got: 'bytes that are not UTF-8',
    });
  });

  it('text that is no YAML map', () => {
    expect(problemsOf('a,b\n1,2\n')).toEqual([
      {
        code: 'YAML_SYNTAX',
        file: 'a.yaml',
        line: 1,
        got: 'text without any key',
        expected: 'YAML with a key and its value on each line, as in "key: value"',
        fix: 'is this the right file?',
      },
    ]);
    expect(problemsOf('- 1\n- 2\n')[0]).toMatchObject({ code: 'YAML_SYNTAX', got: 'a list' });
  });

  it('YAML that breaks off or is indented wrongly, with its place', () => {
    expect(problemsOf('one: 1\nmap: [1,\ntwo: 2')[0]).toMatchObject({
      code: 'YAML_SYNTAX',
      line: 3,
      got: '"two: 2"',
    });
    expect(problemsOf('map:\n  one: 1\n two: 2\n')[0]).toMatchObject({
      code: 'YAML_SYNTAX',
      line: 3,
      column: 1,
    });
    expect(problemsOf('map:\n\tone: 1\n')[0]).toMatchObject({ code: 'YAML_SYNTAX', line: 2, column: 1 });
    expect(problemsOf('one: 1\n---\ntwo: 2\n')[0]).toMatchObject({ code: 'YAML_SYNTAX', line: 2 });
    expect(problemsOf('one: !shape 1\n')[0]).toMatchObject({ code: 'YAML_SYNTAX', line: 1, column: 6 });
  });

  it('a key that stands twice, with both lines, and all of them', () => {
    expect(problemsOf('one: 1\nmap:\n  a b: 1\n  c: 2\n  "a b": 3\none: 4\n')).toEqual([
      {
        code: 'YAML_DUPLICATE_KEY',
        file: 'a.yaml',
        line: 5,
        column: 3,
        field: 'a b',
        got: '"a b" a second time; it stands on line 3 already',
        expected: 'each key once in its map',
        fix: 'remove one of the two.',
      },
      expect.objectContaining({ code: 'YAML_DUPLICATE_KEY', line: 6, column: 1, field: 'one' }),
    ]);
  });

  it('an alias without its anchor, or inside its own', () => {
    expect(problemsOf('one: *nothing\n')[0]).toMatchObject({
      code: 'YAML_SYNTAX',
      line: 1,
      column: 6,
      got: '*nothing',
      expected: 'an anchor of that name above it',
    });
    expect(problemsOf('one: &self\n  two: *self\n')[0]).toMatchObject({
      code: 'YAML_SYNTAX',
      line: 2,
      got: '*self',
    });
  });

  it('an alias with which the file would hold more values than any garden has', () => {
    const rows = Array.from({ length: 6 }, (_, i) => `a${i + 1}: &a${i + 1} [${`*a${i}, `.repeat(10)}]`);
    expect(problemsOf(`a0: &a0 [${'1, '.repeat(10)}]\n${rows.join('\n')}\n`)).toEqual([
      {
        code: 'YAML_SYNTAX',
        file: 'a.yaml',
        line: 5,
        column: 45,
        got: '*a3, which repeats 11111 values',
        expected: 'at most 100000 values in a file, those counted that an alias repeats',
        fix: 'take copies away; a name beside a library part is shorter than a copy of the part.',
      },
    ]);
  });
});

it('reads a file of thousands of keys that all repeat one anchor', () => {
  const keys = Array.from({ length: 5000 }, (_, i) => `key${i}: *part`);
  const { value, placeOf } = read(`part: &part { size: 3 }\n${keys.join('\n')}\n`);
  expect(Object.keys(value)).toHaveLength(5001);
  expect(value.key4999).toEqual({ size: 3 });
  expect(placeOf(['key99', 'size'])).toEqual({ line: 1, column: 21 });
});
