import { chmodSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readTextFile } from '../../sim/tables/TableSource.ts';
import { problemsOf } from './hourlyText.ts';

const folder = mkdtempSync(join(tmpdir(), 'longnight-'));
writeFileSync(join(folder, 'year.csv'), 'abc');

test('readTextFile gives the bytes under the name the user wrote', () => {
  const file = readTextFile(join(folder, 'year.csv'), 'year.csv');
  expect(file.name).toBe('year.csv');
  expect(new TextDecoder().decode(file.bytes)).toBe('abc');
});

test('readTextFile says that a file is not there and offers one of nearly that name', () => {
  const [problem] = problemsOf(() => readTextFile(join(folder, 'yaer.csv'), 'yaer.csv'));
  expect(problem).toMatchObject({ code: 'FILE_MISSING', file: 'yaer.csv', got: 'no such file' });
  expect(problem!.fix).toBe('did you mean "year.csv" in the same folder?');
});

test('readTextFile refuses a folder', () => {
  const [problem] = problemsOf(() => readTextFile(folder));
  expect(problem).toMatchObject({ code: 'FILE_UNREADABLE', got: 'a folder', fix: 'name a file in it.' });
});

test('readTextFile refuses a file without permission', () => {
  const path = join(folder, 'locked.csv');
  writeFileSync(path, 'abc');
  chmodSync(path, 0);
  // A superuser may read everything, so it becomes nobody for the moment of reading.
  const superuser = process.geteuid?.() === 0;
  if (superuser) process.seteuid!(65_534);
  try {
    expect(problemsOf(() => readTextFile(path))[0]).toMatchObject({
      code: 'FILE_UNREADABLE',
      got: 'no permission to read it',
    });
  } finally {
    if (superuser) process.seteuid!(0);
  }
});
