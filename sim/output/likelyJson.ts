import type { LikelyDesign, LikelyLamp } from '../sizing/winters/LikelyLamp.ts';
import type { LikelySizing } from '../sizing/winters/sizeByWinters.ts';
import { jsonText, published } from './json.ts';
import type { Program } from './program.ts';
import { type RecommendedName, recommendedOf } from './recommended.ts';
import { builtData, designData, groundsData, shoppingData } from './sizeJson.ts';

/**
 * The text of size.json of a sizing by made winters, schema 1: the odds of each design that is told of are those of the
 * summary.json that `run --winters` writes of it.
 *
 * in: sizing; program, what made it; files, SHA-256 (hexadecimal) of each file written beside it, by name
 * out: JSON text, two spaces of indent, ending in LF
 */
export function likelyJson(
  sizing: LikelySizing,
  program: Program,
  files: Readonly<Record<string, string>>,
): string {
  const { scenario, weather, answers, wishes, batches, basis, learnedWinters, way } = sizing;
  return jsonText(program, {
    ...(answers.some(({ partial }) => partial !== undefined) ? { partial: true } : {}),
    ...groundsData(scenario, weather, answers[0]!.space),
    must_keep: wishes.mustKeep,
    winters: { made: wishes.winters, basis, learned: learnedWinters, way },
    answers: answers.map((answer) => answerData(answer, answers.length > 1)),
    shopping: shoppingData(batches),
    files,
  });
}

function answerData(answer: LikelySizing['answers'][number], several: boolean) {
  const { spot, designs, runs, partial, present } = answer;
  const recommended = Object.fromEntries(
    recommendedOf(answer, several).map(({ key, file, sized }) => [key, recommendedData(sized, file)]),
  ) as Partial<Record<RecommendedName, object>>;
  return {
    spot: spot ?? null,
    ...(partial === undefined ? {} : { partial: partialData(partial) }),
    designs: published({ ...designs, runs }),
    present: present === undefined ? null : likelyData(present),
    cheapest: recommended.cheapest ?? null,
    nearest: recommended.nearest ?? null,
  };
}

function partialData({ settled, all, open }: NonNullable<LikelySizing['answers'][number]['partial']>) {
  const { design, looked, failed } = open ?? {};
  const data = design && designData(design, { lookedWinters: looked, failedWinters: failed });
  return { settled, all, open: data ?? null };
}

function likelyData({ design, odds, failed }: LikelyDesign) {
  return { ...designData(design, { failedWinters: failed }), odds: published(odds, ODDS_DIGITS) };
}

/** As in summary.json. */
const ODDS_DIGITS = 6;

function recommendedData(sized: LikelyLamp, file: string) {
  const { design, mayFail, withPoorParts, flags } = sized;
  return {
    ...likelyData(sized),
    winters_that_may_fail: mayFail,
    with_poor_parts: withPoorParts === undefined ? 'no generic part' : published(withPoorParts, ODDS_DIGITS),
    flags,
    ...builtData(design, file),
  };
}
