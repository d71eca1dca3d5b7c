import type { Turn } from '../../../../trial/live/LiveRun.ts';

/** What the part behind the # of the page's address names: an element of the page, and what is turned of its trial. */
export interface Address {
  id: string;
  /** Texts of values, by owner and key of their knobs: 'lamp.capacitor.parallel'. */
  turns: ReadonlyMap<string, string>;
}

/** in: hash, such as '#trial-3?lamp.capacitor.parallel=2' */
export function readAddress(hash: string): Address {
  const [id = '', query = ''] = hash.slice(1).split('?');
  return { id, turns: new Map(new URLSearchParams(query)) };
}

/** The address of an element with what is turned. */
export function addressOf(id: string, turns: readonly Turn[]): string {
  const query = new URLSearchParams(turns.map(({ of, key, value }) => [`${of}.${key}`, String(value)]));
  return turns.length === 0 ? `#${id}` : `#${id}?${query}`;
}
