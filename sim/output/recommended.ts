import { basename, resolve } from 'node:path';
import type { Scenario } from '../scenario/Scenario.ts';
import type { Design } from '../sizing/Design.ts';
import type { DesignSpace } from '../sizing/DesignSpace.ts';
import { designScenario } from '../sizing/designScenario.ts';

/** What a design can be recommended as; begins the name of its scenario's file. */
export const RECOMMENDED = ['cheapest', 'nearest', 'brightest', 'least-change'] as const;
export type RecommendedName = (typeof RECOMMENDED)[number];

/** Name of the file that holds the scenario of a recommended design. */
export function recommendedFile(key: RecommendedName, spot: string | undefined): string {
  return `${key}${spot === undefined ? '' : `-${spot}`}.yaml`;
}

/** What is recommended of one spot. */
interface Recommending<Sized> {
  spot: string | undefined;
  cheapest?: Sized | undefined;
  nearest?: Sized | undefined;
  brightest?: Sized | undefined;
  leastChange?: Sized | undefined;
}

/**
 * The recommended designs of an answer that get a scenario of their own.
 *
 * in: answer; several, whether there are answers of other spots beside it
 */
export function recommendedOf<Sized>(
  { spot, cheapest, nearest, brightest, leastChange }: Recommending<Sized>,
  several: boolean,
): { key: RecommendedName; file: string; sized: Sized }[] {
  const all = { cheapest, nearest, brightest, 'least-change': leastChange };
  return RECOMMENDED.flatMap((key) => {
    const sized = all[key];
    return sized === undefined
      ? []
      : [{ key, file: recommendedFile(key, several ? spot : undefined), sized }];
  });
}

/** A scenario's name is no longer. */
const LONGEST_NAME = 64;

/**
 * A scenario of each recommended design, which `run` runs to the same.
 *
 * in: scenario; answers, of its spots; folder that they are to lie in
 */
export function recommendedScenarios(
  scenario: Scenario,
  answers: readonly (Recommending<{ design: Design }> & { space: DesignSpace })[],
  folder: string,
): { file: string; text: string }[] {
  return answers.flatMap((answer) =>
    recommendedOf(answer, answers.length > 1).map(({ file, sized }) => {
      const name = `${scenario.name}-${basename(file, '.yaml')}`
        .slice(0, LONGEST_NAME)
        .replace(/[\s.]+$/, '');
      const to = { folder: resolve(folder), name };
      return { file, text: designScenario(answer.space, sized.design, to) };
    }),
  );
}
