import { STATED_OVER_STANDARD } from '../common/Estimate.ts';
import { AT } from '../lamp/cell/benchCell.ts';
import type { CellFit } from '../lamp/cell/readings.ts';
import type { CellSection } from '../lamp/cell/schema.ts';
import type { NextReading } from './FitReport.ts';
import { type Candidate, narrowed } from './narrowed.ts';

const DIM_SHARE = 0.03;

/**
 * The reading of a cell that would most narrow its current in the light of a dull December day (3 percent of full
 * sun, at half of its open-circuit voltage); undefined where none narrows it much.
 *
 * in: section, the cell; fit, of its readings
 */
export function nextCellReading(section: CellSection, fit: CellFit): NextReading | undefined {
  const { bench, solved } = fit;
  const readings = section.readings!;
  const open_V = solved.values[AT.open_V]!;
  const full_A = fit.cell.photocurrent_A;
  const warmth_V =
    (section.voltage_tempco_mV_K * section.cells_in_series * readings.temperature_error_K) /
    1000 /
    STATED_OVER_STANDARD;
  const drift = readings.light_drift_percent / 100 / STATED_OVER_STANDARD;
  const step_mA = readings.lights[0]!.current_step_mA;
  const volts = (value: number) => Number(value.toPrecision(2));
  const milliamperes = (share: number) => Number((full_A * share * 1000).toPrecision(2));
  const candidates: Candidate[] = [
    ...[0.3, 0.1, 0.03, 0.01, 0.003].map((share) => ({
      read: `short circuit and open circuit in a light that gives about ${milliamperes(share)} mA`,
      shown: (values: readonly number[]) => bench.further(values, share),
      error: Math.hypot(warmth_V, 0.15 * drift, 1e-3),
    })),
    ...[1, DIM_SHARE].flatMap((share) =>
      [0.5, 0.8, 0.92].map((part) => ({
        read: `voltage and current on a resistor of about ${volts((part * open_V) / (0.9 * full_A * share))} ohm in ${share === 1 ? 'full sun' : `a light that gives about ${milliamperes(share)} mA`}`,
        shown: (values: readonly number[]) => bench.further(values, share, part * open_V),
        error: Math.hypot(drift * full_A * share, (step_mA / 1000) * 0.3),
      })),
    ),
  ];
  return narrowed(
    solved,
    {
      what: `current at ${volts(open_V / 2)} V in 3 percent of full sun`,
      unit: 'mA',
      of: (values) => 1000 * bench.further(values, DIM_SHARE, open_V / 2),
    },
    candidates,
  );
}
