import { expm1 } from '../common/elementary/exp.ts';
import { log } from '../common/elementary/log.ts';
import { type LifeLaw, type LifeRating, wearRate_per_h } from './capacitorWear.ts';

/** What a bank of capacitors stood in a year: its voltage at the ends of the hours, and how warm it was in them. */
export interface CapacitorStress {
  bank_V: Float64Array;
  degC: Float64Array;
}

/**
 * Share of its rated life that one part of a bank spends under a stress. Within an hour the voltage is a straight line,
 * over which the law is integrated as it is.
 *
 * in: stress; rating; law; share, of the bank's voltage that the part holds: 1 of a bank without parts in series
 * out: 1 after the rated hours at the rating's voltage and temperature
 */
export function wearUnder(stress: CapacitorStress, rating: LifeRating, law: LifeLaw, share: number): number {
  const known = KNOWN.get(stress);
  if (known?.rating === rating && known.law === law && known.share === share) return known.wear;
  const wear = integrated(stress, rating, law, share);
  KNOWN.set(stress, { rating, law, share, wear });
  return wear;
}

/** What a stress was last asked for: of a bank whose parts are alike the same year after year. */
const KNOWN = new WeakMap<
  CapacitorStress,
  { rating: LifeRating; law: LifeLaw; share: number; wear: number }
>();

function integrated(
  { bank_V, degC }: CapacitorStress,
  rating: LifeRating,
  law: LifeLaw,
  share: number,
): number {
  let wear = 0;
  let from_V = bank_V[bank_V.length - 1]!;
  for (let hour = 0; hour < bank_V.length; hour++) {
    const to_V = bank_V[hour]!;
    const first = wearRate_per_h(rating, law, share * from_V, degC[hour]!);
    const rise = (log(law.perTenthVolt) * share * (to_V - from_V)) / 0.1;
    // The mean of an exponential over a straight line.
    wear += Math.abs(rise) < 1e-6 ? first * (1 + rise / 2) : (first * expm1(rise)) / rise;
    from_V = to_V;
  }
  return wear;
}

/** Hours under a stress in which one part was warmer or higher than its rating, where no law holds. */
export function beyondRating_h({ bank_V, degC }: CapacitorStress, rating: LifeRating, share: number): number {
  return bank_V.reduce(
    (hours, volts, hour) =>
      hours + (degC[hour]! > rating.at_degC || share * volts > rating.at_V + 1e-9 ? 1 : 0),
    0,
  );
}
