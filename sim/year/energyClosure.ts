import { ENERGY_SINKS, type YearColumns } from './YearColumns.ts';

/** How well the energy of a run closes. */
export interface EnergyClosure {
  /** What is left over of the hours, each without its sign, over what moved in them. */
  energyResidual: number;
  /** The hour that leaves most, or the first that is no number. */
  worstHour: number;
}

/**
 * How well the energy of a run closes: hours of opposite sign do not cancel, neither in what is left over nor in what
 * moved. What moved in an hour is half the sum of what came, went and was stored, for each joule leaves one and enters
 * another.
 *
 * in: columns, the hours
 * NaN when: any of an hour's energies is
 */
export function energyClosure(columns: YearColumns): EnergyClosure {
  const { count, cell_J, storedChange_J, residual_J } = columns;
  const sinks = ENERGY_SINKS.map((name) => columns[name]);
  let left_J = 0;
  let moved_J = 0;
  let worstHour = 0;
  let worst_J = -1;
  for (let hour = 0; hour < count; hour++) {
    let hour_J = Math.abs(cell_J[hour]!) + Math.abs(storedChange_J[hour]!);
    for (const sink of sinks) hour_J += Math.abs(sink[hour]!);
    const hourLeft_J = Math.abs(residual_J[hour]!);
    moved_J += 0.5 * hour_J;
    left_J += hourLeft_J;
    // Whatever is compared with NaN is false: once found, it stays the worst.
    if (!(hourLeft_J <= worst_J) && !Number.isNaN(worst_J)) {
      worstHour = hour;
      worst_J = hourLeft_J;
    }
  }
  return { energyResidual: left_J === 0 && moved_J === 0 ? 0 : left_J / moved_J, worstHour };
}
