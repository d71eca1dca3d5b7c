import type { ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { overWinters } from '../statistics/overWinters.ts';
import { runNights } from '../trial/runTrial.ts';
import { agedLamp, NEW } from './agedLamp.ts';
import { type LampLife, type LifeTerms, lampLife, type WornPart } from './lampLife.ts';

/** The parts in the order in which one would make them new. */
const WORN_PARTS: readonly WornPart[] = ['cover', 'capacitor', 'led', 'cell'];

/** What ends a promise, and what a new part would do. */
export interface LifeEnd {
  /** The first winter that breaks the promise. */
  winter: number;
  /** Nights of that winter that fail with one part new, all others as old as they are; fewest first. */
  withNew: { part: WornPart; failedNights: number }[];
  /** The part that ends it: the one that leaves fewest failed nights when made new; undefined where none leaves fewer. */
  by: WornPart | undefined;
  /** That part made new before that winter. */
  renewed:
    | {
        keeps: boolean /** The next winter that breaks; undefined where none does. */;
        breaks: number | undefined;
      }
    | undefined;
}

/**
 * What ends a lamp's promise.
 *
 * in: life, that breaks it; lamp; spot; lights and terms as it was run with
 * out: undefined where the promise is kept through all its winters
 * throws: as `runTrial`
 */
export function lifeEnd(
  life: LampLife,
  lamp: ScenarioLamp,
  spot: ScenarioSpot,
  lights: readonly [SpotLight, ...SpotLight[]],
  terms: LifeTerms,
): LifeEnd | undefined {
  const { breaks: winter } = life;
  if (winter === undefined) return undefined;
  const { age, failedNights: before } = life.winters[winter - 1]!;
  const withNew = WORN_PARTS.map((part) => {
    const aged = agedLamp(lamp.params, { ...age, [part]: NEW[part] });
    const winters = lights.flatMap((light) => runNights(aged, light, terms).statistics.winters);
    const all = overWinters(winters);
    return { part, failedNights: all.failedNights / all.winters.length };
  }).sort((one, other) => one.failedNights - other.failedNights);
  const [best] = withNew;
  if (winter === 1 || best!.failedNights >= before)
    return { winter, withNew, by: undefined, renewed: undefined };
  const by = best!.part;
  const renewals = [...(terms.renewals ?? []), { winter, part: by }];
  const { winters } = lampLife(lamp, spot, lights, { ...terms, renewals });
  const broken = winters.slice(winter - 1).find((each) => each.broken >= 0.5)?.winter;
  return { winter, withNew, by, renewed: { keeps: broken !== winter, breaks: broken } };
}
