import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import type { Site } from '../../sun/Site.ts';
import type { Obstacle } from './Obstacle.ts';

/** Which obstacles are in leaf at which hours. */
export interface LeafStates {
  /** For each state, whether each obstacle is in leaf. */
  states: boolean[][];
  /** State of each hour. */
  ofHour: Uint8Array;
}

/**
 * States of the leaves over a stretch of hours: for each obstacle in leaf from one day of the year to another, by the
 * date at the site's mean solar time.
 *
 * in: obstacles; start_ms, start of the first hour, UTC milliseconds; count, hours; site
 * out: at least one state; obstacles that pass the same with and without leaves count as always in leaf
 */
export function leafStates(
  obstacles: readonly Obstacle[],
  start_ms: number,
  count: number,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): LeafStates {
  const ofHour = new Uint8Array(count);
  const states: boolean[][] = [];
  const numbers = new Map<string, number>();
  const [usualOn, usualOff] = site.latitude_deg < 0 ? ['10-25', '05-05'] : ['04-25', '11-05'];
  const ahead_ms = (site.longitude_deg / 360) * DAY_MS;
  let day = Number.NaN;
  let state = 0;
  for (let i = 0; i < count; i++) {
    const local_ms = start_ms + i * HOUR_MS + ahead_ms;
    const thisDay = Math.floor(local_ms / DAY_MS);
    if (thisDay !== day) {
      day = thisDay;
      const date = new Date(local_ms).toISOString().slice(5, 10);
      const inLeaf = obstacles.map(({ leaves }) => {
        if (leaves.transmittance === leaves.bareTransmittance) return true;
        const on = leaves.on ?? usualOn!;
        const off = leaves.off ?? usualOff!;
        return on < off ? date >= on && date < off : date >= on || date < off;
      });
      const key = inLeaf.join();
      const known = numbers.get(key);
      if (known === undefined) {
        numbers.set(key, states.length);
        state = states.length;
        states.push(inLeaf);
      } else state = known;
    }
    ofHour[i] = state;
  }
  return { states, ofHour };
}
