import type { EnergyStatistics } from '../../statistics/types.ts';

/** A part of the energy ledger as pictures show it: its name in the ledger, and a mark told apart without colour. */
export interface LedgerPart {
  key: keyof EnergyStatistics;
  heading: string;
  words: string;
  mark: string;
}

/** What the best-point energy of the cell comes to. */
export const BEST_POINT_PARTS: readonly LedgerPart[] = [
  { key: 'cell_J', heading: 'cell_Wh', words: 'given by the cell', mark: 'lit' },
  {
    key: 'unharvestedCapacitorLow_J',
    heading: 'unharvested_capacitor_low_Wh',
    words: 'unharvested, capacitor low',
    mark: 'dotted',
  },
  {
    key: 'unharvestedCapacitorHigh_J',
    heading: 'unharvested_capacitor_high_Wh',
    words: 'unharvested, capacitor high',
    mark: 'slanted',
  },
];

/** What becomes of the energy the cell gives, beside the change of what is stored. */
export const CELL_PARTS: readonly LedgerPart[] = [
  { key: 'led_J', heading: 'led_Wh', words: 'LED', mark: 'lit' },
  { key: 'driverLoss_J', heading: 'driver_loss_Wh', words: 'driver', mark: 'crossed' },
  { key: 'diodeLoss_J', heading: 'diode_loss_Wh', words: 'blocking diode', mark: 'dark' },
  { key: 'leakage_J', heading: 'leakage_Wh', words: 'leakage', mark: 'hatched' },
  { key: 'delayedBranchLoss_J', heading: 'delayed_branch_loss_Wh', words: 'delayed branch', mark: 'dotted' },
  { key: 'resistanceLoss_J', heading: 'resistance_loss_Wh', words: 'resistance', mark: 'slanted' },
  { key: 'standby_J', heading: 'standby_Wh', words: 'standby', mark: 'fill-darkPale' },
  { key: 'limiter_J', heading: 'limiter_Wh', words: 'limiter', mark: 'night' },
];
