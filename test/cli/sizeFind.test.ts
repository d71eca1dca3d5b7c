import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runMain } from './runMain.ts';
import { type SmallGarden, smallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = smallGarden(14);
});
afterAll(() => garden.remove());

const size = (...words: string[]) => runMain(['size', 'small.yaml', ...words], { cwd: garden.folder });

describe('size --find', () => {
  test('says one sentence a trial, and ends with 0 whether one can keep the promise or not', async () => {
    const { code, stdout } = await size('--find', 'capacitance');
    expect(code).toBe(0);
    const flowing = stdout.replace(/\n {2}/g, ' ').split('\n');
    expect(flowing).toHaveLength(3);
    expect(flowing[0]).toMatch(
      /^one on bright: [\d.]+ F is the least capacitance of one capacitor with which every night is kept \(not with/,
    );
    expect(flowing[1]).toMatch(
      /^one on dim: .* it begins at the stated 1\.5 V, so a larger one with more charge\.$/,
    );
  });

  test('with --json gives the value, its step and what is beside it, of the spot and lamp that were named', async () => {
    const { code, stdout } = await size('--find', 'promise', '--spot', 'bright', '--lamp', 'one', '--json');
    expect(code).toBe(0);
    const { schema, found } = JSON.parse(stdout);
    expect(schema).toBe(1);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({
      find: 'promise',
      spot: 'bright',
      lamp: 'one',
      unit: 'h',
      stated: 3,
      turns: [],
    });
    expect(found[0].neighbour - found[0].value).toBeCloseTo(found[0].step.size, 6);
  });

  test.each([
    [
      ['--find', 'capacitence'],
      /got --find capacitence; expected one of capacitance, .* Fix: --find capacitance/,
    ],
    [['--find', 'lamp'], /expected one of capacitance, promise, shade, light, inductor/],
    [['--find', 'light', '--spot', 'brite'], /--spot bright/],
    [['--find', 'light', '--lit-hours', '8'], /--lit-hours without --find inductor/],
    [['--find', 'inductor', '--lit-hours', '30'], /expected a number from 0\.1 to 24 h/],
    [['--find', 'shade'], /small\.yaml:\d+:\d+, "spots\.bright\.light_on_cell"/],
  ])('%s is refused with 2', async (words, message) => {
    const { code, stdout, stderr } = await size(...words);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.replace(/\s+/g, ' ')).toMatch(message);
  });
});
