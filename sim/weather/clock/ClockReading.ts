/** What the sun says about the stamps of a stretch of days. */
export interface ClockReading {
  verdict: 'decided' | 'undecided';
  /** Why it is undecided; empty where it is decided. */
  reason: string;
  /** Stamp minus middle of the measured interval, -720 to 720 minutes; the best guess where undecided. */
  offset_min: number;
  /** Standard uncertainty of that. */
  uncertainty_min: number;
  /** How much clearer afternoons are than mornings, as a logarithm: half the difference. */
  asymmetry: number;
  /** Days the reading rests on. */
  days: number;
  /** Best offset more than 90 minutes away, and by how many of its own standard deviations it is worse. */
  secondMode_min: number;
  secondModeWorseBy: number;
  /** Cost at the best offset, for comparing models of the same days. */
  cost: number;
}
