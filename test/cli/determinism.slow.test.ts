import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'longnight-twice-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Runs the built program on the demo scenario in a process of its own. */
function run(scenario: string, out: string, cwd: string, env: Record<string, string>) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [`${root}dist/cli/main.js`, 'run', scenario, '--out', out, '--json'],
    { cwd, env, encoding: 'utf8', maxBuffer: 64 * 2 ** 20 },
  );
  expect(stderr).not.toMatch(/defect|expected/);
  expect(status).toBe(0);
  return stdout;
}

it('the demo gives the same bytes under another time zone, locale and working directory, from a copy elsewhere', () => {
  const elsewhere = join(folder, 'elsewhere');
  for (const name of ['scenarios', 'data-samples'])
    cpSync(`${root}${name}`, join(elsewhere, name), { recursive: true });
  mkdirSync(join(elsewhere, 'deep/down'), { recursive: true });
  const first = run('scenarios/invented-garden.yaml', join(folder, 'one'), root, {
    TZ: 'America/St_Johns',
    LANG: 'C',
  });
  const second = run('../../scenarios/invented-garden.yaml', '../two', join(elsewhere, 'deep/down'), {
    TZ: 'Pacific/Chatham',
    LANG: 'tr_TR.UTF-8',
    LC_ALL: 'tr_TR.UTF-8',
  });
  expect(second).toBe(first);
  const one = join(folder, 'one/invented-garden');
  const two = join(elsewhere, 'deep/two/invented-garden');
  expect(readdirSync(one).sort()).toEqual(['hours.csv', 'nights.csv', 'report.html', 'summary.json']);
  expect(readdirSync(two).sort()).toEqual(readdirSync(one).sort());
  for (const name of readdirSync(one)) {
    const bytes = readFileSync(join(one, name));
    expect(bytes.length).toBeGreaterThan(1000);
    expect(bytes.equals(readFileSync(join(two, name))), name).toBe(true);
    expect(bytes.includes(folder), `${name} holds a path`).toBe(false);
  }
});
