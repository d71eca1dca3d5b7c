import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runMain } from './runMain.ts';
import { type SmallGarden, smallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = smallGarden(365);
});
afterAll(() => garden.remove());

const size = (...words: string[]) => runMain(['size', 'small.yaml', ...words], { cwd: garden.folder });

describe('size --assign', () => {
  test('says which lamp goes where, and leaves the spot without one that it would not shine in', async () => {
    const { code, stdout } = await size('--assign');
    expect(code).toBe(0);
    expect(stdout).toMatch(/bright\s+one\s+kept/);
    expect(stdout).toContain('Without a lamp: dim.');
    const { code: kept, stdout: json } = await size('--assign', '--json', '--must-keep');
    expect(kept).toBe(0);
    expect(JSON.parse(json)).toMatchObject({ schema: 1, assign: { kept: 1, empty: ['dim'], drawer: [] } });
  });
});
