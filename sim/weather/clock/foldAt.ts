import { mean } from 'simple-statistics';
import { clearDay } from './clearDay.ts';
import type { FoldedDays } from './foldSeries.ts';

/**
 * Folded days as they would be at another place: solar time turned by the longitude, clear days and clearness
 * (dimensionless) of the other latitude. For asking whether the claimed place is the right one.
 *
 * in: days, as folded; from and to, claimed and other place, degrees, north and east positive
 * out: new columns for what changes, the same ones for what does not
 */
export function foldAt(
  days: FoldedDays,
  from: { longitude_deg: number },
  to: { latitude_deg: number; longitude_deg: number },
): FoldedDays {
  const turn_min = (to.longitude_deg - from.longitude_deg) * 4 + 1440;
  const clearDays = days.declination_deg.map((declination) =>
    clearDay(to.latitude_deg, declination, days.step_min),
  );
  const means = clearDays.map((values) => mean(Array.from(values.subarray(1))));
  return {
    ...days,
    clearDays,
    clearMean_W_m2: means,
    phase_min: days.phase_min.map((phase) => (phase + turn_min) % 1440),
    clearness: days.clearness.map((value, i) => {
      const table = days.clearIndex[i]!;
      return Math.max(0.02, (value * days.clearMean_W_m2[table]!) / means[table]!);
    }),
  };
}
