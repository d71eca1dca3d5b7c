import { expect, it } from 'vitest';
import { commentsOf, filesBelow } from './simFiles.ts';

interface Example {
  path: string;
  line: number;
  text: string;
}

const EXAMPLES: Example[] = filesBelow('sim', '.ts').flatMap(({ path, text }) =>
  commentsOf(text).flatMap(({ line, text: comment }) =>
    comment.split('\n').flatMap((words, i) =>
      words.includes('@example')
        ? [
            {
              path,
              line: line + i,
              text: words
                .split('@example')[1]!
                .replace(/\*\/\s*$/, '')
                .trim(),
            },
          ]
        : [],
    ),
  ),
);

/** `call // => value`, both plain JavaScript; the call begins with the exported name. */
const SHAPE = /^((\w+)\(.*\)[\w.[\]]*); \/\/ => (.+)$/;

it('finds the examples', () => {
  expect(EXAMPLES.length).toBeGreaterThan(20);
});

it.each(EXAMPLES)('the example of $path:$line gives what it says: $text', async ({ path, text }) => {
  const found = SHAPE.exec(text);
  expect(found, `"${text}" has not the shape fn(args); // => value`).not.toBeNull();
  const [, call, name, printed] = found!;
  const exported = (
    (await import(new URL(`../../${path}`, import.meta.url).href)) as Record<string, unknown>
  )[name!];
  expect(typeof exported, `${name} is no function that ${path} exports`).toBe('function');
  const got: unknown = await new Function(name!, `return (${call});`)(exported);
  const expected: unknown = new Function(`return (${printed});`)();
  compare(got, expected, digitsOf(printed!));
});

/** Half a unit of the last printed digit, for each number of a literal in its order. */
function digitsOf(printed: string): number[] {
  const plain = printed.replace(/'(?:[^'\\]|\\.)*'|"(?:[^"\\]|\\.)*"/g, '""');
  return [...plain.matchAll(/-?\d+(?:\.(\d+))?(?:e([+-]?\d+))?/g)].map(
    ([, decimals = '', power = '0']) => 0.5 * 10 ** (Number(power) - decimals.length),
  );
}

/** Numbers with a point or a power are met to their printed digits, whole ones to rounding; all else exactly. */
function compare(got: unknown, expected: unknown, halfUnits: number[]): void {
  if (typeof expected === 'number' && Number.isFinite(expected)) {
    const halfUnit = halfUnits.shift()!;
    const room = halfUnit === 0.5 ? 1e-9 * Math.max(1, Math.abs(expected)) : halfUnit;
    expect(typeof got).toBe('number');
    expect(Math.abs((got as number) - expected), `got ${got}, expected ${expected}`).toBeLessThanOrEqual(
      room,
    );
  } else if (expected !== null && typeof expected === 'object') {
    expect(Object.keys(got as object)).toEqual(Object.keys(expected));
    for (const [key, value] of Object.entries(expected)) {
      compare((got as Record<string, unknown>)[key], value, halfUnits);
    }
  } else {
    expect(got).toEqual(expected);
  }
}
