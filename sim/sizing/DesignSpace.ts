import { InputProblem } from '../common/InputProblem.ts';
import { MOST_OF_A_CODE, problemList } from '../common/problemList.ts';
import { chosen } from '../fitting/scenarioWithReadings.ts';
import { lampPrice } from '../lamp/partsList.ts';
import { countOf } from '../scenario/choices.ts';
import type { Choices, Scenario, ScenarioLamp } from '../scenario/Scenario.ts';
import { choiceKey, choiceProblem } from './choiceProblem.ts';
import type { Design } from './Design.ts';
import { DESIGN_PARTS, type SearchedSpace } from './designAt.ts';
import { partVariants } from './partVariants.ts';
import { spotVariants } from './spotVariants.ts';

/** All lamps that could be built, in all spots they may stand in. */
export interface DesignSpace extends SearchedSpace {
  scenario: Scenario;
  /** The lamp as the scenario states it. */
  present: ScenarioLamp;
}

/** More designs than are tried. */
const MOST_DESIGNS = 200_000;

/**
 * All designs that a scenario's choices make of one of its lamps, each section of it checked and settled once.
 *
 * in: scenario; wish: lamp, the present one, the scenario's first unless named; spot, where it stands, whatever the
 *   choices say of that; without it the lamp may stand in each spot of the choices, or in each of the scenario where they
 *   name none
 * throws: InputProblem where nothing may be chosen, too much, or parts that no choice can make
 */
export function designSpace(scenario: Scenario, wish: { lamp?: string; spot?: string } = {}): DesignSpace {
  const present = chosen('lamp', scenario.lamps, wish.lamp ?? scenario.lamps[0]!.name);
  const only = wish.spot === undefined ? undefined : chosen('spot', scenario.spots, wish.spot);
  const { choices = [] } = scenario;
  if (choices.length === 0) throw nothingToChoose(scenario);
  const inSpot = only === undefined ? choices : choices.filter(({ section }) => section !== 'spot');
  checkCount(scenario, inSpot);
  const list = problemList(MOST_OF_A_CODE);
  const note: typeof list.add = (kind, make) => list.add(kind, make);
  const spots = spotVariants(scenario, inSpot, only, note);
  const parts = Object.fromEntries(
    DESIGN_PARTS.map((part) => [part, partVariants(part, { scenario, present, choices, note })]),
  ) as unknown as DesignSpace['parts'];
  list.throwIfAny();
  const count = DESIGN_PARTS.reduce((product, part) => product * parts[part].length, spots.length);
  return { scenario, present, spots, parts, count };
}

function nothingToChoose({ file }: Scenario): InputProblem {
  return new InputProblem({
    code: 'SCENARIO_MISSING_KEY',
    file,
    field: 'choices',
    got: 'nothing that may be chosen',
    expected: 'choices: what may be bought or set, each key a value, a list or a range',
    fix: 'add choices: { capacitor: { capacitance_F: 100..1000 by E6 } } to the scenario, or whatever you may change.',
  });
}

function checkCount(scenario: Scenario, choices: Choices): void {
  const count = countOf(choices);
  if (count <= MOST_DESIGNS) return;
  const most = choices.toSorted((a, b) => b.values.length - a.values.length);
  const factors = most.filter(({ values }) => values.length > 1);
  throw new InputProblem(
    choiceProblem(scenario, most[0]!, {
      code: 'SCENARIO_OUT_OF_RANGE',
      got: `${count} designs: ${factors.map((choice) => `${choice.values.length} of ${choiceKey(choice)}`).join(' times ')}`,
      expected: `at most ${MOST_DESIGNS}`,
      fix: `name fewer values of ${factors.slice(0, 2).map(choiceKey).join(' and ')}, or settle some choices first and take those out.`,
    }),
  );
}

/** The lamp and a spot as the scenario states them, as a design in which nothing is chosen. */
export function presentDesign({ scenario, present }: DesignSpace, spotName: string): Design {
  const { section, settled } = present;
  const stated = scenario.spots.find(({ name }) => name === spotName);
  if (stated === undefined) throw new Error(`no spot ${spotName}`);
  return {
    index: -1,
    chosen: [],
    changed: [],
    spot: { ...stated, chosen: [], changed: [] },
    section,
    settled,
    price: lampPrice(section),
  };
}
