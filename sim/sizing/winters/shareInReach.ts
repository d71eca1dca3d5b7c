import { InputProblem } from '../../common/InputProblem.ts';
import { highestLow, type WinterGrounds } from '../../trial/odds.ts';
import { LEAST_WINTERS } from '../../trial/WinterMaker.ts';

/**
 * The most of made winters that may fail where the lower end of a chance is to reach a share, at best.
 *
 * in: share; grounds
 * out: 0 or more, less than all
 * throws: InputProblem where not even a lamp that keeps all of them shows such a share, with what would do
 */
export function mostFailing(share: number, grounds: WinterGrounds): number {
  if (highestLow(0, grounds) < share) throw outOfReach(share, grounds);
  let failing = 0;
  while (failing + 1 < grounds.made && highestLow(failing + 1, grounds) >= share) failing++;
  return failing;
}

/** No record is longer. */
const MOST_ON_FILE = 200;

function outOfReach(share: number, grounds: WinterGrounds): InputProblem {
  const { made, learnedWinters, learnsAgain } = grounds;
  const shown = (low: number) => (Math.floor(100 * low) / 100).toFixed(2);
  const boundless = { ...grounds, made: Number.MAX_SAFE_INTEGER };
  const onFile = learnsAgain
    ? `a record of ${learnedWinters} winters`
    : `a climate worth ${learnedWinters} winters`;
  const best = `--must-keep ${shown(highestLow(0, boundless))} at most`;
  const all = 'the lower end of the chance, of a lamp that keeps every one of them,';
  const problem = { code: 'USAGE', file: 'command line' } as const;
  if (highestLow(0, boundless) >= share) {
    const enough = firstThat(made, (winters) => highestLow(0, { ...grounds, made: winters }) >= share);
    return new InputProblem({
      ...problem,
      got: `--must-keep ${share} with --winters ${made}`,
      expected: `more made winters: ${all} is ${shown(highestLow(0, grounds))} with ${made}`,
      fix: `--winters ${enough} at least; with 300 lamps that keep less than all of them may do too.`,
    });
  }
  const years = firstThat(
    learnsAgain ? learnedWinters : LEAST_WINTERS,
    (winters) => highestLow(0, { ...boundless, learnedWinters: winters, learnsAgain: true }) >= share,
  );
  const more =
    years === undefined
      ? '; no record shows more'
      : `, or a record of ${years} winters or more (--weather FILE ...)`;
  return new InputProblem({
    ...problem,
    got: `--must-keep ${share} with ${onFile}`,
    expected: `a share that it can show: ${all} is ${shown(highestLow(0, boundless))}, however many are made`,
    fix: `${best}${more}.`,
  });
}

function firstThat(from: number, holds: (count: number) => boolean): number | undefined {
  for (let count = from; count <= MOST_ON_FILE; count++) if (holds(count)) return count;
  return undefined;
}
