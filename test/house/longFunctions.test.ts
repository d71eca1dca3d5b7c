import { expect, it } from 'vitest';
import { functionsOf } from './functionsOf.ts';
import { filesBelow } from './simFiles.ts';

const MOST_LINES = 60;
/** The hot kernel: both are one step of the circuit, whose numbers would otherwise go through objects at every call. */
const EXEMPT = new Set(['sim/year/LampStepper.ts tryStep', 'sim/year/LampStepper.ts finish']);

it('outside sim/weather no function is longer than 60 lines, but for the hot kernel', () => {
  const long = filesBelow('sim', '.ts')
    .filter(({ path }) => !path.startsWith('sim/weather/'))
    .flatMap(({ path, text }) =>
      functionsOf(text)
        .filter(({ lines }) => lines > MOST_LINES)
        .map(({ name, line, lines }) => ({
          key: `${path} ${/(\w+)\(/.exec(name)?.[1] ?? name}`,
          shown: `${path}:${line} has ${lines} lines: ${name}`,
        })),
    );
  expect(long.filter(({ key }) => !EXEMPT.has(key)).map(({ shown }) => shown)).toEqual([]);
  const keys = new Set(long.map(({ key }) => key));
  expect([...EXEMPT].filter((key) => !keys.has(key))).toEqual([]);
});
