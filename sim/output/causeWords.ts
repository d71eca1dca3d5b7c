import type { NightCause } from '../night/NightRow.ts';

/** Why a night was dark, in words that end a sentence. */
export const CAUSE_WORDS: Readonly<Record<NightCause, string>> = {
  none: 'no cause',
  'began-below-floor': 'the store began the night below the floor',
  'ran-empty': 'the store ran empty',
  'late-on': 'it switched on late',
  'too-dim': 'it was too dim',
  'not-scheduled': 'its schedule leaves promised time out',
};

/** The same, in few words for counts. */
export const CAUSE_NAMES: Readonly<Record<NightCause, string>> = {
  none: 'no cause',
  'began-below-floor': 'began below the floor',
  'ran-empty': 'ran empty',
  'late-on': 'switched on late',
  'too-dim': 'too dim',
  'not-scheduled': 'not scheduled',
};
