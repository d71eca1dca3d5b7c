import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Extractor, ExtractorConfig } from '@microsoft/api-extractor';
import { afterAll, expect, it } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'longnight-types-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Names that the declarations of an entry use and that nobody can import from it. */
function unnamedIn(entry: string): string[] {
  const config = ExtractorConfig.prepare({
    configObject: {
      mainEntryPointFilePath: resolve(entry),
      projectFolder: resolve('.'),
      compiler: {
        overrideTsconfig: { ...COMPILER, files: [resolve(entry)] },
        tsconfigFilePath: resolve('tsconfig.json'),
      },
      // It looks for what is forgotten only where it writes something.
      dtsRollup: { enabled: true, untrimmedFilePath: join(folder, 'all.d.ts') },
    },
    configObjectFullPath: undefined,
    packageJsonFullPath: resolve('package.json'),
  });
  const names = new Set<string>();
  let read = false;
  Extractor.invoke(config, {
    localBuild: true,
    messageCallback: (message) => {
      if (message.messageId === 'ae-forgotten-export')
        names.add(/"(\w+?)(?:_\d+)?"/.exec(message.text)?.[1] ?? message.text);
      read ||= message.messageId === 'console-preamble';
      message.handled = true;
    },
  });
  expect(read).toBe(true);
  return [...names].sort();
}

const COMPILER = {
  compilerOptions: {
    module: 'nodenext',
    moduleResolution: 'nodenext',
    target: 'es2023',
    strict: true,
    skipLibCheck: true,
    types: ['node'],
  },
};

/** Values whose type alone is used: a schema that a section's type is made from, a list that a word's type is. */
const ONLY_A_VALUE = /^(?:[a-z]\w*Schema|[A-Z_]+)$/;

it('every type that the public functions name can be imported', () => {
  expect(unnamedIn('dist/index.d.ts').filter((name) => !ONLY_A_VALUE.test(name))).toEqual([]);
});
