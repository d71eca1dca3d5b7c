import { partsList } from '../lamp/partsList.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { Design } from '../sizing/Design.ts';
import type { DesignSpace } from '../sizing/DesignSpace.ts';
import type { Nearest, Recommended, SizedDesign } from '../sizing/SizedDesign.ts';
import type { Batch, Sizing, SpaceAnswer } from '../sizing/sizeScenario.ts';
import { CAUTIONS } from '../trial/cautions.ts';
import { recordFacts } from '../trial/runAll.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { jsonText, published } from './json.ts';
import type { Program } from './program.ts';
import { type RecommendedName, recommendedOf } from './recommended.ts';

/**
 * The text of size.json, schema 1: what the designs of a scenario come to, without clock or absolute path, keys in a fixed
 * order; of designs that are neither recommended nor unbeaten only how many there were.
 *
 * in: sizing; program, what made it; files, SHA-256 (hexadecimal) of each file written beside it, by name
 * out: JSON text, two spaces of indent, ending in LF
 */
export function sizeJson(sizing: Sizing, program: Program, files: Readonly<Record<string, string>>): string {
  const { scenario, weather, answers, wishes, batches } = sizing;
  const partial = answers.some((answer) => answer.partial !== undefined);
  return jsonText(program, {
    ...(partial ? { partial: true } : {}),
    ...groundsData(scenario, weather, answers[0]!.space),
    budget: wishes.budget ?? null,
    must_keep: wishes.mustKeep ?? null,
    answers: answers.map((answer) => answerData(answer, answers.length > 1)),
    shopping: shoppingData(batches),
    files,
  });
}

/** What a sizing rests on. */
export function groundsData(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  { present }: DesignSpace,
) {
  return {
    seed: scenario.seed,
    scenario: { name: scenario.name, sha256: scenario.sha256, resolved: scenario.resolved },
    weather: weather === undefined ? null : recordFacts(weather),
    assumptions: scenario.assumptions,
    questions: scenario.questions,
    cautions: CAUTIONS,
    lamp: present.name,
    currency: scenario.currency ?? null,
  };
}

/** What batches of lamps need bought. */
export function shoppingData(batches: readonly Batch[]) {
  return batches.map(({ spot, named, list }) => ({
    spot: spot ?? null,
    for: named,
    ...(published(list) as object),
  }));
}

function answerData(answer: SpaceAnswer, several: boolean) {
  const { spot, designs, partial, present, front, steps, oneOrTwo } = answer;
  const recommended = Object.fromEntries(
    recommendedOf(answer, several).map(({ key, file, sized }) => [key, recommendedData(sized, file)]),
  ) as Partial<Record<RecommendedName, object>>;
  return {
    spot: spot ?? null,
    ...(partial === undefined ? {} : { partial: published(partial) }),
    // Which of them an earlier search had run is no part of the result.
    designs: published({
      all: designs.all,
      cannotBe: designs.cannotBe,
      ran: answer.sized.length,
      ruledOut: designs.ruledOut,
    }),
    present: present === undefined ? null : sizedData(present),
    cheapest: recommended.cheapest ?? null,
    nearest: recommended.nearest ?? null,
    brightest: recommended.brightest ?? null,
    least_change: recommended['least-change'] ?? null,
    front: front.map(sizedData),
    steps: steps.map(({ from, to, adds, mends }) => ({
      from: from.design.index,
      to: to.design.index,
      ...(published({ adds, mends }) as object),
    })),
    one_or_two:
      oneOrTwo === undefined
        ? null
        : { two: published(oneOrTwo.two), one: oneOrTwo.one === undefined ? null : sizedData(oneOrTwo.one) },
  };
}

function sizedData({ design, ...outcome }: SizedDesign) {
  const { nights, winters, keptWinters, failedNights, short_h, light_lm_h, smallestReserve_J } = outcome;
  const numbers = { nights, winters, keptWinters, failedNights, short_h, light_lm_h, smallestReserve_J };
  return designData(design, numbers);
}

/** A design, with what it comes to. */
export function designData({ index, spot, chosen, changed, price }: Design, numbers: object) {
  return {
    design: index,
    spot: spot.name,
    ...(published({ price, ...numbers }) as object),
    chosen: Object.fromEntries(chosen.map(({ key, value }) => [key, value])),
    changed,
  };
}

function recommendedData(sized: Recommended | Nearest, file: string) {
  const { design, withPoorParts, margin, verdict, flags } = sized;
  return {
    ...sizedData(sized),
    verdict,
    with_poor_parts: withPoorParts === undefined ? 'no generic part' : published(withPoorParts),
    margin: published(margin),
    ...('inTheWay' in sized ? { in_the_way: published(sized.inTheWay) } : {}),
    flags,
    ...builtData(design, file),
  };
}

/** What a design is built of, and the file of its scenario. */
export function builtData({ section, spot }: Design, file: string) {
  return { parts: partsList(section), lamp: section, stand: spot.section, file };
}
