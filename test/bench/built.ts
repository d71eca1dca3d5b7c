import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** Where the program that the benches call stands once it is compiled. */
export const BUILT = new URL('../../out/bench/program.js', import.meta.url);

await build({
  entryPoints: [fileURLToPath(new URL('program.ts', import.meta.url))],
  outfile: fileURLToPath(BUILT),
  bundle: true,
  packages: 'external',
  platform: 'node',
  format: 'esm',
  target: 'node20',
  logLevel: 'warning',
});

/** The program as the build compiles it: sources that a runner of TypeScript compiles by itself may be slower. */
export const built = (await import(BUILT.href)) as typeof import('./program.ts');
