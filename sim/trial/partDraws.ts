import { type Estimate, type PartFit, STANDARD_ERRORS_90 } from '../common/Estimate.ts';
import type { RandomStream } from '../common/random.ts';
import { AT } from '../lamp/capacitor/benchCapacitor.ts';
import { type CapacitorFit, keysSettled } from '../lamp/capacitor/readings.ts';
import type { CellFit } from '../lamp/cell/readings.ts';
import type { LampFits } from '../lamp/fitLamp.ts';
import type { LampSection } from '../lamp/schema.ts';
import { normalDraw } from './normalDraw.ts';

/** One part as its readings leave it possible. */
export interface PartDraw {
  /** What to write over the keys of the part. */
  keys: Record<string, unknown>;
  /** The parameters that were drawn, by key. */
  sizes: Record<string, number>;
}

/** A draw; undefined where it came out as a part that cannot be (a resistance below 0), and has to be drawn again. */
export type DrawPart = (stream: RandomStream) => PartDraw | undefined;

/**
 * How to draw each part of a lamp whose readings give intervals.
 *
 * in: section, one lamp; fits, of its readings
 * out: by part; cell and capacitor from the covariance of their fit, the others each parameter by itself from its
 *   interval, but the rows of one table together, since they share the error of one meter
 */
export function partDraws(section: LampSection, fits: LampFits): Map<keyof LampFits, DrawPart> {
  const draws = new Map<keyof LampFits, DrawPart>();
  if (fits.cell) draws.set('cell', cellDraw(fits.cell));
  if (fits.capacitor) draws.set('capacitor', capacitorDraw(section.capacitor, fits.capacitor));
  for (const part of ['diode', 'driver', 'led', 'jar'] as const) {
    const fit = fits[part];
    if (fit?.estimates.some(isOpen)) draws.set(part, independentDraw(fit));
  }
  return draws;
}

function cellDraw({ bench, solved, scatter }: CellFit): DrawPart {
  const draw = normalDraw(solved, scatter);
  return (stream) => {
    const drawn = { ...bench.cellAt(draw(stream)) };
    const canBe = Object.values(drawn).every((value) => Number.isFinite(value) && value > 0);
    return canBe ? { keys: { raw: drawn }, sizes: drawn } : undefined;
  };
}

/** Keys as the fit of the capacitor writes them, of drawn unknowns. */
function capacitorDraw(section: LampSection['capacitor'], fit: CapacitorFit): DrawPart {
  const draw = normalDraw(fit.solved, fit.scatter);
  const rested = section.readings?.rest !== undefined;
  return (stream) => {
    const values = draw(stream);
    const sizes = keysSettled(section, rested, values);
    const canBe = sizes.capacitance_F > 0 && (sizes.delayed_share ?? 0) >= 0;
    return canBe && !(rested && values[AT.leakage]! < 0) ? { keys: sizes, sizes } : undefined;
  };
}

const isOpen = ({ low, high }: Estimate) => high > low;

/** What a row of a table is an estimate of: 'efficiency at 1.1 V' is one of the efficiency. */
const nameOf = ({ key }: Estimate) => key.split(' at ')[0]!;

function independentDraw({ estimates, keys }: PartFit): DrawPart {
  const names = [...new Set(estimates.filter(isOpen).map(nameOf))];
  return (stream) => {
    const sizes: Record<string, number> = {};
    const drawn: Record<string, unknown> = { ...keys };
    for (const name of names) {
      const away = stream.normal() / STANDARD_ERRORS_90;
      const rows = estimates.filter((estimate) => nameOf(estimate) === name);
      const values = rows.map((row) => drawnValue(row, away));
      if (values.some((value) => value < 0)) return undefined;
      sizes[name] = values[0]!;
      writeInto(drawn, name, values, rows[0]!.key !== name);
    }
    return { keys: drawn, sizes };
  };
}

/** away: in half widths of the interval. */
function drawnValue({ key, value, high }: Estimate, away: number): number {
  if (key === 'saturation_A') return value * (high / value) ** away;
  const drawn = value + away * (high - value);
  return key.startsWith('efficiency at ') ? Math.min(1, drawn) : drawn;
}

/** Where a fit's keys hold a parameter: itself, a column of a table, the efficiency's rows, or below raw. */
function writeInto(
  keys: Record<string, unknown>,
  name: string,
  values: readonly number[],
  isRow: boolean,
): void {
  if (isRow) {
    const table = name === 'efficiency' ? 'efficiency' : 'table';
    const rows = keys[table] as Record<string, number>[];
    keys[table] = rows.map((row, i) => ({ ...row, [name]: values[i]! }));
  } else if ('raw' in keys) {
    keys.raw = { ...(keys.raw as Record<string, number>), [name]: values[0]! };
  } else {
    keys[name] = values[0]!;
  }
}
