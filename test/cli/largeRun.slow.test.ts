import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { parse, stringify } from 'yaml';

/** Built by `npm run test:slow` before the tests run. */
const PROGRAM = resolve('dist/cli/main.js');
const TELL_MEMORY = "process.on('exit', () => console.error('most', process.resourceUsage().maxRSS));";

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'large-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** The invented garden with so many spots, and as many lamps, of which all keep what little is promised but the first. */
function garden(count: number): string {
  const { spots, lamps, weather, ...scenario } = parse(
    readFileSync('scenarios/invented-garden.yaml', 'utf8'),
  );
  const many = (name: string, part: (k: number) => object) =>
    Object.fromEntries(Array.from({ length: count }, (_, k) => [`${name}-${k + 1}`, part(k)]));
  const file = join(folder, `garden-${count}.yaml`);
  const schedule = (k: number) => ({ on: 'dusk', hours: k === 0 ? 0.5 : 2 });
  writeFileSync(
    file,
    stringify({
      ...scenario,
      name: `garden-${count}`,
      weather: { ...weather, file: resolve('data-samples/invented-year.csv') },
      promise: { ...scenario.promise, hours: 1 },
      spots: many('spot', (k) => ({ ...spots.lawn, cell_tilt_deg: 2 * k })),
      lamps: many('lamp', (k) => ({ ...lamps.single, schedule: schedule(k) })),
    }),
  );
  return file;
}

function run(count: number): { text: string; most_kB: number } {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--import', `data:text/javascript,${TELL_MEMORY}`, PROGRAM, 'run', garden(count), '--out', folder],
    { encoding: 'utf8', env: { PATH: process.env.PATH ?? '' } },
  );
  expect(stderr).toMatch(/^most \d+\n$/);
  expect(status).toBe(0);
  return { text: stdout, most_kB: Number(stderr.slice(5)) };
}

const inFolder = (count: number, name: string) => join(folder, `garden-${count}`, name);

describe('a run of many trials', () => {
  test('keeps no hours of most of them, and tells of the decisive ones', { timeout: 180_000 }, () => {
    const few = run(4);
    const many = run(8);
    // A year of hours takes 2.5 MB a trial, in figures as much again; nights and numbers take less than 1.
    expect((many.most_kB - few.most_kB) / (64 - 16)).toBeLessThan(2000);
    expect(many.text).toContain('Of 64 trials 56 keep the promise every night, 8 break it.');
    expect(many.text.match(/(keeps|breaks) its promise/g)).toHaveLength(8);
    expect(many.text.split('\n').length).toBeLessThan(500);
    expect(statSync(inFolder(8, 'report.html')).size).toBeLessThan(5e6);
    const rows = readFileSync(inFolder(8, 'hours.csv')).filter((byte) => byte === 10);
    expect(rows).toHaveLength(1 + 64 * 8760);
  });
});
