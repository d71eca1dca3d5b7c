import type { Nearest, Recommended } from '../sizing/SizedDesign.ts';
import type { SpaceAnswer } from '../sizing/sizeScenario.ts';

/** What a design can be recommended as; begins the name of its scenario's file. */
export const RECOMMENDED = ['cheapest', 'nearest', 'brightest', 'least-change'] as const;
export type RecommendedName = (typeof RECOMMENDED)[number];

/** Name of the file that holds the scenario of a recommended design. */
export function recommendedFile(key: RecommendedName, spot: string | undefined): string {
  return `${key}${spot === undefined ? '' : `-${spot}`}.yaml`;
}

/**
 * The recommended designs of an answer that get a scenario of their own.
 *
 * in: answer; several, whether there are answers of other spots beside it
 */
export function recommendedOf(
  { spot, cheapest, nearest, brightest, leastChange }: SpaceAnswer,
  several: boolean,
): { key: RecommendedName; file: string; sized: Recommended | Nearest }[] {
  const all = { cheapest, nearest, brightest, 'least-change': leastChange };
  return RECOMMENDED.flatMap((key) => {
    const sized = all[key];
    return sized === undefined
      ? []
      : [{ key, file: recommendedFile(key, several ? spot : undefined), sized }];
  });
}
