import { type BuildOptions, build } from 'esbuild';
import { describe, expect, it } from 'vitest';

// What a page needs to run trials by itself, bundled as it would be for a browser.

/** The entry for browsers. */
const CORE = "export * from './sim/core.ts';";

/** Turns trials of a run and shows them, as the page does. */
const SHOWN = `
  export { LiveTrials } from './sim/trial/live/LiveTrials.ts';
  export { turnedScenario } from './sim/trial/live/turnedScenario.ts';
  export { trialBlocks } from './sim/output/page/trialBlocks.ts';
`;

const OPTIONS = {
  bundle: true,
  minify: true,
  platform: 'browser',
  format: 'esm',
  target: 'es2022',
  charset: 'utf8',
  metafile: true,
  write: false,
  logLevel: 'silent',
} satisfies BuildOptions;

/** Bytes and packages of a bundle. throws: what stands in its way, such as a module of node */
async function bundleOf(contents: string): Promise<{ bytes: number; packages: string[] }> {
  const { metafile } = await build({
    ...OPTIONS,
    stdin: { contents, loader: 'ts', resolveDir: process.cwd() },
  });
  const [output] = Object.values(metafile.outputs);
  const { bytes, inputs, imports } = output!;
  expect(imports).toEqual([]);
  const packages = Object.entries(inputs).flatMap(([file, { bytesInOutput }]) =>
    bytesInOutput === 0 ? [] : (/.*node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(file)?.[1] ?? []),
  );
  return { bytes, packages: [...new Set(packages)].sort() };
}

describe('in a browser', () => {
  it('a trial is run by few packages, none of node, none that reads files or checks scenarios', async () => {
    const { bytes, packages } = await bundleOf(CORE);
    expect(packages).toEqual(['d3-array', 'pure-rand', 'simple-statistics', 'suncalc']);
    expect(bytes).toBeLessThan(165_000);
  });

  it('the entry that is packed is no larger, nor needs any package', async () => {
    const { bytes, packages } = await bundleOf("export * from './dist/core.js';");
    expect(packages).toEqual([]);
    expect(bytes).toBeLessThan(161_000);
  });

  it('one function takes along what it needs', async () => {
    const { bytes, packages } = await bundleOf("export { solarPosition } from './dist/core.js';");
    expect(packages).toEqual([]);
    expect(bytes).toBeLessThan(5000);
  });

  it('a trial is shown by what draws, besides', async () => {
    const { bytes, packages } = await bundleOf(SHOWN);
    expect(packages).toEqual([
      'd3-array',
      'd3-color',
      'd3-format',
      'd3-interpolate',
      'd3-path',
      'd3-scale',
      'd3-shape',
      'get-east-asian-width',
      'pure-rand',
      'simple-statistics',
      'suncalc',
    ]);
    expect(bytes).toBeLessThan(320_000);
  });

  it('a module of node would be seen', async () => {
    await expect(bundleOf("export { fileSource } from './sim/tables/TableSource.ts';")).rejects.toThrow(
      /node:fs/,
    );
  });
});
