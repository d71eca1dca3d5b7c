import { InputProblem, type Problem } from '../../common/InputProblem.ts';
import type { Refused } from './LiveRun.ts';

/** What is made of values; or why they cannot be, in words, where an InputProblem says so. */
export function unlessRefused<Made>(make: () => Made): Made | Refused {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof InputProblem)) throw error;
    return { refused: error.problems.map(refusalWords).join(' ') };
  }
}

function refusalWords({ field, got, expected, fix }: Problem): string {
  const where = field === undefined ? '' : `${field}: `;
  return `${where}${got}, expected ${expected}.${fix === undefined ? '' : ` Fix: ${fix.replace(/\.?$/, '.')}`}`;
}
