/** How closely the short hours follow one parameter over the draws. */
export interface FollowedParameter {
  /** Part and key of the scenario: 'capacitor.leakage_uA'. */
  key: string;
  /** Spearman's, -1 to 1: above 0 where more of it means more short hours; NaN where the short hours never change. */
  rankCorrelation: number;
}

/** What a trial gives over what the bench readings of its lamp leave open: of the parts, never of the weather. */
export interface OutcomeSpread {
  /** Draws asked for; 0 where no part has readings that give an interval. */
  draws: number;
  /** Draws that make a lamp which can be run; the counts below are over these. */
  ran: number;
  verdictStands: number;
  /** Over whole winters, or the parts where none is whole. */
  failedNights: { lowest: number; median: number; highest: number };
  /** Closest first. */
  parameters: FollowedParameter[];
  /** The first of them, where chance among so many would rarely show as much. */
  mostly?: FollowedParameter;
}
