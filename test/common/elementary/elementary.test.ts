import { describe, expect, it } from 'vitest';
import { acos, asin, atan2 } from '../../../sim/common/elementary/atan2.ts';
import { exp, expm1 } from '../../../sim/common/elementary/exp.ts';
import { hypot } from '../../../sim/common/elementary/hypot.ts';
import { log, log1p, log10 } from '../../../sim/common/elementary/log.ts';
import { power, powerOfTen } from '../../../sim/common/elementary/power.ts';
import { cos, sin, tan } from '../../../sim/common/elementary/sin.ts';
import { randomStream } from '../../../sim/common/random.ts';
import { EXACT, unitsOff } from './exactFunctions.ts';

const OWN = { exp, expm1, log, log1p, log10, power, sin, cos, tan, asin, acos, atan2, hypot };
type Name = keyof typeof OWN;

const random = randomStream(1, 'elementary');
const between = (low: number, high: number) => () => low + (high - low) * random.uniform();
const sized = (low: number, high: number) => () => 10 ** between(Math.log10(low), Math.log10(high))();
const signed = (of: () => number) => () => (random.uniform() < 0.5 ? -1 : 1) * of();
/** Multiples of a right angle, as near as a double comes: nearly all of it is turned away. */
const rights = () => Math.round(between(-6e5, 6e5)()) * (Math.PI / 2);
const nearOne = () => 1 - sized(1e-15, 0.1)();

/** Arguments of each, everyday ones and hard ones, and what is promised, in units of the last place. */
const CASES: [Name, number, (() => number)[][]][] = [
  ['exp', 0.52, [[between(-40, 40)], [between(-707, 709)], [between(-0.01, 0.01)]]],
  ['expm1', 1, [[between(-40, 40)], [between(-2, 2)], [between(-0.03, 0.03)], [signed(sized(1e-12, 0.1))]]],
  ['log', 0.52, [[sized(1e-300, 1e300)], [between(0.7, 1.5)], [between(0.99, 1.01)], [nearOne]]],
  [
    'log1p',
    0.6,
    [[signed(sized(1e-12, 0.5))], [sized(1e-3, 1e3)], [between(-0.02, 0.02)], [between(-0.99, 0)]],
  ],
  ['log10', 0.52, [[sized(1e-300, 1e300)], [between(0.9, 1.1)]]],
  [
    'power',
    0.6,
    [
      [sized(1e-5, 1e5), between(-20, 20)],
      [sized(1e-20, 1e20), between(-14, 14)],
    ],
  ],
  [
    'sin',
    0.8,
    [[between(-0.8, 0.8)], [between(-10, 10)], [between(-1e6, 1e6)], [sized(1e6, 1e300)], [rights]],
  ],
  [
    'cos',
    0.8,
    [[between(-0.8, 0.8)], [between(-10, 10)], [between(-1e6, 1e6)], [sized(1e6, 1e300)], [rights]],
  ],
  ['tan', 0.8, [[between(-0.8, 0.8)], [between(-10, 10)], [between(-1e6, 1e6)], [rights]]],
  ['asin', 1, [[between(-1, 1)], [nearOne], [signed(sized(1e-10, 0.1))]]],
  ['acos', 1, [[between(-1, 1)], [nearOne], [signed(sized(1e-10, 0.1))]]],
  [
    'atan2',
    0.8,
    [
      [between(-1, 1), between(-1, 1)],
      [signed(sized(1e-8, 1)), signed(sized(1e-8, 1))],
      [signed(sized(1e-50, 1e-40)), signed(sized(1e-50, 1e-40))],
    ],
  ],
  [
    'hypot',
    0.6,
    [
      [sized(1e-3, 1), sized(1e-3, 1)],
      [sized(1e100, 1e102), sized(1e100, 1e102)],
    ],
  ],
];

describe('the elementary functions', () => {
  it.each(CASES)('%s is within %f units of the last place of the exact value', (name, most, arguments_) => {
    const own = OWN[name] as (...values: number[]) => number;
    const exact = EXACT[name] as (...values: number[]) => bigint;
    for (const makes of arguments_)
      for (let k = 0; k < 60; k++) {
        const values = makes.map((make) => make());
        expect(unitsOff(own(...values), exact(...values)), `${name}(${values})`).toBeLessThan(most);
      }
  });

  it('are what the language has at the edges: zeros of either sign, infinities, NaN, the least and the greatest', () => {
    const { POSITIVE_INFINITY: endless, MAX_VALUE: largest, MIN_VALUE: least } = Number;
    const sizes = [
      0,
      least,
      1e-310,
      2.3e-308,
      1e-20,
      0.5,
      1,
      2,
      3,
      709.7,
      709.79,
      745.1,
      745.2,
      1e22,
      1e308,
      largest,
      endless,
    ];
    const edges = [...sizes, ...sizes.map((size) => -size), Number.NaN];
    const near = (ours: number, theirs: number, of: string) => {
      if (Object.is(ours, theirs)) return;
      const most = Math.max(least, 5e-16 * Math.abs(theirs));
      expect(Math.abs(ours - theirs), `${of}: ${ours}, ${theirs}`).toBeLessThanOrEqual(most);
      if (theirs === 0) expect(Object.is(ours, theirs), of).toBe(true);
    };
    for (const x of edges) {
      for (const name of [
        'exp',
        'expm1',
        'log',
        'log1p',
        'log10',
        'sin',
        'cos',
        'tan',
        'asin',
        'acos',
      ] as const)
        near(OWN[name](x), Math[name](x), `${name}(${x})`);
      for (const y of edges) {
        near(power(x, y), x ** y, `power(${x}, ${y})`);
        near(atan2(x, y), Math.atan2(x, y), `atan2(${x}, ${y})`);
        near(hypot(x, y), Math.hypot(x, y), `hypot(${x}, ${y})`);
      }
    }
  });

  it('give whole results exactly', () => {
    for (let n = -300; n <= 300; n++) {
      expect(log10(powerOfTen(n))).toBe(n);
      expect(power(2, n)).toBe(n < 0 ? 1 / Number(1n << BigInt(-n)) : Number(1n << BigInt(n)));
    }
    for (let n = 0; n <= 15; n++) expect(power(10, n)).toBe(powerOfTen(n));
    expect(hypot(3, 4, 12)).toBe(13);
    expect(hypot()).toBe(0);
    expect(acos(-1)).toBe(Math.PI);
  });

  it('of exponential and logarithm rise with their argument, across the rows of their tables too', () => {
    for (let row = -2000; row <= 2000; row++) {
      const edge = ((row + 0.5) * Math.LN2) / 256;
      expect(exp(edge + 1e-12)).toBeGreaterThan(exp(edge - 1e-12));
      const word = 1 + (row + 2001) / 4096;
      expect(log(word * (1 + 1e-15))).toBeGreaterThan(log(word * (1 - 1e-15)));
    }
  });
});
