import { randomStream } from '../common/random.ts';
import { fitLamp } from '../lamp/fitLamp.ts';
import type { LampSection } from '../lamp/schema.ts';
import { settledLamp } from '../lamp/settledLamp.ts';
import { type DrawPart, type PartDraw, partDraws } from './partDraws.ts';

/** A lamp as its readings leave it possible. */
export interface LampDraw {
  /** Without readings; undefined where no part that can be was drawn. */
  section: LampSection | undefined;
  /** Drawn parameters by part and key: 'capacitor.leakage_uA'. */
  sizes: Record<string, number>;
}

const MOST_TRIES = 1000;

/**
 * Lamps drawn from what the bench readings of a lamp leave open.
 *
 * in: section, one lamp of a scenario whose readings draw no problem; seed; count, of draws
 * out: so many lamps, the same for the same seed; none where no part has readings that give an interval
 * valid: every part has its own stream, so that the same part with the same readings is drawn alike in every lamp
 */
export function lampDraws(section: LampSection, seed: number, count: number): LampDraw[] {
  const draws = partDraws(
    section,
    fitLamp(section, () => {}),
  );
  if (draws.size === 0) return [];
  const settled = settledLamp(section);
  return Array.from({ length: count }, (_, index) => {
    const sizes: Record<string, number> = {};
    let drawn: LampSection | undefined = settled;
    for (const [part, draw] of draws) {
      const found = drawnPart(draw, seed, part, index);
      if (found === undefined || drawn === undefined) {
        drawn = undefined;
        continue;
      }
      for (const [key, size] of Object.entries(found.sizes)) sizes[`${part}.${key}`] = size;
      drawn = { ...drawn, [part]: { ...drawn[part], ...found.keys } };
    }
    return { section: drawn, sizes };
  });
}

/** The first draw of a stream that can be a part: what cannot be is cut off the distribution. */
function drawnPart(draw: DrawPart, seed: number, part: string, index: number): PartDraw | undefined {
  const stream = randomStream(seed, `spread ${part}`, index);
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const found = draw(stream);
    if (found !== undefined) return found;
  }
  return undefined;
}
