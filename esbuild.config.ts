import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { type BuildOptions, build } from 'esbuild';
import { asciiWidth, builtIn, byModules, markedAgain, markedPure, sameBits } from './esbuild.plugins.ts';
import { COMMANDS } from './sim/cli/commands.ts';
import { manPage } from './sim/cli/manPage.ts';
import { schemaBeforeChoices } from './sim/scenario/SchemaNode.ts';

// Makes what runs in dist/, packages within but for two: `npm run bundle`. The types beside it come from tsc:
// `npm run build`.

const COMMON = {
  bundle: true,
  outbase: 'sim',
  outdir: 'dist',
  minify: true,
  charset: 'utf8',
  logLevel: 'warning',
} satisfies BuildOptions;

await build({
  ...COMMON,
  entryPoints: [
    'sim/output/page/scripts/reader.ts',
    'sim/output/page/scripts/report.ts',
    'sim/output/page/page.css',
    'sim/output/figures/figures.css',
  ],
  target: 'es2022',
  plugins: [sameBits],
});

const REQUIRE =
  "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);";

const { version, description: about } = JSON.parse(readFileSync('package.json', 'utf8'));

// What is only called sometimes is only loaded then; what several need, a page's worker and browsers too, stands once.
const { metafile, outputFiles } = await build({
  ...COMMON,
  entryPoints: [
    'sim/cli/main.ts',
    'sim/index.ts',
    'sim/core.ts',
    'sim/output/page/scripts/liveWorker.ts',
    'sim/trial/winterWorker.ts',
    'sim/sizing/sizingWorker.ts',
    'sim/sizing/winters/madeDesignsWorker.ts',
    'sim/ageing/lifeWorker.ts',
  ],
  platform: 'node',
  // Of few files: from folders of their own they load as fast.
  external: ['luxon', 'workerpool'],
  format: 'esm',
  target: 'node20',
  splitting: true,
  // Two folders deep as every source is, for files that are found from there.
  chunkNames: 'shared/[name]-[hash]',
  define: { BUILT_SCHEMA: JSON.stringify(JSON.stringify(schemaBeforeChoices())) },
  plugins: [asciiWidth, builtIn, byModules, sameBits, markedPure],
  metafile: true,
  legalComments: 'none',
  write: false,
});
// What an earlier bundle left under other names would be packed with it.
rmSync('dist/shared', { recursive: true, force: true });
// Hashes pack badly, and each stands in many modules.
const shortNames = new Map(
  outputFiles.map(({ path }, i) => [basename(path), basename(path).replace(/(?:chunk)?-[A-Z\d]{8}/, `${i}`)]),
);
for (const { path: hashed, text: written } of outputFiles) {
  const [path, text] = [hashed, written].map((each) =>
    each.replace(/[\w-]+-[A-Z\d]{8}\.js/g, (name) => shortNames.get(name) ?? name),
  ) as [string, string];
  mkdirSync(dirname(path), { recursive: true });
  // No module is loaded for what it does by itself, so that what none takes anything of need not be.
  const needed = markedAgain(text).replace(/\bimport"\.[^"]+";/g, '');
  // For the packages that are no modules: a browser is not asked for it.
  writeFileSync(path, /\btypeof require\b/.test(needed) ? REQUIRE + needed : needed);
}
writeFileSync('dist/longnight.1', manPage({ commands: COMMANDS, version, about }));
writeFileSync('dist/LICENCES.txt', licences(Object.keys(metafile.inputs)));
const WORKER = 'dist/output/page/scripts/liveWorker';
writeFileSync(`${WORKER}.licences.txt`, licences(inputsOf(`${WORKER}.js`)));

/** The files that went into a module and into all that it imports at once. */
function inputsOf(module: string): string[] {
  const { inputs, imports } = metafile.outputs[module]!;
  const below = imports.filter(({ kind, external }) => kind === 'import-statement' && !external);
  return [...Object.keys(inputs), ...below.flatMap(({ path }) => inputsOf(path))];
}

/** The licence of every package that went into the bundle, as each of them asks. */
function licences(inputs: readonly string[]): string {
  const folders = inputs.flatMap((file) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file) ?? []);
  return [...new Set(folders)]
    .sort()
    .map((folder) => {
      const { name, version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
      const file = readdirSync(folder).find((each) => /^licen[cs]e/i.test(each));
      if (file === undefined) throw new Error(`no licence in ${folder}`);
      return `${name} ${version}\n\n${readFileSync(join(folder, file), 'utf8').trim()}\n`;
    })
    .join(`\n${'-'.repeat(60)}\n\n`);
}
