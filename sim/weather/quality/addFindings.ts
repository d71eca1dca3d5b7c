import { HOUR_MS } from '../../common/time.ts';
import type { Finding, FindingEffect, FindingKind } from './Finding.ts';
import { type Stretch, stretchesOf } from './stretchesOf.ts';

/** Puts findings about one column on a list. */
export interface AddFindings {
  /** One finding for each stretch. */
  each<S extends Stretch>(
    kind: FindingKind,
    stretches: readonly S[],
    effect: FindingEffect,
    evidence: (stretch: S) => string,
  ): void;
  /** One finding for all flagged hours, from the first to the last; none where none is flagged. */
  together(kind: FindingKind, flags: Uint8Array, effect: FindingEffect, evidence: string): void;
}

/**
 * A writer of findings about one column.
 *
 * in: findings, the list that grows; column, its name; start_ms, start of the first hour
 * out: the writer
 */
export function addFindings(findings: Finding[], column: string, start_ms: number): AddFindings {
  const place = (kind: FindingKind, { from, to }: Stretch) => ({
    kind,
    column,
    from_ms: start_ms + from * HOUR_MS,
    to_ms: start_ms + to * HOUR_MS,
  });
  return {
    each(kind, stretches, effect, evidence) {
      for (const stretch of stretches) {
        const hours = stretch.to - stretch.from;
        findings.push({ ...place(kind, stretch), hours, evidence: evidence(stretch), effect });
      }
    },
    together(kind, flags, effect, evidence) {
      const span = { from: flags.indexOf(1), to: flags.lastIndexOf(1) + 1 };
      if (span.from < 0) return;
      findings.push({ ...place(kind, span), hours: countFlags(flags), evidence, effect });
    },
  };
}

/** How many hours are flagged. */
export function countFlags(flags: Uint8Array): number {
  return flags.reduce((sum, flag) => sum + flag, 0);
}

/** Stretches of flagged hours. */
export function stretchesFlagged(flags: Uint8Array): Stretch[] {
  return stretchesOf(flags.length, (i) => flags[i] === 1);
}
