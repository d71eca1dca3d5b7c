import type * as library from '../../sim/index.ts';

/** The library as it is built, its packages within: sources that are run as they stand take packages as they are. */
export async function builtLibrary(): Promise<typeof library> {
  return import(new URL('../../dist/index.js', import.meta.url).href);
}
