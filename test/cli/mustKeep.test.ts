import { describe, expect, test } from 'vitest';
import type { Arguments } from '../../sim/cli/Command.ts';
import { COMMANDS } from '../../sim/cli/commands.ts';
import { mustKeep } from '../../sim/cli/mustKeep.ts';
import { parseCommandLine } from '../../sim/cli/parseCommandLine.ts';
import { winterOdds } from '../../sim/statistics/WinterOdds.ts';
import { runMain } from './runMain.ts';
import { smallGarden } from './smallGarden.ts';

async function typed(...words: string[]): Promise<Arguments> {
  const asked = await parseCommandLine(['run', ...words], COMMANDS, '0.0.0');
  if ('text' in asked) throw new Error(asked.text);
  return asked.args;
}

/** Twelve winters of which so many are kept. */
function trial(kept: number) {
  const winters = Array.from({ length: 12 }, (_, k) => ({
    winter: `${2000 + k}`,
    complete: true,
    nights: 365,
    failedNights: k < kept ? 0 : 3,
    short_h: k < kept ? 0 : 5,
  }));
  return { verdict: kept < 12 ? ('broken' as const) : ('kept' as const), odds: winterOdds(winters)! };
}

describe('--must-keep', () => {
  test('alone asks for every night, wherever it stands', async () => {
    for (const words of [
      ['small.yaml', '--must-keep'],
      ['--must-keep', 'small.yaml'],
      ['--must-keep', '--json', 'small.yaml'],
    ]) {
      const args = await typed(...words);
      expect(args.words).toEqual(['small.yaml']);
      const wanted = mustKeep(args)!;
      expect(wanted.breaks(trial(11))).toBe(true);
      expect(wanted.breaks(trial(12))).toBe(false);
      expect(wanted.breaks({ verdict: 'broken' })).toBe(true);
      expect(wanted.breaks({ verdict: 'no-whole-winter' })).toBe(false);
    }
    expect(mustKeep(await typed('small.yaml'))).toBeUndefined();
  });

  test('with a share asks that the lower bound of the chance is no less', async () => {
    for (const words of [
      ['small.yaml', '--must-keep', '0.5'],
      ['--must-keep', '0.5', 'small.yaml'],
      ['small.yaml', '--must-keep=0.5'],
      ['small.yaml', '--must-keep', '50 %'],
    ]) {
      const wanted = mustKeep(await typed(...words))!;
      // Wilson, 90 percent: from .45 on of 8 in 12, from .53 on of 9 in 12.
      expect(wanted.breaks(trial(8))).toBe(true);
      expect(wanted.breaks(trial(9))).toBe(false);
      expect(wanted.breaks({ verdict: 'nothing-promised' })).toBe(false);
    }
  });

  test('with a share is refused where there is one winter or none, with the ways out, and what is no share', async () => {
    const garden = smallGarden();
    const { code, stderr } = await runMain(['run', 'small.yaml', '--must-keep', '0.9'], {
      cwd: garden.folder,
    });
    expect(code).toBe(2);
    expect(stderr).toMatch(/no two whole winters.*record of more years.*--must-keep alone/s);
    for (const share of ['1.5', '0', '-1'])
      expect(
        (await runMain(['run', 'small.yaml', `--must-keep=${share}`], { cwd: garden.folder })).code,
      ).toBe(2);
    expect(
      (await runMain(['compare', 'small.yaml', '--must-keep', '0.9'], { cwd: garden.folder })).code,
    ).toBe(2);
    garden.remove();
  });
});
