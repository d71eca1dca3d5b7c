import { exportFile } from './exports.ts';
import { type Outcome, outcomeOf } from './outcome.ts';

/** What came of the exports of some seeds. */
export interface Share {
  /** Each that was not read rightly in the end, in words. */
  failed: string[];
  /** Those of one outcome, all or clean ones, over all of theirs. */
  part: (outcomes: readonly Outcome['outcome'][], only?: 'clean') => number;
}

export async function shareOf(first: number, count: number): Promise<Share> {
  const all: (Outcome & { kind: string; words: string })[] = [];
  for (let seed = first; seed < first + count; seed++) {
    const file = exportFile(seed);
    all.push({
      ...(await outcomeOf(file)),
      kind: file.kind,
      words: `seed ${seed}, ${file.kind}: ${file.traits.join(', ')}`,
    });
  }
  return {
    failed: all
      .filter(({ outcome }) => outcome !== 'right' && outcome !== 'mended')
      .map(({ outcome, words, note }) => `${outcome}, ${words}\n${note}`),
    part: (outcomes, only) => {
      const some = all.filter(({ kind }) => only === undefined || kind === only);
      return some.filter(({ outcome }) => outcomes.includes(outcome)).length / some.length;
    },
  };
}
