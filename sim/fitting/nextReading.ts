import { STANDARD_ERRORS_90, STATED_OVER_STANDARD, significant } from '../common/Estimate.ts';
import { hypot } from '../common/elementary/hypot.ts';
import { covarianceAlong, type LeastSquaresFit, slopesOf } from '../common/leastSquares.ts';
import { square } from '../common/numeric.ts';
import { AT as CAPACITOR_AT } from '../lamp/capacitor/benchCapacitor.ts';
import { lowestVoltage_V } from '../lamp/capacitor/params.ts';
import type { CapacitorFit } from '../lamp/capacitor/readings.ts';
import type { CapacitorSection } from '../lamp/capacitor/schema.ts';
import { AT as CELL_AT } from '../lamp/cell/benchCell.ts';
import type { CellFit } from '../lamp/cell/readings.ts';
import type { CellSection } from '../lamp/cell/schema.ts';
import type { LampSection } from '../lamp/schema.ts';
import type { LampFits } from '../lamp/settleLamp.ts';

/** A reading that would narrow what is least known. */
export interface NextReading {
  /** What to read, as an instruction. */
  read: string;
  /** What it would narrow, from what to what; undefined where that is not computed. */
  gain?: { what: string; unit: string; half: number; halfAfter: number };
}

/**
 * The next reading of one part that would be of most use; undefined where nothing at the bench would narrow it much.
 *
 * in: part, one that has readings; section, the lamp; fits, of its readings
 */
export function nextReading(part: string, section: LampSection, fits: LampFits): NextReading | undefined {
  switch (part) {
    case 'cell':
      return nextCell(section.cell, fits.cell!);
    case 'capacitor':
      return nextCapacitor(section.capacitor, fits.capacitor!);
    default: {
      const read = UNREAD[part as keyof typeof UNREAD](section);
      return read === undefined ? undefined : { read };
    }
  }
}

/** What a maker has not read yet of a part, as an instruction. */
const UNREAD = {
  diode: nextDiode,
  driver: nextDriver,
  led: ({ led }: LampSection) =>
    led.readings!.points.length < 3
      ? 'lux and forward voltage at a tenth and at a third of the usual current, the meter where it was'
      : undefined,
  jar: ({ jar }: LampSection) =>
    jar.readings!.points.every(({ light_W_m2 }) => light_W_m2 < 600)
      ? 'inside and outside again in full sun, after an hour of it'
      : undefined,
};

function nextDiode({ diode }: LampSection): string | undefined {
  const currents = diode.readings!.forward.map(({ current_mA }) => current_mA);
  const least = Math.min(...currents);
  if (least > 3)
    return `the forward drop at about ${Math.max(1, Math.round(least / 10))} mA: winter light drives no more`;
  if (currents.length < 2) return 'the forward drop at ten times that current: it settles the ideality';
  return currents.length < 3
    ? 'the forward drop at the full-sun current: it settles the series resistance'
    : undefined;
}

function nextDriver({ driver }: LampSection): string | undefined {
  const { rows, cutoff_V, restarts_V, standby_uA } = driver.readings!;
  if (cutoff_V === undefined) return 'the capacitor voltage at which it stops, on a slowly falling capacitor';
  if (rows.length < 3) return 'the current drawn at the highest, a middle and the lowest capacitor voltage';
  if (standby_uA === undefined)
    return 'the current drawn with the LED switched off: it drains the capacitor all day';
  return restarts_V === undefined
    ? 'the capacitor voltage at which it starts again, on a slowly rising capacitor'
    : undefined;
}

const DIM_SHARE = 0.03;

/**
 * The reading of a cell that would most narrow its current in the light of a dull December day (3 percent of full
 * sun, at half of its open-circuit voltage); undefined where none narrows it much.
 *
 * in: section, the cell; fit, of its readings
 */
