import { spawnSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { writeFiles, writeFolder } from '../../sim/output/writeFiles.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'unfinished-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

/** Name of the folder in which a process of that number would put its files. */
function workshopOf(pid: number): string {
  let name = '';
  const pieces = () => {
    name = readdirSync(folder).find((entry) => entry.startsWith('.unfinished-'))!;
    return [];
  };
  writeFiles(folder, [{ name: 'a.csv', pieces }], []);
  return name.replace(`-${process.pid}-`, `-${pid}-`);
}

/** Leaves an unfinished file behind, of which nothing was touched for so many hours. */
function leave(name: string, hours = 0): void {
  const file = join(folder, name, 'hours.csv');
  mkdirSync(join(folder, name));
  writeFileSync(file, 'half of');
  const then = new Date(Date.now() - hours * 3.6e6);
  for (const path of [file, join(folder, name)]) utimesSync(path, then, then);
}

const left = () => readdirSync(folder).filter((name) => name.startsWith('.unfinished-'));
const write = () => writeFiles(folder, [{ name: 'b.csv', pieces: () => ['b'] }], []);
const goneProcess = () => spawnSync(process.execPath, ['--version']).pid;

describe('what a killed process left unfinished', () => {
  test('is taken away by the next that writes there', () => {
    leave(workshopOf(goneProcess()));
    write();
    expect(readdirSync(folder).sort()).toEqual(['a.csv', 'b.csv']);
  });

  test('is taken away after a day, whoever left it', () => {
    leave('.unfinished-abcdef', 25);
    leave(workshopOf(process.ppid), 25);
    leave(`.unfinished-0123abcd-${goneProcess()}-abcdef`, 25);
    write();
    expect(left()).toEqual([]);
  });

  test('stays while its process runs, or may run on another machine', () => {
    const names = [
      '.unfinished-abcdef',
      workshopOf(process.ppid),
      `.unfinished-0123abcd-${goneProcess()}-abcdef`,
    ];
    for (const name of names) leave(name, 23);
    write();
    expect(left()).toEqual(names.sort());
  });

  test('is not looked for behind a link', () => {
    const name = workshopOf(goneProcess());
    const elsewhere = mkdtempSync(join(tmpdir(), 'elsewhere-'));
    writeFileSync(join(elsewhere, 'kept.txt'), 'kept');
    symlinkSync(elsewhere, join(folder, name));
    write();
    expect(readdirSync(elsewhere)).toEqual(['kept.txt']);
    rmSync(elsewhere, { recursive: true });
  });
});

describe("a folder of the user's", () => {
  const FILES = [
    { name: 'in/side.csv', content: 'a' },
    { name: 'top.yaml', content: 'b' },
  ];

  test('is there with all its files, which were checked before, or not at all', () => {
    const target = join(folder, 'new');
    const seen: string[] = [];
    const refuse = (at: string) => {
      seen.push(...readdirSync(at).sort());
      throw new Error('refused');
    };
    expect(() => writeFolder(target, FILES, refuse)).toThrow('refused');
    expect(seen).toEqual(['in', 'top.yaml']);
    expect(readdirSync(folder)).toEqual([]);
    writeFolder(target, FILES, () => {});
    expect(readdirSync(target).sort()).toEqual(['in', 'top.yaml']);
    expect(readdirSync(join(target, 'in'))).toEqual(['side.csv']);
    // As any folder that a program makes, not as one for its eyes alone.
    mkdirSync(join(folder, 'plain'));
    expect(statSync(target).mode).toBe(statSync(join(folder, 'plain')).mode);
  });

  test('keeps what is in it, and gets all files or none', () => {
    writeFileSync(join(folder, 'mine.txt'), 'mine');
    // A folder that is not empty cannot be replaced by a file.
    mkdirSync(join(folder, 'top.yaml', 'full'), { recursive: true });
    expect(() => writeFolder(folder, FILES, () => {})).toThrow();
    expect(readdirSync(folder).sort()).toEqual(['mine.txt', 'top.yaml']);
    rmSync(join(folder, 'top.yaml'), { recursive: true });
    writeFolder(folder, FILES, () => {});
    expect(readdirSync(folder).sort()).toEqual(['in', 'mine.txt', 'top.yaml']);
  });
});
