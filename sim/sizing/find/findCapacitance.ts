import { InputProblem } from '../../common/InputProblem.ts';
import { preferredNumbers } from '../../common/preferredNumbers.ts';
import type { CapacitorSection } from '../../lamp/capacitor/schema.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import { answerOf, type FindGrounds, PERCENT_STEPS, percentSteps } from './answerOf.ts';
import type { Found } from './Found.ts';

/** Shares of the stated capacitance that are looked at. */
const [LEAST, MOST] = [1 / 16, 16];
/** Sizes above the answer that are tried for the next that is sold: not more than ten times. */
const DECADE = 10;

/**
 * The least capacitance of one capacitor with which the lamp keeps its promise on every night, as many in parallel and in
 * series as it has, all else of it as stated (leakage and resistance too); and the next preferred numbers that do.
 *
 * in: grounds
 * throws: SCENARIO_CONFLICT where the capacitor is given by model parameters
 */
export function findCapacitance(grounds: FindGrounds): Found {
  const { lean, spot, lamp } = grounds;
  const asStated = lean.premises(spot, lamp);
  const { capacitor } = lamp.settled;
  const stated = capacitor.capacitance_F;
  if (capacitor.raw !== undefined || stated === undefined) throw rawCapacitor(lamp.name);
  return answerOf(
    {
      ...PERCENT_STEPS,
      find: 'capacitance',
      what: 'capacitance of one capacitor',
      key: 'capacitor.capacitance_F',
      unit: 'F',
      end: 'least',
      stated,
      values: percentSteps(stated, LEAST, MOST),
      premises: (capacitance_F) => ({
        ...asStated,
        lamp: { ...lamp.settled, capacitor: { ...capacitor, capacitance_F } },
      }),
      preferred: (from) =>
        (['E6', 'E12'] as const).map((series) => ({
          series,
          values: preferredNumbers(series, from, DECADE * from),
        })),
      notes: [...bankWords(capacitor), ...startWords(grounds.scenario)],
    },
    grounds,
  );
}

function bankWords({ parallel, series }: CapacitorSection): string[] {
  if (parallel * series === 1) return [];
  return [`of each of the ${parallel * series} capacitors, ${parallel} in parallel and ${series} in series`];
}

/** A record that begins with a stated voltage gives a larger bank more to begin with. */
function startWords({ start }: Scenario): string[] {
  if (typeof start === 'string') return [];
  return [
    `whatever its size it begins at the stated ${start.capacitor_V} V, so a larger one with more charge`,
  ];
}

function rawCapacitor(lamp: string): InputProblem {
  return new InputProblem({
    code: 'SCENARIO_CONFLICT',
    field: `lamps.${lamp}.capacitor.raw`,
    got: '--find capacitance of a capacitor that is given by its model parameters',
    expected: 'one given by its datasheet, whose capacitance can be another with all else as it is',
    fix: 'state capacitance_F and leakage_uA in place of raw, or name another lamp with --lamp.',
  });
}
