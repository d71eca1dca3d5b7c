import { AT } from '../lamp/capacitor/benchCapacitor.ts';
import type { CapacitorFit } from '../lamp/capacitor/readings.ts';
import type { CapacitorSection } from '../lamp/capacitor/schema.ts';
import type { NextReading } from './FitReport.ts';
import { type Candidate, narrowed } from './narrowed.ts';

const WEEK_H = 168;

/**
 * The reading of a capacitor that would most narrow the charge it has left after a week without light; undefined where
 * none narrows it much.
 *
 * in: section, the capacitor; fit, of its readings
 */
export function nextCapacitorReading(section: CapacitorSection, fit: CapacitorFit): NextReading | undefined {
  const { bench, solved } = fit;
  const from_V = Number((0.9 * section.rated_V).toFixed(2));
  const rest = (hours: number): Candidate => ({
    read: `the voltage after ${hours} h at rest from ${from_V} V`,
    shown: (values) => bench.afterRest_V(values, from_V, hours),
    error: 1e-3,
  });
  const candidates: Candidate[] = [
    ...[1, 8, 24, 72, WEEK_H].map(rest),
    {
      read: `a timed discharge through a resistor of another make, from ${(0.8 * section.rated_V).toFixed(2)} to ${(0.4 * section.rated_V).toFixed(2)} V`,
      shown: (values) => values[AT.capacitance]!,
      error: 0.01 * solved.values[AT.capacitance]!,
    },
  ];
  return narrowed(
    solved,
    {
      what: `charge left after a week at rest from ${from_V} V`,
      unit: 'C',
      of: (values) => values[AT.capacitance]! * bench.afterRest_V(values, from_V, WEEK_H),
    },
    candidates,
  );
}
