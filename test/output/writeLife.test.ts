import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { writeLife } from '../../sim/output/writeLife.ts';
import { smallLives, smallSweep, smallTrialLife } from './smallLives.ts';
import { smallRun, smallTrial } from './smallRun.ts';

const out = mkdtempSync(join(tmpdir(), 'life-'));
afterAll(() => rmSync(out, { recursive: true }));

const { scenario } = smallRun([smallTrial({ lamp: 'double' })]);
const trials = [smallTrialLife()];

test('writes life.csv, the page and life.json with sums of both, nothing else, to the same bytes', () => {
  const written = writeLife({ lives: smallLives(trials), sweeps: [smallSweep()], scenario }, out);
  expect(written).toMatchObject({ folder: 'life-invented', files: ['life.csv', 'report.html', 'life.json'] });
  expect(readdirSync(join(out, 'life-invented')).sort()).toEqual(['life.csv', 'life.json', 'report.html']);
  const bytes = (name: string) => readFileSync(join(out, 'life-invented', name));
  expect(bytes('life.json').toString()).toBe(written.json);
  const { files } = JSON.parse(written.json);
  for (const name of ['life.csv', 'report.html'])
    expect(files[name]).toBe(createHash('sha256').update(bytes(name)).digest('hex'));
  const again = writeLife({ lives: smallLives(trials), sweeps: [smallSweep()], scenario }, out);
  expect(again.json).toBe(written.json);
});

test('a part of lives never takes the place of whole ones', () => {
  const partial = { completeTrials: 1, allTrials: 2 };
  const part = () => writeLife({ lives: smallLives(trials, { partial }), sweeps: [], scenario }, out);
  writeLife({ lives: smallLives(trials), sweeps: [], scenario }, out);
  expect(part().folder).toBe(join('life-invented', 'partial'));
  writeLife({ lives: smallLives(trials), sweeps: [], scenario }, out);
  expect(readdirSync(join(out, 'life-invented'))).not.toContain('partial');
  rmSync(join(out, 'life-invented'), { recursive: true });
  expect(part().folder).toBe('life-invented');
  expect(part().folder).toBe('life-invented');
});
