import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { checkPackage, createPackageFromTarballData } from '@arethetypeswrong/core';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { afterAll, beforeAll, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'longnight-packed-'));
afterAll(() => rmSync(folder, { recursive: true }));
let tarball: Uint8Array<ArrayBuffer>;

beforeAll(() => {
  const words = ['pack', root, '--ignore-scripts', '--silent', '--pack-destination', folder];
  const name = execFileSync('npm', words, { cwd: folder, encoding: 'utf8' }).trim();
  tarball = new Uint8Array(readFileSync(join(folder, name)));
  execFileSync('tar', ['-xzf', name], { cwd: folder });
});

it('the packed package is no larger than it was', () => {
  expect(tarball.length).toBeLessThan(790_000);
});

it('entries, files and fields of the packed package are as they should be', async () => {
  const { messages, pkg } = await publint({ pack: { tarball: tarball.buffer }, strict: true });
  expect(messages.map((message) => formatMessage(message, pkg ?? {}, { color: false }))).toEqual([]);
});

// Modules alone, as Node takes them since 20.19 by `require` too: ways to resolve from before that are left out.
it('a program finds code and types of every entry as it imports them', async () => {
  const found = await checkPackage(createPackageFromTarballData(tarball));
  expect(found.types).not.toBe(false);
  const problems = 'problems' in found ? found.problems : [];
  const old = ['node10', 'node16-cjs'];
  expect(problems.filter((problem) => !old.includes(String(Reflect.get(problem, 'resolutionKind'))))).toEqual(
    [],
  );
});

it('the packages that come along are those that its files import or read; all others are within', () => {
  const dist = join(folder, 'package/dist');
  const text = readdirSync(dist, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(d\.ts|js)$/.test(file))
    .map((file) => readFileSync(join(dist, file), 'utf8'))
    .join('\n');
  const imported = [
    ...text.matchAll(/(?:\b(?:from|import) ?|\(import\.meta\.url\)\()["']([a-z@][^"' ]*)["']/g),
  ].map(([, target]) => target!);
  const packages = imported.filter((target) => !isBuiltin(target)).map((target) => target.split('/')[0]!);
  const { dependencies } = JSON.parse(readFileSync(join(folder, 'package/package.json'), 'utf8'));
  const names = Object.keys(dependencies);
  expect(packages.filter((name) => !names.includes(name))).toEqual([]);
  // A page carries the library of its one chart, read from its package.
  const read = (name: string) => text.includes(`"${name}/LICENSE"`) || text.includes(`'${name}/LICENSE'`);
  expect(names.filter((name) => !packages.includes(name) && !read(name))).toEqual([]);
});

it('the READMEs that come along lead to files that come along, the first in under 200 lines', () => {
  const inside = join(folder, 'package');
  const files = readdirSync(inside, { recursive: true, encoding: 'utf8' }).filter((file) =>
    /\.md$/.test(file),
  );
  const dead = files.flatMap((file) =>
    [...readFileSync(join(inside, file), 'utf8').matchAll(/\]\(([^)#]+)/g)]
      .map(([, target]) => join(dirname(file), target!))
      .filter((target) => !existsSync(join(inside, target)))
      .map((target) => `${file} leads to ${target}`),
  );
  expect(files).toContain('scenarios/README.md');
  expect(dead).toEqual([]);
  expect(readFileSync(join(inside, 'README.md'), 'utf8').split('\n').length).toBeLessThan(200);
});
