import { expect } from 'vitest';
import { InputProblem } from '../../sim/common/InputProblem.ts';

/** What no maker should read: another program's words, or a value that never came to be. */
const NONSENSE = /\[object |undefined|\bNaN\b|\bInfinity\b|this is a defect|\n\s+at .*:\d+:\d+/;

/**
 * Throws unless an error is a refusal that a maker can read.
 * in: error, as caught; given, the words of the input, which a message may repeat
 */
export function expectRefusal(error: unknown, given = ''): void {
  if (!(error instanceof InputProblem)) throw error;
  for (const { code, got = '', expected = '', fix = '' } of error.problems) {
    expect(code).toMatch(/^[A-Z]+(_[A-Z]+)+$|^USAGE$/);
    for (const text of [got, expected, fix]) {
      const nonsense = NONSENSE.exec(text)?.[0];
      if (nonsense !== undefined && !given.includes(nonsense)) throw new Error(`a refusal says "${text}"`);
    }
  }
}
