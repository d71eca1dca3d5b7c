import { describe, expect, it } from 'vitest';
import type { InputProblem } from '../../sim/common/InputProblem.ts';
import { isJson, jsonTable } from '../../sim/tables/json/jsonTable.ts';

const tableOf = (value: unknown) => jsonTable('x.json', JSON.stringify(value)).trimEnd().split('\n');

describe('jsonTable', () => {
  it.each<[shape: string, value: unknown, table: string[]]>([
    [
      'a list of records, keys within keys joined by points, what lacks left empty',
      [
        { t: '2025-01-01', v: { a: 1, b: null } },
        { t: '2025-01-02', v: { b: 2.5 }, note: 'x;y "z"' },
      ],
      ['t;v.a;v.b;note', '2025-01-01;1;;', '2025-01-02;;2.5;"x;y ""z"""'],
    ],
    [
      'lists beside each other, the longest, with what is said of each',
      {
        days: { t: ['a'], v: [9] },
        units: { v: 'W/m2' },
        site: { lat: 54 },
        hours: { t: ['b', 'c'], v: [1, 2] },
      },
      ['site.lat: 54', 't;v', '-;W/m2', 'b;1', 'c;2'],
    ],
    [
      'a list of lists, their names in a list beside it',
      {
        out: [
          {
            fields: [{ name: 'when' }, { name: 'light', unit: 'lx' }],
            rows: [
              ['a', 1],
              ['b', 2],
              ['c', 3],
            ],
          },
        ],
      },
      ['when;light', '-;lx', 'a;1', 'b;2', 'c;3'],
    ],
    [
      'a list of lists, their names in the first',
      [
        ['when', 'light'],
        ['a', 1],
        ['b', 2],
      ],
      ['when;light', 'a;1', 'b;2'],
    ],
    [
      'lists with the same times as columns side by side, the time wherever it stands',
      [
        {
          name: 'light',
          points: [
            [1, 1735689600],
            [2, 1735693200],
          ],
        },
        {
          name: 'air',
          points: [
            [3, 1735689600],
            [4, 1735693200],
          ],
        },
      ],
      ['time;light;air', '1735689600;1;3', '1735693200;2;4'],
    ],
    [
      'values by their times, and a point on the globe',
      { at: { type: 'Point', coordinates: [10, 54] }, light: { '2025010100': 1, '2025010101': 2 } },
      ['at.latitude: 54', 'at.longitude: 10', 'time;light', '2025010100;1', '2025010101;2'],
    ],
    [
      'a list a month, one after the other',
      {
        '2025-01': [
          { t: 'a', v: 1 },
          { t: 'b', v: 2 },
        ],
        '2025-02': [
          { t: 'c', v: 3 },
          { t: 'd', v: 4 },
        ],
      },
      ['t;v', 'a;1', 'b;2', 'c;3', 'd;4'],
    ],
    [
      'hours within days',
      { '2025-01-01': { '00:00': 1, '01:00': 2 }, '2025-01-02': { '00:00': 3, '01:00': 4 } },
      ['time;00:00;01:00', '2025-01-01;1;2', '2025-01-02;3;4'],
    ],
  ])('lays out %s', (_, value, table) => {
    expect(tableOf(value)).toEqual(table);
  });

  it('reads a record a line, and NaN, which JSON lacks, as nothing', () => {
    expect(jsonTable('x', '{"t":"a","v":1}\n{"t":"b","v":2}\n')).toBe('t;v\na;1\nb;2\n');
    expect(jsonTable('x', '[{"t":"a NaN","v":NaN},{"t":"b","v":-Infinity}]')).toBe('t;v\na NaN;\nb;\n');
  });

  it.each<[what: string, text: string, code: string, line: number | undefined]>([
    ['breaks off', '[\n{"t":"a","v":1},\n{"t":"b', 'FILE_TRUNCATED', 3],
    ['has a mistake', '[\n{"t":"a" "v":1}\n]', 'FILE_NOT_TEXT', 2],
    ['has no rows', '{"light":5}', 'WEATHER_COLUMN_MISSING', undefined],
    ['has one record', '[{"t":"a","v":1}]', 'WEATHER_COLUMN_MISSING', undefined],
    ['nests without end', `${'['.repeat(5000)}${']'.repeat(5000)}`, 'WEATHER_COLUMN_MISSING', undefined],
    [
      'has other keys in every record',
      JSON.stringify(Array.from({ length: 600 }, (_, i) => ({ [`a${i}`]: 1, [`b${i}`]: 2 }))),
      'WEATHER_COLUMN_MISSING',
      undefined,
    ],
  ])('refuses what %s', (_, text, code, line) => {
    let problem: unknown;
    try {
      jsonTable('x.json', text);
    } catch (error) {
      problem = (error as InputProblem).problems[0];
    }
    expect(problem).toMatchObject({ code, file: 'x.json', ...(line === undefined ? {} : { line }) });
  });

  it('is told from other texts by how it begins', () => {
    for (const text of ['{"a":1}', ' [ {', '[[1', '{}', '[]']) expect(isJson(text)).toBe(true);
    for (const text of ['[Header]', 'a;b', '(1)', '{a}', '']) expect(isJson(text)).toBe(false);
  });
});
