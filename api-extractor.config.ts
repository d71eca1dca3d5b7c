import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Extractor, ExtractorConfig } from '@microsoft/api-extractor';
import type { ApiModel } from './test/house/apiPages.ts';

// Makes all types one file, dist/index.d.ts, of which dist/core.d.ts names its share, and what `npm run docs` makes pages
// of, from the declarations that tsc leaves in dist/types: `npm run types`.

const root = import.meta.dirname;
const TYPES = join(root, 'dist/types');
/** What the pages are made from; not packed. */
const MODELS = join(root, 'dist/api');

for (const file of readdirSync(TYPES, { recursive: true, encoding: 'utf8' }).filter(isDeclaration)) {
  const path = join(TYPES, file);
  writeFileSync(path, importsOfJs(readFileSync(path, 'utf8')).replace(/\/\*\*.*?\*\//gs, inTags));
}
for (const entry of ['index', 'core']) rollUp(entry);
writeFileSync(join(root, 'dist/core.d.ts'), sameAsWhole());
rmSync(TYPES, { recursive: true });

function isDeclaration(file: string): boolean {
  return file.endsWith('.d.ts');
}

/** Imports of .ts files as imports of what is built from them. */
function importsOfJs(declarations: string): string {
  return declarations.replace(/(\b(?:from |import\()["']\.[^"']*)\.ts(?=["'])/g, '$1.js');
}

/**
 * A doc comment in the tags that editors and pages know: its examples, and its lines `in:`, `out:` and so on.
 */
function inTags(comment: string): string {
  const indent = /\n( *) \*\//.exec(comment)?.[1];
  if (indent === undefined) return comment;
  const lines = comment.split('\n').slice(1, -1);
  const text = lines.map((line) => line.replace(/^ *\* ?/, '')).join('\n');
  const [about = '', ...examples] = text.split(/^@example\s+/m);
  const [summary = '', ...parts] = about.split(/^(?=(?:in|out|throws|NaN when|valid|departs|source): )/m);
  const of = (tag: RegExp) => parts.filter((part) => tag.test(part)).map((part) => part.trim());
  const [given, rest] = [of(/^in: /), of(/^(NaN when|valid|departs|source): /)];
  const remarks = [...given, ...rest].map((part) => part.replace(/^./, (first) => first.toUpperCase()));
  const blocks = [
    summary.trim(),
    ...(remarks.length === 0 ? [] : [`@remarks\n${remarks.join('\n\n')}`]),
    ...of(/^out: /).map((part) => part.replace(/^out:/, '@returns')),
    ...of(/^throws: /).map((part) => part.replace(/^throws:/, '@throws')),
  ];
  blocks.push(...examples.map((each) => `@example\n\`\`\`ts\n${each.trim()}\n\`\`\``));
  const tagged = blocks.join('\n\n').split('\n');
  return ['/**', ...tagged.map((line) => `${indent} * ${line.trim()}`.trimEnd()), `${indent} */`].join('\n');
}

/** Writes the model of an entry, and of the whole its types. */
function rollUp(entry: string): void {
  const compilerOptions = {
    target: 'es2022',
    lib: ['es2023'],
    module: 'nodenext',
    types: ['node'],
    strict: true,
  };
  const config = ExtractorConfig.prepare({
    configObject: {
      projectFolder: root,
      mainEntryPointFilePath: join(TYPES, `${entry}.d.ts`),
      compiler: {
        overrideTsconfig: {
          compilerOptions: { ...compilerOptions, skipLibCheck: true },
          files: [join(TYPES, `${entry}.d.ts`)],
        },
      },
      dtsRollup: { enabled: entry === 'index', untrimmedFilePath: join(root, 'dist/index.d.ts') },
      docModel: {
        enabled: true,
        apiJsonFilePath: join(MODELS, `${entry}.json`),
        includeForgottenExports: true,
      },
      tsdocMetadata: { enabled: false },
      newlineKind: 'lf',
    },
    configObjectFullPath: undefined,
    packageJsonFullPath: join(root, 'package.json'),
  });
  const { succeeded } = Extractor.invoke(config, {
    localBuild: true,
    messageCallback(message) {
      // Nothing here is marked as public, beta or internal, and what is said in comments is no markup.
      message.handled = /^(console-|tsdoc-|ae-missing-release-tag|ae-forgotten-export)/.test(
        message.messageId,
      );
    },
  });
  if (!succeeded) throw new Error(`the types of ${entry} could not be rolled up`);
}

/** The types of the core as those of the whole, which has all of it: no type stands twice, or beside its like. */
function sameAsWhole(): string {
  const [whole, core] = ['index', 'core'].map(exportsOf);
  const missing = core!.filter((name) => !whole!.includes(name));
  if (missing.length > 0) throw new Error(`sim/index.ts lacks ${missing.join(', ')} of sim/core.ts`);
  return `export { ${core!.join(', ')} } from './index.js';\n`;
}

/** What an entry exports, as an export names it. */
function exportsOf(entry: string): string[] {
  const model = JSON.parse(readFileSync(join(MODELS, `${entry}.json`), 'utf8')) as ApiModel;
  const items = model.members[0].members.filter(
    ({ canonicalReference }) => !canonicalReference.includes('!~'),
  );
  return items.map(({ name, kind }) => (/^(Interface|TypeAlias)$/.test(kind) ? `type ${name}` : name));
}
