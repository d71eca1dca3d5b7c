/** What a quality check can find, each with what it means. */
export const FINDING_KINDS = {
  impossible: 'values outside the physically possible',
  'extremely-rare': 'values outside the extremely rare limits',
  'sun-down': 'radiation while the sun is down',
  'night-offset': 'readings below zero, or a little above it in the dark',
  'above-clear-sky': 'light well above that of the cleanest cloudless sky',
  'value-repeated': 'one value repeated for hours',
  'straight-line': 'a straight line through hours that no sun draws',
  'zero-hours': 'hours of zeros with the sun well up',
  'day-repeated': 'a day that stands in the record before, value for value',
  'day-drawn': 'days drawn from those around them',
  'not-closing': 'global, direct and diffuse irradiance that do not add up',
  drift: 'a year whose clear days stand apart from those of the others',
  'air-impossible': 'air temperatures that cannot be',
  'air-repeated': 'one air temperature repeated for a day and more',
} as const;

export type FindingKind = keyof typeof FINDING_KINDS;

/**
 * What becomes of the hours: kept as they are; set to 0; taken as missing (NaN, for the gaps to fill or to refuse);
 * the column set aside; refused, where the whole file is in doubt.
 */
export type FindingEffect = 'kept' | 'set to 0' | 'taken as missing' | 'column set aside' | 'refused';

/** One thing a quality check found. */
export interface Finding {
  kind: FindingKind;
  /** Name of the column. */
  column: string;
  /** Start of the first hour, UTC milliseconds. */
  from_ms: number;
  /** End of the last hour, UTC milliseconds. */
  to_ms: number;
  /** Hours concerned; fewer than the span where they do not stand together. */
  hours: number;
  /** What shows it, in words. */
  evidence: string;
  effect: FindingEffect;
}

/** Kinds that are gaps somebody upstream has filled. */
export const FILLED_UPSTREAM: readonly FindingKind[] = [
  'value-repeated',
  'straight-line',
  'zero-hours',
  'day-repeated',
  'day-drawn',
];
