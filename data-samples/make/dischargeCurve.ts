import { randomStream } from '../../sim/common/random.ts';

/** An invented capacitor on a bench, and how its discharge was logged. */
export interface InventedDischarge {
  rated_V: number;
  /** dQ/dV from 0.8 to 0.4 of the rated voltage, without what comes late. */
  capacitance_F: number;
  rise: number;
  series_ohm: number;
  /** Share of the capacitance that comes late, half at 0.3 h, half at 3 h. */
  delayed_share: number;
  /** A constant current, or a load. */
  current_A?: number;
  load_ohm?: number;
  /** Where the load is taken off, a share of the rated voltage. */
  end: number;
  rest_s: number;
  step_s: number;
  noise_V: number;
  seed: number;
}

export const INVENTED_DISCHARGE: InventedDischarge = {
  ...{ rated_V: 2.7, capacitance_F: 25, rise: 0.15, series_ohm: 0.12, delayed_share: 0.08 },
  ...{ current_A: 0.2, end: 0.3, rest_s: 3600, step_s: 1, noise_V: 0.0005, seed: 13 },
};

/** Seconds at the rated voltage in the log before the load comes on. */
const HELD_S = 30;
const STEP_S = 0.02;
const LATE_S = [1080, 10_800];

/** Time and voltage of a discharge after a long charge, stepped through its circuit in small steps. */
export function inventedDischarge(of: InventedDischarge): [time_s: number, volts: number][] {
  const random = randomStream(of.seed, 'discharge');
  const atZero_F = of.capacitance_F / (1 + 0.6 * of.rise);
  const late_F = (of.capacitance_F * of.delayed_share) / LATE_S.length;
  const late_V = LATE_S.map(() => of.rated_V);
  const rows: [number, number][] = [];
  const every = Math.round(of.step_s / STEP_S);
  let inside_V = of.rated_V;
  let off_s = Number.POSITIVE_INFINITY;
  for (let step = 0; step * STEP_S < off_s + of.rest_s; step++) {
    const time_s = step * STEP_S;
    const isLoaded = time_s >= HELD_S && off_s === Number.POSITIVE_INFINITY;
    const loaded_A = of.current_A ?? inside_V / (of.load_ohm! + of.series_ohm);
    const current_A = isLoaded ? loaded_A : 0;
    const volts = inside_V - current_A * of.series_ohm;
    if (isLoaded && volts <= of.end * of.rated_V) off_s = time_s;
    if (step % every === 0) rows.push([time_s, volts + of.noise_V * random.normal()]);
    if (time_s < HELD_S) continue;
    const late_A = late_V.reduce((sum, value, k) => sum + ((inside_V - value) * late_F) / LATE_S[k]!, 0);
    for (const [k, tau_s] of LATE_S.entries()) late_V[k]! += ((inside_V - late_V[k]!) * STEP_S) / tau_s;
    inside_V -= ((current_A + late_A) * STEP_S) / (atZero_F * (1 + (of.rise * inside_V) / of.rated_V));
  }
  return rows;
}

/** The file of `data-samples/discharge-curve.csv`: every second of the discharge, every tenth of the rest. */
export function dischargeCurveCsv(): string {
  const of = INVENTED_DISCHARGE;
  const rows = inventedDischarge(of);
  const lowest = rows.reduce((least, [, volts], i) => (volts < rows[least]![1] ? i : least), 0);
  const lines = rows.flatMap(([time_s, volts], i) =>
    i > lowest + 60 && i % 10 > 0
      ? []
      : [`${time_s.toFixed(0)};${(volts * 1000).toFixed(1).replace('.', ',')}`],
  );
  return [
    'Invented discharge of an invented capacitor; nothing was measured',
    `rated voltage;${String(of.rated_V).replace('.', ',')} V`,
    `discharge current;${of.current_A! * 1000} mA`,
    '',
    'time [s];voltage [mV]',
    ...lines,
    '',
  ].join('\n');
}
