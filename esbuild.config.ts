import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type BuildOptions, build, type Plugin } from 'esbuild';
import { COMMANDS } from './sim/cli/commands.ts';
import { manPage } from './sim/cli/manPage.ts';
import { schemaBeforeChoices } from './sim/scenario/SchemaNode.ts';

// Makes what runs in dist/, packages within but for two: `npm run bundle`. The types beside it come from tsc:
// `npm run build`.

// How the build takes in packages, and what it lets a bundle leave out.

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
    onLoad({ filter: /node_modules\/(suncalc|simple-statistics|d3-[a-z-]+)\/.*js$/ }, ({ path }) => {
      const taken = new Set<string>();
      const own = (name: string) => {
        taken.add(name);
        return `same_${name}`;
      };
      const contents = readFileSync(path, 'utf8')
        .replace(/\bMath\.(\w+)/g, (as, name) => (name in ELEMENTARY ? own(name) : as))
        .replace(/const \{([^{}]*)\} = Math;/g, (_, names: string) =>
          names
            .split(',')
            .map((each) => each.trim().split(/:\s*/))
            .map(
              ([name = '', as = name]) => `const ${as} = ${name in ELEMENTARY ? own(name) : `Math.${name}`};`,
            )
            .join('\n'),
        );
      const imports = [...taken].map(
        (name) =>
          `import { ${name === 'pow' ? 'power' : name} as same_${name} } from '${resolve('sim/common/elementary')}/${ELEMENTARY[name]}.ts';\n`,
      );
      return { contents: imports.join('') + marked(partsApart(contents)) };
    });
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

/** Packages by the modules that they are made of, so that what nobody asks for is left out. */
const MODULES: Record<string, string> = {
  'simple-statistics': 'simple-statistics/index.js',
  // Else one that is no module: these are the same files.
  yaml: 'yaml/browser/dist/index.js',
};

const byModules: Plugin = {
  name: 'by-modules',
  setup({ onResolve }) {
    onResolve({ filter: /^(simple-statistics|yaml)$/ }, ({ path }) => ({
      path: resolve('node_modules', MODULES[path]!),
      sideEffects: false,
    }));
    onResolve({ filter: /^\./ }, ({ path, importer }) =>
      /\/node_modules\/(simple-statistics|yaml)\//.test(importer)
        ? { path: resolve(dirname(importer), path), sideEffects: false }
        : undefined,
    );
  },
};

/**
 * What packages carry for a need that never comes here: the scenario's JSON Schema is built in, so that no check has to
 * become one, and every thread has a file of its own.
 */
const builtIn: Plugin = {
  name: 'built-in',
  setup({ onLoad }) {
    onLoad({ filter: /\/zod\/v4\/classic\/schemas\.js$/ }, ({ path }) => ({
      contents: readFileSync(path, 'utf8')
        .replace(/^ +inst\._zod\.processJSONSchema = .*;$/gm, '')
        .replace(/^ +jsonSchema: \{[^}]*\},$/m, '')
        .replace(/^ +toJSONSchema\(params\) \{\n.*\n +\},$/m, ''),
    }));
    onLoad({ filter: /\/workerpool\/src\/generated\/embeddedWorker\.js$/ }, () => ({
      contents: "module.exports = '';",
    }));
  },
};

/** A package's tables, prototypes and made functions as what is left out where nothing asks for it, as functions are. */
function partsApart(code: string): string {
  return `${code
    .replace(/= new Int32Array\(/g, '= /* @__PURE__ */ new Int32Array(')
    .replace(
      /^(?:const|var) (bisect\w+|array|slice) = (.*)\.(\w+);$/gm,
      'var $1 = /* @__PURE__ */ partOf($2, "$3");',
    )
    .replace(/= \(function custom/g, '= /* @__PURE__ */ (function custom')
    .replace(/= (Math\.sqrt\(\d+\))/g, '= /* @__PURE__ */ $1')
    .replace(/(?<=[=(] ?)(bisector|Blur2|shuffler)\((?=[\w.]+\))/g, '/* @__PURE__ */ $1(')
    .replace(
      /^(function (\w+)\([^)]*\) \{\n[\s\S]*?\n\})\n\n\2\.prototype = (\{\n[\s\S]*?\n\});$/gm,
      'const $2 = /* @__PURE__ */ withPrototype($1, $3);',
    )}
function partOf(of, key) { return of[key]; }
function withPrototype(of, prototype) { of.prototype = prototype; return of; }
`;
}

