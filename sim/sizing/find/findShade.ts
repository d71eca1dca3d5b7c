import { InputProblem } from '../../common/InputProblem.ts';
import { answerOf, type FindGrounds, PERCENT_STEPS, percentSteps } from './answerOf.ts';
import type { Found } from './Found.ts';

/** From deep shade to more light than the spot has, which a better place may have. */
const [LEAST, MOST] = [0.02, 5];

/**
 * The deepest shade in which the lamp still keeps every night: the least share of all the light on its cell, the same at
 * all hours; above 1 where it needs more than the spot has.
 *
 * in: grounds
 * throws: SCENARIO_CONFLICT where the light was logged on the cell
 */
export function findShade(grounds: FindGrounds): Found {
  const { lean, spot, lamp } = grounds;
  if (spot.section.light_on_cell !== undefined) throw loggedLight(spot.name);
  const asStated = lean.premises(spot, lamp);
  return answerOf(
    {
      ...PERCENT_STEPS,
      find: 'shade',
      what: 'share of the light of this spot',
      key: spot.section.shading === undefined ? 'shading.factor' : undefined,
      unit: '1',
      end: 'least',
      stated: 1,
      values: percentSteps(1, LEAST, MOST),
      premises: (lightShare) => ({ ...asStated, lightShare }),
    },
    grounds,
  );
}

function loggedLight(spot: string): InputProblem {
  return new InputProblem({
    code: 'SCENARIO_CONFLICT',
    field: `spots.${spot}.light_on_cell`,
    got: '--find shade on a spot whose light was logged on the cell',
    expected: 'a spot whose light is computed: a log holds all the shade there was',
    fix: 'describe the spot by horizon or obstacles, or name another with --spot.',
  });
}
