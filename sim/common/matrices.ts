import { createRequire } from 'node:module';

let loaded: typeof import('ml-matrix') | undefined;

/** The library of matrices, loaded where something is fitted for the first time: no other command waits for it. */
export function matrices(): typeof import('ml-matrix') {
  loaded ??= createRequire(import.meta.url)('ml-matrix') as typeof import('ml-matrix');
  return loaded;
}
