import type { NightCause } from '../night/NightRow.ts';

/** Why a night was dark, in words that end a sentence. */
export const CAUSE_WORDS: Readonly<Record<NightCause, string>> = {
  none: 'no cause',
  'still-empty': 'the capacitor began the night below the cut-off',
  'ran-empty': 'the capacitor ran empty',
  'switched-on-late': 'it switched on late',
  'too-dim': 'it was too dim',
  'not-scheduled': 'its schedule leaves promised time out',
};

/** The same, in few words for counts. */
export const CAUSE_NAMES: Readonly<Record<NightCause, string>> = {
  none: 'no cause',
  'still-empty': 'began below the cut-off',
  'ran-empty': 'ran empty',
  'switched-on-late': 'switched on late',
  'too-dim': 'too dim',
  'not-scheduled': 'not scheduled',
};