/** Stands for the mark of a call that may be left out: with white space go the comments that are such marks. */
const MARK = 'LEFT_OUT_UNUSED';

/** Calls that are marked are put into a call by the name of the mark, which `markedAgain` finds. */
const markedPure: Plugin = {
  name: 'marked-pure',
  setup({ onLoad }) {
    onLoad({ filter: /\/sim\/.*\.ts$/ }, ({ path }) => ({
      contents: marked(fractionsFirst(withNumbers(readFileSync(path, 'utf8'), path), path)),
      loader: 'ts',
    }));
  },
};

const NUMBER = String.raw`-?\d[\d._]*(?:e-?\d+)?`;
const NUMBERS = String.raw`\{((?:\s*(?:/\*\*[^*]*\*/)?\s*\w+: ${NUMBER},?)+)\s*\} as const;`;

/**
 * A module's own constant numbers, and its and others' tables of such, as the numbers themselves: esbuild does so for
 * what others export, and the engine would fetch and check each at each use, a twentieth of the hourly loop.
 */
function withNumbers(code: string, path: string): string {
  const known = new Map<string, string>();
  const note = (from: string, names?: readonly string[]) => {
    const found = from.matchAll(RegExp(`^(?:export )?const (\\w+) = (?:(${NUMBER});|${NUMBERS})`, 'gm'));
    for (const [, name = '', number, rows = ''] of found) {
      if (names?.includes(name) === false) continue;
      if (number !== undefined) known.set(name, number);
      for (const [, key, value = ''] of rows.matchAll(RegExp(`(\\w+): (${NUMBER})`, 'g')))
        known.set(`${name}.${key}`, value);
    }
  };
  for (const [, names = '', file = ''] of code.matchAll(/^import \{([^}]+)\} from '(\.[^']+)';$/gm))
    if (/\b[A-Z][A-Z_\d]+\b/.test(names))
      note(readFileSync(resolve(dirname(path), file), 'utf8'), names.split(/\W+/));
  note(code);
  // Imports and quoted text stay as they are.
  const found =
    /^import [^;]*;$|'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|(?<![.\w`])[A-Z]\w*(?:\.\w+)?\b(?! = )/gm;
  return code.replace(found, (as) => {
    const value = known.get(as);
    return value?.startsWith('-') ? `(${value})` : (value ?? as);
  });
}

/**
 * The number fields of lamp and loop, each given a fraction before its own value: a field that begins with a whole number
 * is kept for such alone, and with its first fraction the engine makes the class anew, and in the end throws away what it
 * compiled for it: two thirds of the time that a second lamp-year took.
 */
function fractionsFirst(code: string, path: string): string {
  if (!/\/sim\/(?:year|lamp)\//.test(path)) return code;
  return code.replace(/^(?:export )?class .*\{\n[\s\S]*?^\}$/gm, (whole) =>
    whole.replace(/^ {2}(?:(?:private|protected|readonly) )*(\w+)(?:: number| = \d+);$/gm, '  $1 = -0;\n$&'),
  );
}

function marked(code: string): string {
  return code.replace(
    /\/\* @__PURE__ \*\/ ((?:new )?[\w.]+\([^()]*\))/g,
    `/* @__PURE__ */ ${MARK}(/* @__PURE__ */ $1)`,
  );
}

/** in: code without white space */
function markedAgain(code: string): string {
  return code.replace(new RegExp(`${MARK}\\(((?:new )?[\\w$.]+\\([^()]*\\))\\)`, 'g'), '/*@__PURE__*/$1');
}

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
  // `fractionsFirst` names fields twice.
  logOverride: { 'duplicate-class-member': 'silent' },
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
