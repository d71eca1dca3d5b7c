import { max, quantile } from 'd3-array';
import type { ColumnChoices } from './ColumnChoices.ts';
import { clearest } from './clearDays.ts';
import { type Claim, NEAR_STRENGTH } from './wordClaims.ts';

/** A balance of radiation: in so many rows so far below zero, as a share of its highest value. From memory. */
const BALANCE = { below: 0.02, rows: 0.1 } as const;
/**
 * Light that the ground sends back: at most this share of what comes down (more only over snow), its quartiles this
 * near; what comes down lets through so much of the light outside the air on clear days. Common practice, no source.
 */
const SENT_BACK = { most: 0.45, spread: 1.5, clear: 0.5 } as const;

/**
 * Of columns whose words speak of global light alike, those whose numbers can be light that comes down; the others are
 * noted. Without one of that kind, all.
 */
export function comingDown(choices: ColumnChoices, list: Claim[]): Claim[] {
  const near = list.filter(({ strength }) => list[0]!.strength - strength <= NEAR_STRENGTH);
  const whyNot = ({ column }: Claim): string | undefined =>
    isBalance(choices.values[column]!)
      ? 'its nights are far below zero, as a balance of radiation is'
      : near.some((other) => isSentBack(choices, column, other.column))
        ? 'its numbers are a small and steady share of the first, as light that the ground sends back'
        : undefined;
  const others = near.flatMap((claim) => {
    const why = whyNot(claim);
    return why === undefined ? [] : [{ claim, why }];
  });
  if (others.length === near.length) return list;
  const rest = list.filter((candidate) => others.every(({ claim }) => claim !== candidate));
  for (const { claim, why } of others) choices.doubt('ghi', rest[0]!.column, claim.column, why);
  return rest;
}

/** At night the ground loses more than the sky gives back; a light meter's zero strays by far less. */
function isBalance(values: Float64Array): boolean {
  const filled = values.filter((value) => !Number.isNaN(value));
  const least = -BALANCE.below * (max(filled) ?? 0);
  return filled.filter((value) => value < least).length > BALANCE.rows * filled.length;
}

/** A small and steady share of another column that is as bright as the sun on clear days. */
function isSentBack(choices: ColumnChoices, column: number, other: number): boolean {
  const [unit, otherUnit] = [choices.unitOf('ghi', column), choices.unitOf('ghi', other)];
  // Numbers alone would give dim light a greater unit.
  const part = choices.canonical(column, unit.byNumbers ? otherUnit : unit);
  const whole = choices.canonical(other, otherUnit);
  return isSteadyShare(part, whole) && clearest(choices.seen(other), otherUnit).index > SENT_BACK.clear;
}

/** Whether a column by day is a small share of another, and much the same share always. */
export function isSteadyShare(part: Float64Array, whole: Float64Array): boolean {
  const bright = 0.1 * (max(whole) ?? 0);
  const shares = part.map((value, i) => value / whole[i]!).filter((_, i) => whole[i]! > bright);
  const at = (share: number): number => quantile(shares, share) ?? Number.NaN;
  return at(0.5) < SENT_BACK.most && at(0.75) < SENT_BACK.spread * at(0.25);
}
