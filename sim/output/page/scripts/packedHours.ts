import type { CloserHours } from '../closerHours.ts';
import { unpackedColumn } from '../packedColumn.ts';
import { HOURS } from './page.ts';

/** The hours of a trial that the page carries; undefined where it has none of it. */
export function packedHours(id: string): CloserHours | undefined {
  const own = HOURS?.trials[id];
  if (!HOURS || own === undefined) return undefined;
  return {
    start_ms: HOURS.start_ms,
    days: own.days,
    cutoff_V: own.cutoff_V ?? Number.NaN,
    rated_V: own.rated_V ?? Number.NaN,
    capacitor_V: unpackedColumn(own.capacitor_V),
    reachable_V: unpackedColumn(own.reachable_V),
    lightOnCell_W_m2: unpackedColumn(HOURS.lights[own.light]!),
  };
}
