import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runMain } from './runMain.ts';
import { type SmallGarden, smallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = smallGarden();
  writeFileSync(join(garden.folder, 'months.yaml'), MONTHS);
});
afterAll(() => garden.remove());

const MONTHS = `format: 1
site: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20, time_zone: Europe/Berlin }
weather:
  climate:
    clearness: [0.3, 0.35, 0.38, 0.42, 0.45, 0.45, 0.43, 0.43, 0.42, 0.37, 0.32, 0.28]
    air_degC: [1, 1, 4, 8, 12, 16, 17, 17, 14, 10, 6, 3]
promise: { from: dusk, hours: 6, least_lumen: 0.65 }
spots: { lawn: {} }
lamps:
  one:
    cell: { part: small-cell }
    diode: { part: small-schottky }
    capacitor: { part: medium-capacitor }
    driver: { part: inductor-driver }
    led: { part: white-led }
    schedule: { on: dusk, hours: 6 }
`;

const run = (argv: readonly string[]) => runMain(argv, { cwd: garden.folder });

describe('--winters', () => {
  test.each([
    [['--winters', '0'], 'got --winters 0; expected a number from 10 to 100000. Fix: one within that'],
    [['--winters', '1e9'], 'got --winters 1e9; expected a number from 10 to 100000. Fix: one within that'],
    [['--winters', 'many'], 'got --winters many; expected a number from 10 to 100000. Fix: digits'],
    [['--winters', '12.5'], 'got --winters 12.5; expected a whole number. Fix: --winters 13'],
    [['--batch', '6'], 'Fix: --winters 300 --batch 6'],
    [['--winters', '10', '--must-keep'], 'a climate without a winter on file; expected a share'],
    [['--must-keep', '90'], 'expected a number from 0.01 to 1. Fix: a share, as 0.9 or "90 %"'],
  ])('refuses %j, and says what it may be', async (typed, words) => {
    const { code, stderr } = await run(['run', 'months.yaml', ...typed]);
    expect(code).toBe(2);
    expect(stderr).toContain(words);
  });

  test('is refused where light was logged on the cell, and not left out in silence', async () => {
    const { code, stderr, stdout } = await run(['run', 'small.yaml', '--winters', '10']);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(
      /SCENARIO_CONFLICT +small.yaml, "spots.bright.light_on_cell"\s+got light that was logged/,
    );
  });
});
