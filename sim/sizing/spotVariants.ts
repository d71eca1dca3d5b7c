import type { Report } from '../common/InputProblem.ts';
import type { Choices, Json, Scenario, ScenarioSpot } from '../scenario/Scenario.ts';
import { spotSchema } from '../spot/schema.ts';
import { spotParams } from '../spot/spotParams.ts';
import { choiceKey, choiceProblem } from './choiceProblem.ts';
import type { SpotVariant } from './Design.ts';
import { chosenOf, combinationsOf, type Note } from './partVariants.ts';

/** Keys that a spot with light logged on the cell does without. */
const UNUSED_WITH_LOG = ['cell_tilt_deg', 'cell_bearing_deg', 'cell_height_m', 'cell_front'];

/**
 * The spots that a lamp may stand in, with every way its cell may lie there.
 *
 * in: scenario; choices; only, the spot where it is settled; note, takes what cannot be
 * out: the spots in the order of the choices, or of the scenario; the ways within each
 */
export function spotVariants(
  scenario: Scenario,
  choices: Choices,
  only: ScenarioSpot | undefined,
  note: Note,
): SpotVariant[] {
  const where = choices.find(({ section }) => section === 'spot');
  const stand = choices.filter(({ section }) => section === 'stand');
  const names = where?.values ?? (only ? [only.name] : scenario.spots.map(({ name }) => name));
  return names.flatMap((name) => {
    const stated = scenario.spots.find((spot) => spot.name === name)!;
    const inSpot = where === undefined ? [] : chosenOf([where], [name]);
    const moved = where !== undefined && name !== where.values[0] ? ['spot'] : [];
    return combinationsOf(stand).flatMap((values): SpotVariant[] => {
      const made = stand.length === 0 ? stated : stoodAs(stated, stand, values, scenario, note);
      if (made === undefined) return [];
      const differs = stand.filter(
        ({ key }) => made.section[key as 'cell_tilt_deg'] !== stated.section[key as 'cell_tilt_deg'],
      );
      return [
        {
          chosen: [...inSpot, ...chosenOf(stand, values)],
          name: stated.name,
          section: made.section,
          params: made.params,
          changed: [...moved, ...differs.map(choiceKey)],
        },
      ];
    });
  });
}

/** A spot whose cell lies as chosen; undefined after problems. */
function stoodAs(
  { name, section }: ScenarioSpot,
  stand: Choices,
  values: readonly Json[],
  scenario: Scenario,
  note: Note,
): Pick<SpotVariant, 'section' | 'params'> | undefined {
  const report: Report = ({ code, path, got, expected, fix }) => {
    const at = stand.find(({ key }) => key === path[0]) ?? stand[0]!;
    note(code, () => choiceProblem(scenario, at, { code, got: `${got}, on spot ${name}`, expected, fix }));
  };
  const idle = section.light_on_cell && stand.find(({ key }) => UNUSED_WITH_LOG.includes(key));
  if (idle !== undefined) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: [idle.key],
      got: `a choice of ${idle.key} where light was logged on the cell itself`,
      expected: 'a spot whose light is computed: the log holds only as the cell lay',
      fix: 'take the key away, or choose among spots without light_on_cell.',
    });
    return undefined;
  }
  const chosen = stand.map(({ key }, k) => [key, values[k] ?? undefined]);
  const stood = spotSchema.parse({ ...section, ...Object.fromEntries(chosen) });
  const params = spotParams(stood, report);
  return params && { section: stood, params };
}
