import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { Plugin } from 'esbuild';

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
export const sameBits: Plugin = {
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
export const asciiWidth: Plugin = {
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

export const byModules: Plugin = {
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
export const builtIn: Plugin = {
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
export const markedPure: Plugin = {
  name: 'marked-pure',
  setup({ onLoad }) {
    onLoad({ filter: /\/sim\/.*\.ts$/ }, ({ path }) => ({
      contents: marked(readFileSync(path, 'utf8')),
      loader: 'ts',
    }));
  },
};

function marked(code: string): string {
  return code.replace(
    /\/\* @__PURE__ \*\/ ((?:new )?[\w.]+\([^()]*\))/g,
    `/* @__PURE__ */ ${MARK}(/* @__PURE__ */ $1)`,
  );
}

/** in: code without white space */
export function markedAgain(code: string): string {
  return code.replace(new RegExp(`${MARK}\\(((?:new )?[\\w$.]+\\([^()]*\\))\\)`, 'g'), '/*@__PURE__*/$1');
}
