import { expect, it } from 'vitest';
import { workerScript } from '../../sim/output/page/live/liveBlock.ts';
import { bareCode } from './bareCode.ts';
import { filesBelow } from './simFiles.ts';

/** What the language leaves to the engine: these round differently in node and in a browser. */
const ENGINE = /\bMath\.(a?(sin|cos|tan)h?|atan2|exp|expm1|log(1p|10|2)?|pow|hypot|cbrt)\b|[^n\s] \*\* /;

it('every result is of plain arithmetic and the project’s own functions, to the same bits in every engine', () => {
  const found = filesBelow('sim', '.ts').flatMap(({ path, text }) =>
    bareCode(text)
      .bones.split('\n')
      .flatMap((line, i) => (ENGINE.test(line) ? [`${path}:${i + 1}: ${line.trim()}`] : [])),
  );
  expect(found).toEqual([]);
});

it('nor does a package in what the page runs take the engine’s', () => {
  const code = workerScript();
  expect(code).toContain('Math.sqrt');
  // One for pictures that turn, which are none of ours.
  expect(code.match(new RegExp(ENGINE, 'g'))).toEqual(['Math.atan']);
});
