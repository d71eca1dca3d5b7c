import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Extractor, ExtractorConfig } from '@microsoft/api-extractor';

// Makes one file of types an entry, dist/index.d.ts and dist/core.d.ts, and what `npm run docs` makes pages of, from the
// declarations that tsc leaves in dist/types: `npm run types`.

const root = import.meta.dirname;
const TYPES = join(root, 'dist/types');
/** What the pages are made from; not packed. */
const MODELS = join(root, 'dist/api');

for (const file of readdirSync(TYPES, { recursive: true, encoding: 'utf8' }).filter(isDeclaration)) {
  const path = join(TYPES, file);
  writeFileSync(path, importsOfJs(readFileSync(path, 'utf8')).replace(/\/\*\*.*?\*\//gs, inTags));
}
for (const entry of ['index', 'core']) rollUp(entry);
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

/** Writes dist/ENTRY.d.ts and its model. */
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
      dtsRollup: { enabled: true, untrimmedFilePath: join(root, `dist/${entry}.d.ts`) },
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
