import { readdirSync } from 'node:fs';
import type { TruthCase } from './TruthCase.ts';

/** The cases of one file. */
export interface TruthFile {
  name: string;
  cases: TruthCase[];
}

/** Every `*.truth.ts` beside this file, in the order of their names. */
export async function collectTruths(): Promise<TruthFile[]> {
  const names = readdirSync(new URL('.', import.meta.url))
    .filter((name) => name.endsWith('.truth.ts'))
    .sort();
  return Promise.all(
    names.map(async (name) => {
      const { cases } = (await import(new URL(name, import.meta.url).href)) as { cases: TruthCase[] };
      return { name, cases };
    }),
  );
}
