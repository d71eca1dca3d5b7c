import { expect, it } from 'vitest';
import { functionsOf } from './functionsOf.ts';
import { filesBelow } from './simFiles.ts';

const MOST_LINES = 60;

it('no function is longer than 60 lines', () => {
  const long = filesBelow('sim', '.ts').flatMap(({ path, text }) =>
    functionsOf(text)
      .filter(({ lines }) => lines > MOST_LINES)
      .map(({ name, line, lines }) => `${path}:${line} has ${lines} lines: ${name}`),
  );
  expect(long).toEqual([]);
});
