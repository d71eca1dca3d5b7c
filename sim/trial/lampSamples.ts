import { type Estimate, type PartFit, STANDARD_ERRORS_90 } from '../common/Estimate.ts';
import { power } from '../common/elementary/power.ts';
import type { LeastSquaresFit } from '../common/leastSquares.ts';
import { matrices } from '../common/matrices.ts';
import { type RandomStream, randomStream } from '../common/random.ts';
import { AT } from '../lamp/capacitor/benchCapacitor.ts';
import { type CapacitorFit, keysSettled } from '../lamp/capacitor/readings.ts';
import type { CellFit } from '../lamp/cell/readings.ts';
import type { LampSection, SettledSection } from '../lamp/schema.ts';
import type { LampFits, SettledLamp } from '../lamp/settleLamp.ts';

/** A lamp as its readings leave it possible. */
export interface LampSample {
  /** Undefined where no part that can be was drawn. */
  settled: SettledSection | undefined;
  /** Drawn parameters by part and key: 'capacitor.leakage_uA'. */
  sizes: Record<string, number>;
}

/** One part as its readings leave it possible. */
interface PartSample {
  /** What to write over the keys of the part. */
  keys: Record<string, unknown>;
  /** The parameters that were drawn, by key. */
  sizes: Record<string, number>;
}

/** A sample; undefined where it came out as a part that cannot be (a resistance below 0), and has to be drawn again. */
type Sampler = (stream: RandomStream) => PartSample | undefined;

/** A lamp as the scenario has it, and what its readings gave. */
type Sampled = Pick<SettledLamp, 'settled' | 'fits'> & { section: LampSection };

const MOST_TRIES = 1000;

/**
 * Lamps sampled from what the bench readings of a lamp leave open.
 *
 * in: lamp; seed; count, of samples
 * out: so many lamps, the same for the same seed; none where no part has readings that give an interval
 * valid: every part has its own stream, so that the same part with the same readings is drawn alike in every lamp
 */
export function lampSamples({ section, settled, fits }: Sampled, seed: number, count: number): LampSample[] {
  const samplers = Object.entries(samplersOf(section, fits)).filter(([, sampler]) => sampler !== undefined);
  if (samplers.length === 0) return [];
  return Array.from({ length: count }, (_, index) => {
    const sizes: Record<string, number> = {};
    const parts: Record<string, unknown> = {};
    let canBe = true;
    for (const [part, sampler] of samplers) {
      const found = firstPossible(sampler!, randomStream(seed, `spread ${part}`, index));
      if (found === undefined) canBe = false;
      for (const [key, size] of Object.entries(found?.sizes ?? {})) sizes[`${part}.${key}`] = size;
      parts[part] = { ...settled[part as keyof LampFits], ...found?.keys };
    }
    return { settled: canBe ? { ...settled, ...parts } : undefined, sizes };
  });
}

/** The first sample of a stream that can be a part: what cannot be is cut off the distribution. */
function firstPossible(sampler: Sampler, stream: RandomStream): PartSample | undefined {
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const found = sampler(stream);
    if (found !== undefined) return found;
  }
  return undefined;
}

/**
 * How to sample each part of a lamp whose readings give intervals: cell and capacitor from the covariance of their
 * fit, the others each parameter by itself from its interval, but the rows of one table together, since they share
 * the error of one meter.
 */
function samplersOf(section: LampSection, fits: LampFits): Record<keyof LampFits, Sampler | undefined> {
  // Model parameters win over readings.
  const cell = section.cell.raw === undefined ? fits.cell : undefined;
  const alone = (part: 'diode' | 'driver' | 'led' | 'jar') => {
    const fit = 'raw' in section[part] ? undefined : fits[part];
    return fit?.estimates.some(isOpen) ? independentSampler(fit) : undefined;
  };
  return {
    cell: cell && cellSampler(cell),
    capacitor: fits.capacitor && capacitorSampler(section.capacitor, fits.capacitor),
    diode: alone('diode'),
    driver: alone('driver'),
    led: alone('led'),
    jar: alone('jar'),
  };
}

function cellSampler({ bench, solved, scatter }: CellFit): Sampler {
  const sampler = normalSampler(solved, scatter);
  return (stream) => {
    const sizes = { ...bench.cellAt(sampler(stream)) };
    const canBe = Object.values(sizes).every((value) => Number.isFinite(value) && value > 0);
    return canBe ? { keys: { raw: sizes }, sizes } : undefined;
  };
}

function capacitorSampler(section: LampSection['capacitor'], { solved, scatter }: CapacitorFit): Sampler {
  const sampler = normalSampler(solved, scatter);
  const rested = section.readings?.rest !== undefined;
  return (stream) => {
    const values = sampler(stream);
    const sizes = keysSettled(section, rested, values);
    const canBe = sizes.capacitance_F > 0 && (sizes.delayed_share ?? 0) >= 0;
    return canBe && !(rested && values[AT.leakage]! < 0) ? { keys: sizes, sizes } : undefined;
  };
}

/**
 * Samples of a fit's unknowns from the normal distribution that its covariance describes.
 *
 * in: fit; widened, factor of the standard errors (how much the readings scatter)
 * out: a function that takes one sample from a stream
 * valid: as far as the readings are straight lines in the unknowns over a standard error
 * source: JCGM100 (covariance of the unknowns)
 */
export function normalSampler(
  { values, covariance, errors }: LeastSquaresFit,
  widened: number,
): (stream: RandomStream) => number[] {
  const { EigenvalueDecomposition, Matrix } = matrices();
  const correlation = new Matrix(
    covariance.map((row, k) => row.map((each, l) => each / (errors[k]! * errors[l]!))),
  );
  // The symmetric root: it does not hang on the order or the signs of the eigenvectors.
  const { eigenvectorMatrix, realEigenvalues } = new EigenvalueDecomposition(correlation, {
    assumeSymmetric: true,
  });
  const spread = Matrix.diag(realEigenvalues.map((value) => Math.sqrt(Math.max(0, value))));
  const root = eigenvectorMatrix.mmul(spread).mmul(eigenvectorMatrix.transpose());
  return (stream) => {
    const along = root.mmul(Matrix.columnVector(values.map(() => stream.normal())));
    return values.map((value, k) => value + widened * errors[k]! * along.get(k, 0));
  };
}

const isOpen = ({ low, high }: Estimate) => high > low;

/** What a row of a table is an estimate of: 'efficiency at 1.1 V' is one of the efficiency. */
const nameOf = ({ key }: Estimate) => key.split(' at ')[0]!;

function independentSampler({ estimates, keys }: PartFit): Sampler {
  const names = [...new Set(estimates.filter(isOpen).map(nameOf))];
  return (stream) => {
    const sizes: Record<string, number> = {};
    const drawn: Record<string, unknown> = { ...keys };
    for (const name of names) {
      const away = stream.normal() / STANDARD_ERRORS_90;
      const rows = estimates.filter((estimate) => nameOf(estimate) === name);
      const values = rows.map((row) => valueAway(row, away));
      if (values.some((value) => value < 0)) return undefined;
      sizes[name] = values[0]!;
      writeInto(drawn, name, values, rows[0]!.key !== name);
    }
    return { keys: drawn, sizes };
  };
}

/** away: in half widths of the interval. */
function valueAway({ key, value, high }: Estimate, away: number): number {
  if (key === 'saturation_A') return value * power(high / value, away);
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
