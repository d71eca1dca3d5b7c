import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type BuildOptions, build, type Metafile, type Plugin } from 'esbuild';
import { packedPlain } from './sim/output/page/packedPlain.ts';
import { mergedSchema } from './sim/scenario/SchemaNode.ts';

// Makes what runs in dist/, all packages within: `npm run bundle`. The types beside it come from tsc: `npm run build`.

const COMMON = {
  bundle: true,
  outbase: 'sim',
  outdir: 'dist',
  minify: true,
  charset: 'utf8',
  logLevel: 'warning',
} satisfies BuildOptions;

/** The help is ASCII. The package that measures text beside that compiles a table of all emoji, for 40 ms a start. */
const asciiWidth: Plugin = {
  name: 'ascii-width',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^string-width$/ }, ({ path }) => ({ path, namespace: 'ascii-width' }));
    onLoad({ filter: /./, namespace: 'ascii-width' }, () => ({
      contents: 'export default (text) => text.length;',
    }));
  },
};

/** What a module imports stays beside it, as the file that it becomes. */
const modulesApart: Plugin = {
  name: 'modules-apart',
  setup({ onResolve }) {
    onResolve({ filter: /^\.{1,2}\/.*\.ts$/ }, ({ path, kind }) =>
      kind === 'entry-point' ? undefined : { path: path.replace(/\.ts$/, '.js'), external: true },
    );
  },
};

await build({
  ...COMMON,
  entryPoints: [
    'sim/output/page/scripts/reader.ts',
    'sim/output/page/scripts/report.ts',
    'sim/output/page/page.css',
    'sim/output/figures/figures.css',
  ],
  target: 'es2022',
});

// Runs beside a page, which carries it packed.
const worker = await build({
  ...COMMON,
  entryPoints: ['sim/output/page/scripts/liveWorker.ts'],
  target: 'es2022',
  write: false,
  metafile: true,
});
writeFileSync(
  'dist/output/page/scripts/liveWorker.txt',
  packedPlain(`/*\n${licences(worker.metafile)}*/\n${worker.outputFiles[0]!.text}`),
);

const { metafile } = await build({
  ...COMMON,
  entryPoints: [
    'sim/cli/main.ts',
    'sim/index.ts',
    'sim/trial/winterWorker.ts',
    'sim/sizing/sizingWorker.ts',
    'sim/sizing/winters/madeDesignsWorker.ts',
    'sim/ageing/lifeWorker.ts',
  ],
  platform: 'node',
  format: 'esm',
  target: 'node20',
  // What is only called sometimes is only loaded then; what several need stands once, two folders deep as every
  // source is, for files that are found from there.
  splitting: true,
  chunkNames: 'shared/[name]-[hash]',
  define: { BUILT_SCHEMA: JSON.stringify(JSON.stringify(mergedSchema())) },
  plugins: [asciiWidth],
  // For the packages that are no modules.
  banner: {
    js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
  },
  metafile: true,
  legalComments: 'none',
});
writeFileSync('dist/LICENCES.txt', licences(metafile));
await buildCore();

/**
 * The entry for browsers, a file a module: whoever bundles one function of it takes that along and nothing else. The
 * packages it needs are those that are installed with this one.
 */
async function buildCore(): Promise<void> {
  const { metafile } = await build({
    ...COMMON,
    entryPoints: ['sim/core.ts'],
    packages: 'external',
    platform: 'neutral',
    metafile: true,
    write: false,
  });
  await build({
    ...COMMON,
    entryPoints: Object.keys(metafile.inputs),
    outdir: 'dist/core',
    packages: 'external',
    platform: 'neutral',
    format: 'esm',
    target: 'es2022',
    plugins: [modulesApart],
  });
}

/** The licence of every package that went into the bundle, as each of them asks. */
function licences({ inputs }: Metafile): string {
  const folders = Object.keys(inputs).flatMap(
    (file) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file) ?? [],
  );
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
