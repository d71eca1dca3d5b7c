import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { UnfinishedFiles } from '../../sim/output/UnfinishedFiles.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'growing-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('unfinished files', () => {
  test('grow piece by piece, out of the way of those that are there, and know their digests at any time', () => {
    writeFileSync(join(folder, 'a.txt'), 'earlier');
    const files = new UnfinishedFiles(folder);
    files.begin('a.txt');
    files.append('a.txt', 'ab');
    files.append('a.txt', new TextEncoder().encode('c'));
    // FIPS 180-2, examples B.1 and (of no bytes at all) the digest that the standard's algorithm gives.
    const abc = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
    expect(files.sums()).toEqual({ 'a.txt': abc });
    files.begin('b.txt');
    expect(files.sums()['a.txt']).toBe(abc);
    expect(readFileSync(join(folder, 'a.txt'), 'utf8')).toBe('earlier');
    files.moveInto(folder, ['a.txt', 'b.txt']);
    files.discard();
    expect(readFileSync(join(folder, 'a.txt'), 'utf8')).toBe('abc');
    expect(readFileSync(join(folder, 'b.txt'), 'utf8')).toBe('');
    expect(readdirSync(folder).sort()).toEqual(['a.txt', 'b.txt']);
  });

  test('go where they are wanted in the end', () => {
    const files = new UnfinishedFiles(folder);
    files.begin('a.txt');
    files.append('a.txt', 'of a part');
    files.moveInto(join(folder, 'part'), ['a.txt']);
    files.discard();
    expect(readdirSync(folder)).toEqual(['part']);
    expect(readFileSync(join(folder, 'part', 'a.txt'), 'utf8')).toBe('of a part');
  });

  test('leave nothing where they are discarded, not even folders made for them', () => {
    const files = new UnfinishedFiles(join(folder, 'out', 'run'));
    files.begin('a.txt');
    files.discard();
    expect(readdirSync(folder)).toEqual([]);
  });

  test('leave folders in which something else stands by then', () => {
    const files = new UnfinishedFiles(join(folder, 'out', 'run'));
    mkdirSync(join(folder, 'out', 'other'));
    files.discard();
    files.discard();
    expect(existsSync(join(folder, 'out', 'run'))).toBe(false);
    expect(readdirSync(join(folder, 'out'))).toEqual(['other']);
  });
});
