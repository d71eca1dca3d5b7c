import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type BuildOptions, build, type Metafile, type Plugin } from 'esbuild';
import { COMMANDS } from './sim/cli/commands.ts';
import { manPage } from './sim/cli/manPage.ts';
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

/** Where the project's own elementary functions stand, by the names that Math has for them. */
const ELEMENTARY: Record<string, string> = {
  exp: 'exp',
  expm1: 'exp',
  log: 'log',
  log1p: 'log',
  log10: 'log',
  pow: 'power',
  hypot: 'hypot',
  sin: 'sin',
  cos: 'sin',
  tan: 'sin',
  asin: 'atan2',
  acos: 'atan2',
  atan2: 'atan2',
};

/**
 * Packages that compute take the project's elementary functions in place of Math's, which round differently in each
 * engine: their names are declared before each file as what our modules export.
 */
const sameBits: Plugin = {
  name: 'same-bits',
  setup({ onLoad }) {
    onLoad(
      { filter: /node_modules\/(suncalc|simple-statistics|ml-[a-z-]+|d3-[a-z-]+)\/.*js$/ },
      ({ path }) => {
        const taken = new Set<string>();
        const own = (name: string) => {
          taken.add(name);
          return `same_${name}`;
        };
        const contents = readFileSync(path, 'utf8')
          .replace(/\bMath\.(\w+)/g, (as, name) => (name in ELEMENTARY ? own(name) : as))
          .replace(/\{([^{}]*)\} = Math;/g, (_, names: string) => {
            const parts = names.split(',').map((each) => each.trim().split(/:\s*/));
            const kept = parts.filter(([name]) => !(name! in ELEMENTARY)).map(([name]) => name);
            const ours = parts.filter(([name]) => name! in ELEMENTARY);
            return [`{${kept}} = Math`, ...ours.map(([name, as = name]) => `${as} = ${own(name!)}`)]
              .join(', ')
              .concat(';');
          })
          // Tables that nothing asks for are left out, as are functions.
          .replace(/= new Int32Array\(/g, '= /* @__PURE__ */ new Int32Array(');
        const imports = [...taken].map(
          (name) =>
            `import { ${name === 'pow' ? 'power' : name} as same_${name} } from '${resolve('sim/common/elementary')}/${ELEMENTARY[name]}.ts';\n`,
        );
        return { contents: imports.join('') + contents };
      },
    );
  },
};

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

/** What a module imports stays beside it, as the file that it becomes; so does the package that knows the sun. */
const modulesApart: Plugin = {
  name: 'modules-apart',
  setup({ onResolve }) {
    onResolve({ filter: /^suncalc$/ }, () => ({ path: '../suncalc.js', external: true }));
    onResolve({ filter: /^\/.*\/sim\/common\/elementary\// }, ({ path }) => ({
      path: path.replace(/^.*\/sim\//, './').replace(/\.ts$/, '.js'),
      external: true,
    }));
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
  plugins: [sameBits],
});

// Runs beside a page, which carries it packed.
const worker = await build({
  ...COMMON,
  entryPoints: ['sim/output/page/scripts/liveWorker.ts'],
  target: 'es2022',
  plugins: [sameBits],
  write: false,
  metafile: true,
});
writeFileSync(
  'dist/output/page/scripts/liveWorker.txt',
  packedPlain(`/*\n${licences(worker.metafile)}*/\n${worker.outputFiles[0]!.text}`),
);

const { version, description: about } = JSON.parse(readFileSync('package.json', 'utf8'));

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
  plugins: [asciiWidth, sameBits],
  // For the packages that are no modules.
  banner: {
    js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
  },
  metafile: true,
  legalComments: 'none',
});
writeFileSync('dist/longnight.1', manPage({ commands: COMMANDS, version, about }));
writeFileSync('dist/LICENCES.txt', licences(metafile));
// What an earlier bundle left under other names would be packed with it.
for (const file of readdirSync('dist/shared'))
  if (!(`dist/shared/${file}` in metafile.outputs)) rmSync(join('dist/shared', file));
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
    entryPoints: [
      ...Object.keys(metafile.inputs).map((file) => ({
        in: `./${file}`,
        out: file.slice('sim/'.length, -'.ts'.length),
      })),
      { in: './node_modules/suncalc/index.js', out: 'suncalc' },
    ],
    outdir: 'dist/core',
    // With white space go the comments that say which calls may be left out.
    minify: false,
    minifyIdentifiers: true,
    minifySyntax: true,
    packages: 'external',
    platform: 'neutral',
    format: 'esm',
    target: 'es2022',
    plugins: [sameBits, modulesApart],
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
