import { expect, it } from 'vitest';
import { lampSchema } from '../../sim/lamp/schema.ts';
import type { LampInput } from '../lamp/makeLamp.ts';
import { cases, type Fact } from './practice.truth.ts';

/** By how much of itself a number is moved. */
const NUDGE = 1e-3;

type Path = readonly (string | number)[];

/** Every number that is not 0, by its path. */
function numbersIn(value: unknown, path: Path = []): { path: Path; value: number }[] {
  if (typeof value === 'number') return value === 0 ? [] : [{ path, value }];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, [...path, key]));
}

function moved(lamp: LampInput, path: Path, value: number): LampInput {
  const copy = structuredClone(lamp);
  const holder = path.slice(0, -1).reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], copy);
  (holder as Record<string, number>)[path.at(-1)!] = value;
  return copy;
}

interface Mover {
  key: string;
  /** Change of the fact over that of the number. */
  slope: number;
}

/** Numbers put in, defaults too, that move a fact. */
function movers(fact: Fact): Mover[] {
  const lamp = lampSchema.parse(fact.lamp);
  const got = fact.of(lamp);
  return numbersIn(lamp).flatMap(({ path, value }) => {
    try {
      const change = fact.of(moved(lamp, path, value * (1 + NUDGE))) - got;
      // Less than a thousandth of the nudge, as shares, is rounding; where the fact is gone, the row it stood in is.
      if (!(Math.abs(change / got) >= NUDGE / 1000)) return [];
      return [{ key: path.join('.'), slope: change / (value * NUDGE) }];
    } catch {
      return []; // a count, or a value at its bound
    }
  });
}

/** Whether what moves a fact is one number, as it stands or in another unit, with or without something added. */
function givenBack([only, ...others]: readonly Mover[]): boolean {
  if (only === undefined || others.length > 0) return false;
  const power = Math.log10(Math.abs(only.slope));
  return Math.abs(power - Math.round(power)) < 1e-3;
}

const inputs = cases.filter(({ status }) => status === 'input');
const checks = cases.filter(({ status }) => status !== 'input');

it.each(checks)('$what: is moved by what is put in, and is no single number of it', (fact) => {
  const found = movers(fact);
  expect(found.length).toBeGreaterThan(0);
  expect(givenBack(found), JSON.stringify(found)).toBe(false);
});

it.each(inputs)('$what: is called an input because it is one', (fact) => {
  const found = movers(fact);
  expect(givenBack(found), JSON.stringify(found)).toBe(true);
});
