import { posix } from 'node:path';
import { expect, it } from 'vitest';
import { fileAt, filesBelow, type SourceFile, withoutComments } from './simFiles.ts';

/** The order of the flow. A folder imports only from folders before it, and from itself. */
const ORDER = [
  'common',
  'tables',
  'sun',
  'weather',
  'climate',
  'spot',
  'lamp',
  'year',
  'night',
  'statistics',
  'scenario',
  'trial',
  'fitting',
  'ageing',
  'sizing',
  'output',
  'cli',
];

/** Files whose work it is to read or write files, or to load a package late. */
const TOUCHES_FILES = new Set([
  'sim/common/matrices.ts',
  'sim/tables/TableSource.ts',
  'sim/sizing/OutcomeCache.ts',
  'sim/output/page/pageShell.ts',
  'sim/output/program.ts',
  'sim/output/UnfinishedFiles.ts',
  'sim/output/writeFiles.ts',
  'sim/cli/filesTyped.ts',
  'sim/cli/makableFolder.ts',
  'sim/cli/commands/init.ts',
  'sim/cli/saveTyped.ts',
  'sim/cli/standardInput.ts',
  'sim/cli/main.ts',
]);

/** Node's modules that touch nothing outside the program. */
const HARMLESS = new Set([
  'node:crypto',
  'node:os',
  'node:path',
  'node:readline/promises',
  'node:stream',
  'node:timers/promises',
  'node:url',
  'node:vm',
  'node:worker_threads',
  'node:zlib',
]);

/** What is imported from outside: the library, and of it what runs in a browser. */
const ENTRIES = ['sim/index.ts', 'sim/core.ts'];

const SIM = filesBelow('sim', '.ts');

/** What the code of a file imports, static or not. */
function importsOf({ text }: SourceFile): string[] {
  const code = withoutComments(text);
  const statement =
    /^\s*(?:import|export)\b[^;'"]*?\bfrom\s+['"]([^'"]+)['"]|^\s*import\s+['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]/gm;
  return [...code.matchAll(statement)].map((match) => (match[1] ?? match[2] ?? match[3])!);
}

function folderOf(path: string): string {
  return path.split('/')[1]!;
}

/** Every place where the code of sim/ holds a pattern, but for files allowed to. */
function placesOf(pattern: RegExp, allowed: (path: string) => boolean = () => false): string[] {
  return SIM.filter(({ path }) => !allowed(path)).flatMap(({ path, text }) =>
    withoutComments(text)
      .split('\n')
      .flatMap((line, i) => (pattern.test(line) ? [`${path}:${i + 1} ${line.trim()}`] : [])),
  );
}

it('finds the files of sim/, and every one stands in a folder of the list or is the entry', () => {
  expect(SIM.length).toBeGreaterThan(100);
  const strangers = SIM.filter(({ path }) => !ENTRIES.includes(path) && !ORDER.includes(folderOf(path)));
  expect(strangers.map(({ path }) => path)).toEqual([]);
});

it('a folder imports only from folders before it in the list, and from itself', () => {
  let seen = 0;
  const wrong = SIM.flatMap((file) =>
    importsOf(file)
      .filter((target) => target.startsWith('.'))
      .flatMap((target) => {
        seen++;
        const path = posix.normalize(posix.join(posix.dirname(file.path), target));
        const inside = path.startsWith('sim/') && path.endsWith('.ts');
        if (ENTRIES.includes(file.path)) return inside ? [] : [`${file.path} imports ${target}`];
        const ok = inside && ORDER.indexOf(folderOf(path)) <= ORDER.indexOf(folderOf(file.path));
        return ok && ORDER.includes(folderOf(path)) ? [] : [`${file.path} imports ${target}`];
      }),
  );
  expect(seen).toBeGreaterThan(200);
  expect(wrong).toEqual([]);
});

it('no result depends on chance, the clock or the locale', () => {
  expect(placesOf(/Math\.random|Date\.now|new Date\(\s*\)|performance\.|DateTime\.(?:now|local)\b/)).toEqual(
    [],
  );
  // The table of time zones is read in one place, in digits and by the name of a zone.
  const locale = /toLocale|localeCompare|Intl\.|getTimezoneOffset|zone:\s*['"](?:local|system)/;
  expect(placesOf(locale, (path) => path === 'sim/common/civilTime.ts')).toEqual([]);
  expect(placesOf(/\.(?:getFullYear|getMonth|getDate|getDay|getHours|getMinutes)\(/)).toEqual([]);
});

it('only cli/main.ts touches the process, and nothing prints by itself', () => {
  expect(placesOf(/\bconsole\./)).toEqual([]);
  const process = /\bprocess\.\w|[=(]\s*process\b/;
  expect(placesOf(process, (path) => path === 'sim/cli/main.ts')).toEqual([]);
  expect(placesOf(process).length).toBeGreaterThan(0);
});

it('only files whose work it is read or write files', () => {
  const outside = SIM.flatMap((file) =>
    importsOf(file)
      .filter((target) => target.startsWith('node:') && !HARMLESS.has(target))
      .map((target) => ({ path: file.path, target })),
  );
  // The version of Node is a fact of the output; `node:module` finds a package's file; unfinished files bear the number
  // of their process.
  const askProcess = new Set(['sim/output/program.ts', 'sim/output/UnfinishedFiles.ts']);
  const known = ({ path, target }: { path: string; target: string }) =>
    TOUCHES_FILES.has(path) && (target === 'node:fs' || target === 'node:module' || askProcess.has(path));
  expect(outside.filter((one) => !known(one))).toEqual([]);
  const paths = new Set(outside.map(({ path }) => path));
  expect([...TOUCHES_FILES].filter((path) => !paths.has(path))).toEqual([]);
});

it('no file holds a path of somebody’s machine', () => {
  const all = [
    ...SIM,
    ...filesBelow('test', '.ts'),
    ...filesBelow('data-samples', '.ts'),
    ...filesBelow('data-samples', '.md'),
    ...filesBelow('scenarios', '.yaml'),
    ...filesBelow('scenarios', '.md'),
    ...filesBelow('sim', '.md'),
    fileAt('README.md'),
    fileAt('DEVELOPERS.md'),
    fileAt('package.json'),
    fileAt('.ci/run'),
  ];
  // Tests may make up a home to show that it stays out of results.
  const machine = /(?<![\w.])\/(?:Users|work|root|mnt)\/|\b[A-Z]:\\\\?Users/;
  const home = /(?<![\w.])\/home\//;
  const places = all.flatMap(({ path, text }) =>
    text
      .split('\n')
      .flatMap((line, i) =>
        (machine.test(line) || (home.test(line) && !path.startsWith('test/'))) &&
        !/const (?:machine|home) =/.test(line)
          ? [`${path}:${i + 1}`]
          : [],
      ),
  );
  expect(places).toEqual([]);
});
