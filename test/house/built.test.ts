import { expect, it } from 'vitest';
import { filesBelow } from './simFiles.ts';

it('what a bench loads from the built program has the name of the source that types it', () => {
  const pairs = filesBelow('test', '.ts').flatMap(({ path, text }) =>
    [...text.matchAll(/built<typeof import\('(?:\.\.\/)+sim\/([^']+)\.ts'\)>\(\s*'([^']+)'/g)].map(
      ([, source, loaded]) => ({ path, source, loaded }),
    ),
  );
  expect(pairs.length).toBeGreaterThan(5);
  expect(pairs.filter(({ source, loaded }) => source !== loaded)).toEqual([]);
});
