import { InputProblem, type Problem } from '../common/InputProblem.ts';
import { fewProblems } from '../common/problemList.ts';
import { partsList } from '../lamp/partsList.ts';
import type { LampSection } from '../lamp/schema.ts';
import { choiceProblem } from './choiceProblem.ts';
import type { DesignSpace } from './DesignSpace.ts';
import { DESIGN_PARTS } from './designAt.ts';

/**
 * Refuses a space in which a part that may have to be bought has no price, or one price whatever its size.
 *
 * in: space
 * throws: InputProblem that names each such part, and where its price is to be written
 */
export function refuseUnpriced(space: DesignSpace): void {
  const problems = DESIGN_PARTS.flatMap((part) => [
    ...withoutPrice(space, part),
    ...onePriceForAll(space, part),
  ]);
  if (problems.length > 0) throw new InputProblem(fewProblems(problems));
}

function withoutPrice(space: DesignSpace, part: keyof LampSection): Problem[] {
  // All else is at hand, so that what is left is of this part.
  const others = { ...space.present.section };
  for (const other of DESIGN_PARTS)
    if (other !== part && other !== 'schedule') others[other] = { ...others[other], price: 0 } as never;
  others.capacitor = { ...others.capacitor, limiter: undefined };
  // One of a kind and several of it are one problem.
  const lacking = new Map<string, { name: string; named: string | undefined }>();
  for (const { section } of space.parts[part]) {
    const named = (section as { part?: string }).part;
    for (const { part: kind, name, cost } of partsList({ ...others, [part]: section })) {
      const key = `${kind} ${named}`;
      if (cost === undefined && !lacking.has(key)) lacking.set(key, { name, named });
    }
  }
  return [...lacking.values()].map(({ name, named }) =>
    placed(space, part, {
      code: 'SCENARIO_MISSING_KEY',
      got: `no price of ${name}`,
      expected: 'a price of every part that may have to be bought',
      fix: `add price: to it ${whereOf(space, part, named)}, or in_drawer: where it is at hand.`,
    }),
  );
}

/** Where a part's price is written. */
function whereOf(
  { scenario, present }: DesignSpace,
  part: keyof LampSection,
  named: string | undefined,
): string {
  const isOwn = named !== undefined && part !== 'schedule' && scenario.shelf[part][named]?.own === true;
  return isOwn ? `in your parts file, parts.${part}.${named}` : `in lamps.${present.name}.${part}`;
}

/** A capacitance that is chosen freely changes what the capacitor costs. */
function onePriceForAll(space: DesignSpace, part: keyof LampSection): Problem[] {
  const sizes = space.scenario.choices?.find(
    ({ section, key }) => section === part && key === 'capacitance_F',
  );
  const { price, price_per_F } = space.present.section.capacitor;
  if (sizes === undefined || sizes.values.length < 2 || price === undefined || price_per_F !== undefined)
    return [];
  return [
    choiceProblem(space.scenario, sizes, {
      code: 'SCENARIO_MISSING_KEY',
      got: `one price, ${price}, for ${sizes.values.length} capacitances`,
      expected: 'a price that grows with the capacitance',
      fix: 'add price_per_F: beside price (what each farad of one part adds), or choose among parts with a price each.',
    }),
  ];
}

function placed(
  { scenario, present }: DesignSpace,
  part: keyof LampSection,
  problem: Pick<Problem, 'code' | 'got' | 'expected' | 'fix'>,
): Problem {
  const own = scenario.choices?.filter(({ section }) => section === part) ?? [];
  const at = own.find(({ key }) => key === 'part') ?? own[0];
  if (at !== undefined) return choiceProblem(scenario, at, problem);
  return { ...problem, file: scenario.file, field: `lamps.${present.name}.${part}` };
}
