import { execFileSync } from 'node:child_process';
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { scenarioJsonSchema } from '../../sim/scenario/scenarioJsonSchema.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'longnight-package-'));
const installed = join(folder, 'node_modules/longnight');
let archive: string;
afterAll(() => rmSync(folder, { recursive: true }));

const npm = (...words: string[]) =>
  execFileSync('npm', [...words, '--ignore-scripts', '--prefer-offline', '--no-audit', '--no-fund'], {
    cwd: folder,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
  });

/** What `npm pack` gives, installed in an empty folder from the registry that `npm ci` takes; no script of it runs. */
beforeAll(() => {
  archive = npm('pack', root, '--silent', '--pack-destination', folder).trim();
  writeFileSync(join(folder, 'package.json'), '{}');
  npm('install', join(folder, archive));
}, 120_000);

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

it('the packed command line makes winters on threads of its own', () => {
  const demo = join(installed, 'scenarios/invented-climate.yaml');
  const said = node(join(installed, 'dist/cli/main.js'), 'run', demo, '--winters', '10', '--out', 'made');
  expect(said).toContain('How likely: 10 made winters');
}, 120_000);

it('the package installs for the whole machine too, and answers by its name', () => {
  npm('install', '--global', '--prefix', join(folder, 'machine'), join(folder, archive));
  const command = join(folder, 'machine/bin/longnight');
  expect(execFileSync(command, ['--version'], { cwd: folder, encoding: 'utf8' })).toBe('0.1.0\n');
}, 120_000);

it('the package holds what it needs and nothing else', () => {
  const files = execFileSync('tar', ['-tzf', join(folder, archive)], { encoding: 'utf8' })
    .trim()
    .split('\n');
  const wanted = [
    /^(package\.json|README\.md|CHANGELOG\.md|LICENSE|sim\/output\/README\.md)$/,
    /^dist\/(index|core|cli\/main|(trial\/winter|sizing\/(sizing|winters\/madeDesigns)|ageing\/life)Worker|shared\/[\w-]+|output\/page\/scripts\/\w+)\.js$/,
    /^dist\/output\/page\/scripts\/liveWorker\.licences\.txt$/,
    /^dist\/output\/(page\/page|figures\/figures)\.css$/,
    /^dist\/LICENCES\.txt$/,
    /^dist\/(index|core)\.d\.ts$/,
    /^dist\/longnight\.1$/,
    /^data-samples\/[\w-]+\.(csv|csv\.gz|yaml|txt|md)$/,
    /^scenarios\/([\w-]+\.yaml|README\.md|invented-garden\.svg)$/,
  ];
  const inside = files.map((file) => file.replace(/^package\//, ''));
  expect(inside.filter((file) => !wanted.some((kind) => kind.test(file)))).toEqual([]);
  expect(inside.filter((file) => /\.d\.ts$/.test(file))).toHaveLength(2);
});

it('an install without the tools that build does not fail', () => {
  const clone = join(folder, 'clone');
  mkdirSync(clone);
  for (const file of ['package.json', 'package-lock.json']) copyFileSync(join(root, file), join(clone, file));
  const words = ['ci', '--omit=dev', '--prefer-offline', '--no-audit', '--no-fund'];
  execFileSync('npm', words, { cwd: clone, stdio: 'pipe' });
  expect(readdirSync(clone)).not.toContain('dist');
}, 120_000);

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

it('a newcomer comes from an export of his own to a page without a look into the package', () => {
  const main = join(installed, 'dist/cli/main.js');
  copyFileSync(join(root, 'data-samples/invented-year-semicolon.csv'), join(folder, 'export.csv'));
  node(main, 'weather', 'export.csv', '--place', '54,10,20');
  node(
    main,
    'init',
    'garden',
    '--weather',
    'export.csv',
    '--place',
    '54,10,20',
    '--around',
    'house=S,6,5,10',
  );
  expect(node(main, 'check', 'garden/garden.yaml')).toContain('house');
  expect(node(main, 'run', 'garden/garden.yaml', '--out', 'own')).toContain('first on here');
  expect(node(main, 'size', 'garden/garden.yaml', '--find', 'capacitance')).toContain('first on here');
  expect(readFileSync(join(folder, 'own/garden/report.html'), 'utf8')).toContain('Try it');
}, 120_000);

it('the lines of the README run as a program with the package', () => {
  const [, lines = ''] = /^```js\n(.*?)^```$/ms.exec(readFileSync(join(root, 'README.md'), 'utf8'))!;
  const said = execFileSync(process.execPath, ['--input-type=module', '-e', lines], {
    cwd: installed,
    encoding: 'utf8',
  });
  expect(said.trimEnd().split('\n')).toEqual([
    'single on lawn: 9 of 365 nights failed',
    'double on lawn: 0 of 365 nights failed',
    'single on north-side: 18 of 365 nights failed',
    'double on north-side: 0 of 365 nights failed',
  ]);
});

it('the core is imported by its own name, and needs nothing of node', () => {
  writeFileSync(
    join(folder, 'core.mjs'),
    `import { solarPosition } from 'longnight/core';
     console.log(solarPosition(Date.UTC(2025, 5, 21, 12), 54, 10).altitude_deg.toFixed(1));`,
  );
  expect(node('core.mjs')).toBe('58.6\n');
});

it('the package holds the licence of what is bundled', () => {
  const licences = readFileSync(join(installed, 'dist/LICENCES.txt'), 'utf8');
  for (const name of ['zod', 'yargs', 'd3-shape', 'yaml'])
    expect(licences).toMatch(new RegExp(`^${name} \\d`, 'm'));
});
