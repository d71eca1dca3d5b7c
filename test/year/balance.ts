import { ENERGY_SINKS } from '../../sim/year/YearColumns.ts';

/** The columns of an hour whose sum is the cell's energy: losses, LED, stored change, residual. */
export const BALANCE = [...ENERGY_SINKS, 'storedChange_J', 'residual_J'] as const;
