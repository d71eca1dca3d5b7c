/** The columns of an hour whose sum is the cell's energy: losses, LED, stored change, residual. */
export const BALANCE = [
  'diodeLoss_J',
  'resistanceLoss_J',
  'delayedBranchLoss_J',
  'leakage_J',
  'limiter_J',
  'standby_J',
  'driverLoss_J',
  'led_J',
  'storedChange_J',
  'residual_J',
] as const;
