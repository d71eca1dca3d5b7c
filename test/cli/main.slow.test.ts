import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runMain } from './runMain.ts';
import { type SmallGarden, smallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = smallGarden();
});
afterAll(() => garden.remove());

const run = (argv: readonly string[], world: { tty?: boolean; env?: Record<string, string> } = {}) =>
  runMain(argv, { cwd: garden.folder, ...world });

describe('run', () => {
  test('with --must-keep gives 3 where a whole winter breaks the promise, and 0 where there is none', async () => {
    expect((await run(['run', 'small.yaml', '--must-keep'])).code).toBe(0);
    const year = smallGarden(365);
    const { code, stdout } = await runMain(['run', 'small.yaml', '--must-keep', '--json'], {
      cwd: year.folder,
    });
    const without = await runMain(['run', 'small.yaml', '--json'], { cwd: year.folder });
    year.remove();
    expect(JSON.parse(stdout).trials.map((trial: { verdict: string }) => trial.verdict)).toContain('broken');
    expect(code).toBe(3);
    expect(without).toEqual({ code: 0, stdout, stderr: without.stderr });
  });
});
