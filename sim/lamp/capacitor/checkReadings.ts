import { unitSlip } from '../../common/hints.ts';
import type { Report } from '../../common/InputProblem.ts';
import type { CapacitorReadings, CapacitorSection } from './schema.ts';

/** A discharge may quicken by that much: capacitance falls with the voltage. */
const QUICKENS = 2;

/**
 * Whether readings of a capacitor can be of one capacitor at all: voltages that fall, ever more slowly, times and
 * resistors in the unit they claim.
 *
 * in: section, the capacitor; readings; report, takes what cannot be
 * out: false after a problem
 */
export function checkReadings(
  section: CapacitorSection,
  readings: CapacitorReadings,
  report: Report,
): boolean {
  let sound = true;
  const refuse: Report = (problem) => {
    sound = false;
    report(problem);
  };
  readings.discharge.forEach(({ points, resistor_ohm }, k) => {
    const path = ['readings', 'discharge', k, 'points'];
    const falls = checkCourse(
      points.map(({ seconds, voltage_V }) => ({ time: seconds, voltage_V })),
      { path, unit: 's', key: 'seconds', least_V: (1.5 * readings.voltage_step_mV) / 1000 },
      refuse,
    );
    const [first, last] = [points[0]!, points.at(-1)!];
    if (!falls || section.capacitance_F === undefined) return;
    const fitted_F =
      (last.seconds - first.seconds) / (resistor_ohm * Math.log(first.voltage_V / last.voltage_V));
    const slip = unitSlip(fitted_F, section.capacitance_F);
    if (slip === undefined) return;
    refuse({
      code: 'SCENARIO_WRONG_UNIT',
      path: ['readings', 'discharge', k, 'resistor_ohm'],
      got: `${resistor_ohm} ohm and ${last.seconds - first.seconds} s, which make ${fitted_F.toPrecision(2)} F`,
      expected: `about ${section.capacitance_F} F, by the datasheet`,
      fix:
        slip === 1000
          ? 'resistor_ohm is in ohm (1 kohm is 1000), seconds in s; milliseconds or a resistor of kilohms look like this'
          : 'resistor_ohm is in ohm: a resistor of so many kilohms is a thousand times that; or write capacitance_F in F',
    });
  });
  const { rest } = readings;
  if (rest !== undefined) {
    checkCourse(
      [
        { time: 0, voltage_V: rest.from_V },
        ...rest.after.map(({ hours, voltage_V }) => ({ time: hours, voltage_V })),
      ],
      {
        path: ['readings', 'rest', 'after'],
        unit: 'h',
        key: 'hours',
        least_V: (3 * readings.voltage_step_mV) / 1000,
      },
      refuse,
      1,
    );
  }
  return sound;
}

interface Point {
  time: number;
  voltage_V: number;
}

/** Voltages that fall with time, ever more slowly. */
function checkCourse(
  points: readonly Point[],
  { path, unit, key, least_V }: { path: (string | number)[]; unit: string; key: string; least_V: number },
  refuse: Report,
  offset = 0,
): boolean {
  let slowest = Number.POSITIVE_INFINITY;
  for (let i = 1; i < points.length; i++) {
    const [before, now] = [points[i - 1]!, points[i]!];
    const here = [...path, i - offset];
    if (now.time <= before.time) {
      refuse({
        code: 'SCENARIO_CONFLICT',
        path: [...here, key],
        got: `${now.time} ${unit} after ${before.time} ${unit}`,
        expected: 'rising times',
        fix: 'sort the points by time',
      });
      return false;
    }
    const margin_V = offset === 0 ? 0 : least_V;
    if (
      now.voltage_V >= before.voltage_V + margin_V ||
      (offset === 0 && now.voltage_V === before.voltage_V)
    ) {
      refuse({
        code: 'SCENARIO_CONFLICT',
        path: [...here, 'voltage_V'],
        got: `${now.voltage_V} V after ${before.voltage_V} V`,
        expected: 'a voltage that falls: nothing charges it',
        fix: 'were two readings exchanged? Read them again',
      });
      return false;
    }
    const rate = (Math.log(before.voltage_V / now.voltage_V) * 1) / (now.time - before.time);
    const slack = (2 * least_V) / now.voltage_V / (now.time - before.time);
    if (rate - slack > QUICKENS * slowest) {
      refuse({
        code: 'SCENARIO_CONFLICT',
        path: [...here, 'voltage_V'],
        got: `${before.voltage_V} to ${now.voltage_V} V in ${now.time - before.time} ${unit}, ${(rate / slowest).toFixed(1)} times as fast as before`,
        expected: 'a voltage that falls ever more slowly',
        fix: 'something else drew from it, or a reading slipped; read them again',
      });
      return false;
    }
    slowest = Math.min(slowest, rate + slack);
  }
  return true;
}
