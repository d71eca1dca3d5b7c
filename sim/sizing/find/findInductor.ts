import { InputProblem } from '../../common/InputProblem.ts';
import { preferredNumbers } from '../../common/preferredNumbers.ts';
import { driverLaw } from '../../lamp/driver/step.ts';
import { fullVoltage_V, litTime } from '../../lamp/litTime.ts';
import type { SettledSection } from '../../lamp/schema.ts';
import type { ScenarioLamp } from '../../scenario/Scenario.ts';
import { evening } from '../../trial/longestEvening.ts';
import { answerOf, type FindGrounds, type FindQuestion, PERCENT_STEPS, percentSteps } from './answerOf.ts';
import type { Found } from './Found.ts';
import { requireHours } from './findPromise.ts';

/** Shares of what is stated that are looked at. */
const [LEAST, MOST] = [1 / 16, 16];
const DECADE = 10;

/**
 * The inductor with which the lamp is lit for so many hours of every night, the darkest weeks among them, and draws most: the
 * least inductance; of another driver the greatest setting, of a measured table the greatest share of its current. Beside
 * it the closed form: the one with which a full capacitor lasts as long in the dark.
 *
 * in: grounds; hours, promised and scheduled; those of the promise unless given
 * throws: SCENARIO_CONFLICT where the promise does not last for hours and none are given
 */
export function findInductor(grounds: FindGrounds, hours?: number): Found {
  const { lean, spot, lamp, scenario } = grounds;
  requireHours(grounds, 'inductor');
  const lit_h = hours ?? scenario.promise.hours;
  if (lit_h === undefined) throw untilDawn();
  const asStated = lean.premises(spot, lamp);
  const wanted = { ...asStated, ...evening(asStated, lit_h * 60) };
  const driver = lamp.settled.driver;
  return answerOf(
    {
      ...PERCENT_STEPS,
      ...settingOf(lamp, lit_h),
      find: 'inductor',
      premises: (value) => ({
        ...wanted,
        lamp: { ...wanted.lamp, driver: { ...driver, ...keysAt(driver, value) } as SettledSection['driver'] },
      }),
      notes: [`lit for ${Number(lit_h.toPrecision(4))} h of every night`, ...limitWords(lamp)],
    },
    grounds,
  );
}

/** A driver set to a value: its one setting, or all of its measured current by a factor. */
function keysAt(driver: SettledSection['driver'], value: number): Record<string, unknown> {
  const law = driverLaw(driver);
  return law.setting === undefined ? law.times(value).keys((each) => each) : { [law.setting.key]: value };
}

function settingOf(
  { params }: ScenarioLamp,
  lit_h: number,
): Pick<FindQuestion, 'what' | 'key' | 'unit' | 'end' | 'stated' | 'values' | 'closedForm' | 'preferred'> {
  const { law } = params.driver;
  const { setting, inductor } = law;
  if (setting === undefined) {
    return {
      what: 'share of the measured current',
      key: undefined,
      unit: '1',
      end: 'greatest',
      stated: 1,
      values: percentSteps(1, LEAST, MOST),
    };
  }
  const from_V = fullVoltage_V(params);
  const { byLaw_s, limited_s } = litTime(params, from_V);
  const left_s = lit_h * 3600 - limited_s;
  const closed = left_s > 0 ? law.times(byLaw_s / left_s).setting?.value : undefined;
  return {
    what: inductor === undefined ? setting.what : 'inductance',
    key: `driver.${setting.key}`,
    unit: setting.unit,
    end: inductor === undefined ? 'greatest' : 'least',
    stated: setting.value,
    values: percentSteps(setting.value, LEAST, MOST),
    closedForm: closed === undefined ? undefined : { value: closed, from_V },
    ...(inductor && {
      preferred: (from: number) => [{ series: 'E12', values: preferredNumbers('E12', from, DECADE * from) }],
    }),
  };
}

/** An inductor decides only below the boundary of discontinuous conduction. */
function limitWords({ params, settled }: ScenarioLamp): string[] {
  const { dcmBoundary_V } = params.load;
  const limit_mA = 'current_limit_mA' in settled.driver ? settled.driver.current_limit_mA : undefined;
  if (limit_mA === undefined || !(dcmBoundary_V < fullVoltage_V(params))) return [];
  return [
    `the driver's current limit of ${limit_mA} mA stays and decides above ${dcmBoundary_V.toFixed(2)} V, whatever the inductor`,
  ];
}

function untilDawn(): InputProblem {
  return new InputProblem({
    code: 'SCENARIO_CONFLICT',
    field: 'promise.until',
    got: '--find inductor for a promise until dawn, which is of other hours on every night',
    expected: 'the hours that the lamp is to be lit',
    fix: '--lit-hours 8, or promise.hours in the scenario.',
  });
}
