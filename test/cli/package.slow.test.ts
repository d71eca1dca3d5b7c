import { execFileSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { scenarioJsonSchema } from '../../sim/scenario/scenarioJsonSchema.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'longnight-package-'));
const installed = join(folder, 'node_modules/longnight');
afterAll(() => rmSync(folder, { recursive: true }));

/** What `npm pack` gives, unpacked in an empty folder, and beside it no package but those it asks for. */
beforeAll(() => {
  const words = ['pack', '--ignore-scripts', '--silent', '--pack-destination', folder];
  const archive = execFileSync('npm', words, { cwd: root, encoding: 'utf8' }).trim();
  mkdirSync(installed, { recursive: true });
  execFileSync('tar', ['-xzf', join(folder, archive), '--strip-components=1', '-C', installed]);
  const { dependencies } = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8'));
  for (const name of Object.keys(dependencies)) {
    const link = join(folder, 'node_modules', name);
    mkdirSync(dirname(link), { recursive: true });
    symlinkSync(join(root, 'node_modules', name), link);
  }
});

const node = (...words: string[]) => execFileSync(process.execPath, words, { cwd: folder, encoding: 'utf8' });

it('the packed command line runs the demo without a build, to the same bytes', () => {
  const demo = 'scenarios/invented-garden.yaml';
  node(join(installed, 'dist/cli/main.js'), 'run', join(installed, demo), '--out', 'packed');
  node(join(root, 'dist/cli/main.js'), 'run', join(root, demo), '--out', 'here');
  const files = readdirSync(join(folder, 'here/invented-garden'));
  expect(files.sort()).toEqual(['hours.csv', 'nights.csv', 'report.html', 'summary.json']);
  for (const file of files) {
    const [packed, here] = ['packed', 'here'].map((out) =>
      readFileSync(join(folder, out, 'invented-garden', file)),
    );
    expect(packed!.equals(here!), file).toBe(true);
  }
});

it('the schema that the build put in is the one that the sources give', () => {
  const packed = node(join(installed, 'dist/cli/main.js'), 'check', '--schema');
  expect(packed).toBe(`${JSON.stringify(scenarioJsonSchema(), null, 2)}\n`);
});

it('the packed library is imported by its name', () => {
  writeFileSync(
    join(folder, 'own.mjs'),
    `import { loadScenario, program } from 'longnight';
     console.log(program().version, loadScenario('node_modules/longnight/scenarios/dusk-to-dawn.yaml').name);`,
  );
  expect(node('own.mjs')).toBe('0.1.0 dusk-to-dawn\n');
});

it('the package holds the licence of what is bundled', () => {
  const licences = readFileSync(join(installed, 'dist/LICENCES.txt'), 'utf8');
  for (const name of ['zod', 'yargs', 'd3-shape', 'luxon'])
    expect(licences).toMatch(new RegExp(`^${name} \\d`, 'm'));
});
