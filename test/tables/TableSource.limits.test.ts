import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { platform, tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, describe, expect, test } from 'vitest';
import { decodeText, lineGuard, textStream, unpacked } from '../../sim/tables/decodeText.ts';
import { readHourlyTable } from '../../sim/tables/hourlyTable.ts';
import { fileSource, INPUT_LIMITS, readTextFile } from '../../sim/tables/TableSource.ts';
import { problemsOf as problemsOfPromise, readText } from '../weather/recognise/readText.ts';
import { problemsOf } from './hourlyText.ts';

const folder = mkdtempSync(join(tmpdir(), 'limits-'));
afterAll(() => rmSync(folder, { recursive: true }));

const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 } };
const TOO_LARGE = { code: 'FILE_TOO_LARGE', fix: 'is this the right file?' };

describe('bytes', () => {
  test('of a file are counted before it is read', () => {
    const path = join(folder, 'ten.txt');
    writeFileSync(path, '0123456789');
    expect(readTextFile(path, 'ten.txt', 10).bytes).toHaveLength(10);
    expect(problemsOf(() => readTextFile(path, 'ten.txt', 9))).toEqual([
      { ...TOO_LARGE, file: 'ten.txt', got: 'more than 0.000009 MB', expected: '0.000009 MB at most' },
    ]);
  });

  test('of a packed file are counted as they are unpacked', async () => {
    const unpack = async (most_B: number) => {
      let length = 0;
      const packed = gzipSync('a'.repeat(1e6));
      async function* chunks() {
        yield packed;
      }
      for await (const piece of unpacked(chunks(), true, 'a.gz', most_B)) length += piece.length;
      return length;
    };
    expect(await unpack(1e6)).toBe(1e6);
    const [problem] = await problemsOfPromise(unpack(1e6 - 1));
    expect(problem).toMatchObject({ ...TOO_LARGE, file: 'a.gz' });
  });
});

test.skipIf(platform() === 'win32')('a pipe and a device are no files', () => {
  const pipe = join(folder, 'pipe');
  execFileSync('mkfifo', [pipe]);
  for (const path of [pipe, '/dev/zero']) {
    const refusal = { code: 'FILE_UNREADABLE', file: 'x', got: 'a device or a pipe' };
    expect(problemsOf(() => readTextFile(path, 'x'))[0]).toMatchObject(refusal);
    expect(problemsOf(() => fileSource(path, 'x'))[0]).toMatchObject(refusal);
  }
});

describe('lines', () => {
  const most = 'x'.repeat(INPUT_LIMITS.line);

  test('are measured across the pieces of a text, whatever ends them', () => {
    const guard = (...pieces: string[]) => pieces.forEach(lineGuard('a.csv'));
    guard(`${most}\n${most}\r\n${most}\r${most}`, `\n${most}`);
    guard(`${most}\r`, `${most}\r${most}`);
    guard(most.slice(1), 'x', '\n', most);
    const refused = [
      [`a\n${most}x\n`],
      [most, 'x'],
      ['\n', most, '\r', most, 'x'],
      [`${most}\r${most}x\r`],
      ['a\nx', most],
    ];
    for (const pieces of refused)
      expect(problemsOf(() => guard(...pieces))[0]).toMatchObject({ ...TOO_LARGE, file: 'a.csv' });
  });

  test('of files that are read at one go, and of recognised weather, may not be longer', async () => {
    const text = `start_utc,ghi,air\n2025-01-01T00:00Z,0,1\n2025-01-01T01:00Z,0,${most}\n`;
    const bytes = new TextEncoder().encode(text);
    expect(problemsOf(() => decodeText({ name: 'a.csv', bytes }))[0]).toMatchObject(TOO_LARGE);
    expect((await problemsOfPromise(readText([text], PLACE)))[0]).toMatchObject(TOO_LARGE);
    // Beyond the sample by which it is recognised.
    async function* pieces() {
      for (const piece of ['a\n', most, 'x']) yield new TextEncoder().encode(piece);
    }
    const read = async () => {
      for await (const _ of textStream(pieces(), 'UTF-8', 'a.csv'));
    };
    expect((await problemsOfPromise(read()))[0]).toMatchObject(TOO_LARGE);
  });
});

describe('columns', () => {
  const wide = (columns: number) => {
    const names = Array.from({ length: columns - 3 }, (_, k) => `note ${k}`);
    const row = (i: number) =>
      [
        new Date(Date.UTC(2025, 0, 1, i)).toISOString().slice(0, 16),
        '0',
        '5',
        ...names.map(() => '1'),
      ].join();
    const rows = Array.from({ length: 48 }, (_, i) => row(i));
    return `${[`start utc,GHI (W/m2),air temperature (degC)`, ...names].join()}\n${rows.join('\n')}\n`;
  };

  test('are a thousand at most, recognised or mapped', async () => {
    await expect(readText([wide(1000)], PLACE)).resolves.toBeDefined();
    const refusal = { ...TOO_LARGE, got: '1001 columns', expected: '1000 columns at most' };
    expect((await problemsOfPromise(readText([wide(1001)], PLACE)))[0]).toMatchObject(refusal);
    const mapping = {
      stamp: { column: 'start utc', zone: 'UTC', marks: 'start' as const },
      columns: { ghi: { column: 'GHI (W/m2)', unit: 'W/m2' as const } },
      missing: [''],
    };
    const file = { name: 'a.csv', bytes: new TextEncoder().encode(wide(1001)) };
    expect(problemsOf(() => readHourlyTable(file, mapping))[0]).toMatchObject(refusal);
  });
});

test('a number beyond all numbers is none, and no code that says missing', async () => {
  const row = (i: number) =>
    `${new Date(Date.UTC(2025, 0, 1, i)).toISOString().slice(0, 16)},${i === 50 ? '1e999' : '0'},5`;
  const text = `start utc,GHI (W/m2),air temperature (degC)\n${Array.from({ length: 200 }, (_, i) => row(i)).join('\n')}\n`;
  const [problem] = await problemsOfPromise(readText([text], PLACE));
  expect(problem).toMatchObject({ code: 'WEATHER_VALUE_NOT_NUMBER', line: 52, got: '"1e999"' });
});
