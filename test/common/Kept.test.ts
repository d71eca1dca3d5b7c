import { describe, expect, it } from 'vitest';
import { Kept } from '../../sim/common/Kept.ts';

describe('what is kept', () => {
  it('is made once for equal values, and those last asked for stay', () => {
    const made: unknown[] = [];
    const kept = new Kept<object>(2);
    const of = (value: unknown) =>
      kept.of([value], () => {
        made.push(value);
        return { value };
      });
    const first = of({ a: 1 });
    of('b');
    expect(of({ a: 1 })).toBe(first);
    of('c');
    expect(of({ a: 1 })).toBe(first);
    of('b');
    expect(made).toEqual([{ a: 1 }, 'b', 'c', 'b']);
  });

  it('is gone on with apart in a copy', () => {
    const kept = new Kept<number>();
    kept.of([1], () => 1);
    const copy = kept.copy();
    expect(copy.of([1], () => 2)).toBe(1);
    copy.of([2], () => 2);
    expect(kept.of([2], () => 3)).toBe(3);
    expect(copy.empty().of([1], () => 4)).toBe(4);
  });
});