function nextCell(section: CellSection, fit: CellFit): NextReading | undefined {
  const { bench, solved } = fit;
  const readings = section.readings!;
  const open_V = solved.values[CELL_AT.open_V]!;
  const full_A = fit.cell.photocurrent_A;
  const warmth_V =
    (section.voltage_tempco_mV_K * section.cells_in_series * readings.temperature_error_K) /
    1000 /
    STATED_OVER_STANDARD;
  const drift = readings.light_drift_percent / 100 / STATED_OVER_STANDARD;
  const step_mA = readings.lights[0]!.current_step_mA;
  const volts = (value: number) => significant(value, 2);
  const milliamperes = (share: number) => significant(full_A * share * 1000, 2);
  const candidates: Candidate[] = [
    ...[0.3, 0.1, 0.03, 0.01, 0.003].map((share) => ({
      read: `short circuit and open circuit in a light that gives about ${milliamperes(share)} mA`,
      shown: (values: readonly number[]) => bench.further(values, share),
      error: hypot(warmth_V, 0.15 * drift, 1e-3),
    })),
    ...[1, DIM_SHARE].flatMap((share) =>
      [0.5, 0.8, 0.92].map((part) => ({
        read: `voltage and current on a resistor of about ${volts((part * open_V) / (0.9 * full_A * share))} ohm in ${share === 1 ? 'full sun' : `a light that gives about ${milliamperes(share)} mA`}`,
        shown: (values: readonly number[]) => bench.further(values, share, part * open_V),
        error: hypot(drift * full_A * share, (step_mA / 1000) * 0.3),
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

const WEEK_H = 168;

/**
 * The reading of a capacitor that would most narrow the charge it has left after a week without light; undefined where
 * none narrows it much.
 *
 * in: section, the capacitor; fit, of its readings
 */
function nextCapacitor(section: CapacitorSection, fit: CapacitorFit): NextReading | undefined {
  const { bench, solved } = fit;
  const from_V = Number((0.9 * section.rated_V).toFixed(2));
  const to_V = Math.max(0.4 * section.rated_V, 1.05 * lowestVoltage_V(section));
  const rest = (hours: number): Candidate => ({
    read: `the voltage after ${hours} h at rest from ${from_V} V`,
    shown: (values) => bench.afterRest_V(values, from_V, hours),
    error: 1e-3,
  });
  const candidates: Candidate[] = [
    ...[1, 8, 24, 72, WEEK_H].map(rest),
    {
      read: `a timed discharge through a resistor of another make, from ${(0.8 * section.rated_V).toFixed(2)} to ${to_V.toFixed(2)} V`,
      shown: (values) => values[CAPACITOR_AT.capacitance]!,
      error: 0.01 * solved.values[CAPACITOR_AT.capacitance]!,
    },
  ];
  return narrowed(
    solved,
    {
      what: `charge left after a week at rest from ${from_V} V`,
      unit: 'C',
      of: (values) => values[CAPACITOR_AT.capacitance]! * bench.afterRest_V(values, from_V, WEEK_H),
    },
    candidates,
  );
}

/** A reading that could be taken: what it would show for given unknowns, and its standard deviation. */
interface Candidate {
  read: string;
  shown: (values: readonly number[]) => number;
  error: number;
}

/** What is wanted: a result that matters, in words, and what it is for given unknowns. */
interface Target {
  what: string;
  unit: string;
  of: (values: readonly number[]) => number;
}

const WORTH_READING = 0.93;
/** Of the slopes, in standard errors. */
const STEP = 0.05;

/**
 * The reading, of some that could be taken, that narrows a result most; undefined where none narrows it by 7 percent.
 *
 * in: solved, a fit; target; candidates
 * out: the reading with the half width of the 90 percent interval of the target before and after
 * valid: as far as the results are straight lines in the unknowns over a standard error
 * source: JCGM100 (a further reading as one row more in the normal equations)
 */
function narrowed(
  solved: LeastSquaresFit,
  target: Target,
  candidates: readonly Candidate[],
): NextReading | undefined {
  const wanted = slopesOf(solved, target.of, STEP);
  const variance = covarianceAlong(solved, wanted, wanted);
  let best: { read: string; after: number } | undefined;
  for (const { read, shown, error } of candidates) {
    const seen = slopesOf(solved, shown, STEP);
    const shared = covarianceAlong(solved, wanted, seen);
    const after = variance - square(shared) / (square(error) + covarianceAlong(solved, seen, seen));
    if (best === undefined || after < best.after) best = { read, after };
  }
  if (best === undefined || best.after > square(WORTH_READING) * variance) return undefined;
  const half = (of: number) => STANDARD_ERRORS_90 * Math.sqrt(Math.max(0, of));
  const { what, unit } = target;
  return { read: best.read, gain: { what, unit, half: half(variance), halfAfter: half(best.after) } };
}
