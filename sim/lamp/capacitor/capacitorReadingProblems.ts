import { log } from '../../common/elementary/log.ts';
import { unitSlip } from '../../common/hints.ts';
import type { ValueProblem } from '../../common/InputProblem.ts';
import { capacitanceOf_F } from './benchCapacitor.ts';
import type { CapacitorReadings, CapacitorSection } from './schema.ts';

/**
 * Why readings cannot be of one capacitor, or else what they leave open.
 *
 * in: section, the capacitor; readings
 * out: problems with key paths below the capacitor
 */
export function capacitorReadingProblems(
  section: CapacitorSection,
  readings: CapacitorReadings,
): ValueProblem[] {
  const problems = [...impossible(section, readings)];
  return problems.length > 0 ? problems : [...openProblems(section, readings)];
}

/** What neither readings nor datasheet values beside them settle. */
function* openProblems(
  section: CapacitorSection,
  { discharge, rest }: CapacitorReadings,
): Generator<ValueProblem> {
  const open = (what: string, fix: string): ValueProblem => ({
    code: 'FIT_UNDETERMINED',
    path: ['readings'],
    got: `readings that leave the ${what} open`,
    expected: 'readings that settle it, or its datasheet value beside them',
    fix,
  });
  if (discharge.length === 0 && section.capacitance_F === undefined) {
    yield open(
      'capacitance',
      'time a discharge through a resistor, from 0.8 to 0.4 of the rated voltage, or add capacitance_F',
    );
  }
  if (rest === undefined && section.leakage_uA === undefined) {
    yield open('leakage', 'read the voltage after an hour, a day and three days at rest, or add leakage_uA');
  }
}

/**
 * Why readings cannot be of one capacitor at all: voltages that do not fall ever more slowly, times and resistors in
 * another unit than they claim.
 */
function* impossible(section: CapacitorSection, readings: CapacitorReadings): Generator<ValueProblem> {
  const { discharge, rest, voltage_step_mV } = readings;
  for (const [k, course] of discharge.entries()) {
    const points = course.points.map(({ seconds, voltage_V }) => ({ time: seconds, voltage_V }));
    const path = ['readings', 'discharge', k, 'points'];
    const names = { path, first: 0, unit: 's', key: 'seconds' };
    const problem =
      courseProblem(points, names, { again_V: 0, slack_V: (1.5 * voltage_step_mV) / 1000 }) ??
      unitProblem(section, course, k);
    if (problem !== undefined) yield problem;
  }
  if (rest === undefined) return;
  const points = rest.after.map(({ hours, voltage_V }) => ({ time: hours, voltage_V }));
  const names = { path: ['readings', 'rest', 'after'], first: -1, unit: 'h', key: 'hours' };
  const most_V = (3 * voltage_step_mV) / 1000;
  const problem = courseProblem([{ time: 0, voltage_V: rest.from_V }, ...points], names, {
    again_V: most_V,
    slack_V: most_V,
  });
  if (problem !== undefined) yield problem;
}

function unitProblem(
  { capacitance_F: stated_F }: CapacitorSection,
  course: CapacitorReadings['discharge'][number],
  k: number,
): ValueProblem | undefined {
  const fitted_F = capacitanceOf_F(course);
  const slip = unitSlip(fitted_F, stated_F ?? Number.NaN);
  if (slip === undefined) return undefined;
  const { points, resistor_ohm } = course;
  return {
    code: 'SCENARIO_WRONG_UNIT',
    path: ['readings', 'discharge', k, 'resistor_ohm'],
    got: `${resistor_ohm} ohm and ${points.at(-1)!.seconds - points[0]!.seconds} s, which make ${fitted_F.toPrecision(2)} F`,
    expected: `about ${stated_F} F, by the datasheet`,
    fix:
      slip === 1000
        ? 'resistor_ohm is in ohm (1 kohm is 1000), seconds in s; milliseconds or a resistor of kilohms look like this'
        : 'resistor_ohm is in ohm: a resistor of so many kilohms is a thousand times that; or write capacitance_F in F',
  };
}

/** A discharge may quicken by that much: capacitance falls with the voltage. */
const QUICKENS = 2;

/**
 * What keeps points from being voltages that fall with time, ever more slowly. A voltage may come again (again_V above
 * the one before) in a rest alone; slack_V, how far a difference of voltages may be off.
 */
function courseProblem(
  points: readonly { time: number; voltage_V: number }[],
  { path, first, unit, key }: { path: (string | number)[]; first: number; unit: string; key: string },
  { again_V, slack_V }: { again_V: number; slack_V: number },
): ValueProblem | undefined {
  const conflict = (i: number, at: string, words: Omit<ValueProblem, 'code' | 'path'>): ValueProblem => ({
    code: 'SCENARIO_CONFLICT',
    path: [...path, first + i, at],
    ...words,
  });
  let slowest = Number.POSITIVE_INFINITY;
  for (let i = 1; i < points.length; i++) {
    const [before, now] = [points[i - 1]!, points[i]!];
    const gap = now.time - before.time;
    if (gap <= 0) {
      return conflict(i, key, {
        got: `${now.time} ${unit} after ${before.time} ${unit}`,
        expected: 'rising times',
        fix: 'sort the points by time',
      });
    }
    if (now.voltage_V >= before.voltage_V + again_V) {
      return conflict(i, 'voltage_V', {
        got: `${now.voltage_V} V after ${before.voltage_V} V`,
        expected: 'a voltage that falls: nothing charges it',
        fix: 'were two readings exchanged? Read them again',
      });
    }
    const rate = log(before.voltage_V / now.voltage_V) / gap;
    const slack = (2 * slack_V) / now.voltage_V / gap;
    if (rate - slack > QUICKENS * slowest) {
      return conflict(i, 'voltage_V', {
        got: `${before.voltage_V} to ${now.voltage_V} V in ${gap} ${unit}, ${(rate / slowest).toFixed(1)} times as fast as before`,
        expected: 'a voltage that falls ever more slowly',
        fix: 'something else drew from it, or a reading slipped; read them again',
      });
    }
    slowest = Math.min(slowest, rate + slack);
  }
  return undefined;
}
