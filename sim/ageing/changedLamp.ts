import { unlessReported, type ValueProblem } from '../common/InputProblem.ts';
import { USUAL_LIMITER } from '../lamp/capacitor/usualLimiter.ts';
import { checkLamp } from '../lamp/checkLamp.ts';
import { driverLaw } from '../lamp/driver/step.ts';
import { lampParams } from '../lamp/params.ts';
import type { LampSection } from '../lamp/schema.ts';
import type { ScenarioLamp } from '../scenario/Scenario.ts';
import type { YearStart } from '../year/simulateYear.ts';

/** One value of a lamp that life hangs on, other than stated. */
export interface ChangedLamp {
  what: 'limit' | 'led-current' | 'capacitors';
  /** Volts of the bank; times the current drawn; parts in parallel. */
  value: number;
}

/**
 * A lamp with one such value changed.
 *
 * in: lamp; changed; start, that it runs from
 * out: the lamp, or why none can have that value
 */
export function changedLamp(
  lamp: ScenarioLamp,
  changed: ChangedLamp,
  start: YearStart,
): { lamp: ScenarioLamp } | { cannotBe: string } {
  const { rated_V, series } = lamp.section.capacitor;
  if (changed.what === 'limit' && changed.value > rated_V * series + 1e-9)
    return { cannotBe: `above the ${rated_V * series} V that the capacitor is rated for` };
  const cutoff_V = lamp.section.driver.cutoff_V;
  if (changed.what === 'limit' && changed.value <= cutoff_V)
    return { cannotBe: `not above the ${cutoff_V} V at which the driver stops` };
  const keys = keysOf(lamp, changed);
  const settled = withKeys(lamp.settled, keys);
  const problems: ValueProblem[] = [];
  const params = unlessReported(
    (problem) => problems.push(problem),
    (refuse) => {
      const made = lampParams(settled, refuse);
      if (made) checkLamp(made, refuse, typeof start === 'string' ? undefined : start.capacitor_V);
      return made;
    },
  );
  if (params === undefined) return { cannotBe: problems[0]!.got };
  return { lamp: { ...lamp, section: withKeys(lamp.section, keys), settled, params } };
}

type Keys = Partial<Record<'capacitor' | 'driver', object>>;

function keysOf({ section, settled }: ScenarioLamp, { what, value }: ChangedLamp): Keys {
  switch (what) {
    case 'limit': {
      const { limiter } = section.capacitor;
      return {
        capacitor: { limiter: { ...(limiter ?? USUAL_LIMITER), at_V: value } },
      };
    }
    case 'led-current':
      return {
        driver: driverLaw(settled.driver)
          .times(value)
          .keys((size) => size),
      };
    case 'capacitors':
      return { capacitor: { parallel: value } };
  }
}

function withKeys<Section extends Pick<LampSection, 'capacitor'> & { driver: object }>(
  section: Section,
  { capacitor, driver }: Keys,
): Section {
  return {
    ...section,
    capacitor: { ...section.capacitor, ...capacitor },
    driver: { ...section.driver, ...driver },
  };
}
