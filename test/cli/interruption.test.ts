import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Interruption } from '../../sim/cli/Interruption.ts';
import { pressCtrlC, runMain } from './runMain.ts';
import { type SmallGarden, smallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = smallGarden();
});
afterAll(() => garden.remove());

const summaryIn = (...folder: string[]) =>
  JSON.parse(readFileSync(join(garden.folder, ...folder, 'summary.json'), 'utf8'));

describe('Ctrl-C between two trials', () => {
  const interrupted = (out: string, more: string[] = []) =>
    runMain(['run', 'small.yaml', '--out', out, ...more], {
      cwd: garden.folder,
      tty: true,
      env: { NO_COLOR: '1' },
      interruptAt: 'trial 1 of 2',
    });

  test('writes the trial that is complete, says that it is a part, and gives 130', async () => {
    const { code, stdout, stderr } = await interrupted('part');
    expect(code).toBe(130);
    expect(stderr).toContain('Interrupted: writing 1 of 2 trials; Ctrl-C again ends without them.');
    expect(stdout).toContain('IN PART: interrupted when 1 of 2 trials were complete');
    const summary = summaryIn('part', 'small');
    expect(summary.partial).toEqual({ complete_trials: 1, all_trials: 2 });
    expect(summary.trials).toHaveLength(1);
    expect(readdirSync(join(garden.folder, 'part', 'small')).sort()).toEqual([
      'hours.csv',
      'nights.csv',
      'report.html',
      'summary.json',
    ]);
    const page = readFileSync(join(garden.folder, 'part', 'small', 'report.html'), 'utf8');
    expect(page).toContain('IN PART: interrupted');
  });

  test('gives 130 for a broken promise too, and marks the JSON', async () => {
    const { code, stdout } = await interrupted('json', ['--must-keep', '--json']);
    expect(code).toBe(130);
    expect(JSON.parse(stdout).partial).toEqual({ complete_trials: 1, all_trials: 2 });
  });

  test('leaves a whole result of an earlier run as it is, and the next whole run takes the part away', async () => {
    const whole = () => runMain(['run', 'small.yaml', '--out', 'both'], { cwd: garden.folder });
    await whole();
    const before = summaryIn('both', 'small');
    expect(before).not.toHaveProperty('partial');
    const { stdout } = await interrupted('both');
    expect(stdout).toContain(join('both', 'small', 'partial', 'report.html'));
    expect(summaryIn('both', 'small')).toEqual(before);
    expect(summaryIn('both', 'small', 'partial').trials).toHaveLength(1);
    await whole();
    expect(existsSync(join(garden.folder, 'both', 'small', 'partial'))).toBe(false);
  });

  test('puts a part in the place of an earlier part', async () => {
    await interrupted('twice');
    await interrupted('twice');
    expect(readdirSync(join(garden.folder, 'twice', 'small'))).not.toContain('partial');
  });
});

describe('work that can be broken off', () => {
  const interruption = () => {
    let heard = () => {};
    let letGo = false;
    const made = new Interruption({
      progress: () => {},
      clock_s: () => 0,
      onInterrupt: (tell) => {
        heard = tell;
        return () => {
          letGo = true;
        };
      },
    });
    return { made, press: () => heard(), isLetGo: () => letGo };
  };

  test('is done where nothing comes, or throws what it throws', async () => {
    const { made } = interruption();
    let done = 0;
    made.breakable(() => done++);
    expect(done).toBe(1);
    const error = new TypeError('of the work');
    expect(() =>
      made.breakable(() => {
        throw error;
      }),
    ).toThrow(error);
    expect(await made.end()).toBe(false);
  });

  test('ends in the middle of a loop without end, and lets the next Ctrl-C go', async () => {
    const { made, isLetGo } = interruption();
    made.breakable(pressCtrlC);
    expect(isLetGo()).toBe(true);
    expect(await made.end()).toBe(true);
  });

  test('hears of Ctrl-C outside of it at the next turn', async () => {
    const { made, press } = interruption();
    press();
    expect(await made.end()).toBe(true);
  });
});
