import type { PartFit } from '../common/Estimate.ts';

/** A reading that would narrow what is least known. */
export interface NextReading {
  /** What to read, as an instruction. */
  read: string;
  /** What it would narrow, from what to what; undefined where that is not computed. */
  gain?: { what: string; unit: string; half: number; halfAfter: number };
}

/** What the readings of one part gave. */
export interface PartReport {
  part: string;
  fit: Pick<PartFit, 'estimates' | 'readings' | 'notes' | 'keys'>;
  /** undefined where nothing at the bench would narrow it further. */
  next: NextReading | undefined;
}

/** What the readings of one lamp gave. */
interface LampReport {
  lamp: string;
  parts: PartReport[];
}

/** What `fit` finds in the bench readings of a scenario. */
export interface FitReport {
  scenario: string;
  lamps: LampReport[];
}
