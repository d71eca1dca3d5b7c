import type { SpotParams } from '../spot/spotParams.ts';

const CAPACITORS =
  'A charged supercapacitor gives hundreds of amperes when shorted: discharge it through a resistor before soldering, no rings, eye protection; never above its rated voltage, mind polarity, balance parts in series.';
const JARS =
  'Glass jars in sun grow hot; resin and paint need ventilation; outdoor parts need drainage and sealing.';
/** Where such a light must not be relied on, and what comes before anything said here. */
export const WHERE_IT_SERVES =
  'Decorative light: not for escape routes, stairs or any place where failing light can hurt. Local electrical, lighting and waste rules and licensed practice come first.';

/** The cautions that every output carries. */
export const CAUTIONS: readonly string[] = [CAPACITORS, JARS, WHERE_IT_SERVES];

/** Spots, for what lies over their cells. */
export type Covers = readonly { params: Pick<SpotParams, 'cover'> }[];

/**
 * What else can go wrong with what lies over the cells, in sentences; common practice, no source.
 *
 * in: spots
 * out: a sentence a hazard, those that no cover brings left out
 */
export function coverCautions(spots: Covers): string[] {
  const kinds = new Set(spots.map(({ params: { cover } }) => (cover === 'none' ? cover : cover.kind)));
  const has = (...some: string[]) => some.some((kind) => kinds.has(kind as never));
  const found = [
    has('flat', 'dome', 'side-lit') &&
      `${has('dome') ? 'A glass dome, and a round jar with water in it, gather' : 'A round jar with water in it gathers'} the sun like a burning glass: keep rain out and anything that burns away, and never lay ${has('dome') ? 'them' : 'it'} down in the sun.`,
    has('flat', 'dome', 'side-lit') &&
      'Frost splits wet glass: let no water stand in the jar or under the lid, and take cracked glass away.',
    has('resin') &&
      'Resin heats as it sets, a thick layer until it smokes: pour a few millimetres at a time, with gloves and eye protection, outdoors or by an open window.',
  ];
  return found.filter((sentence) => sentence !== false);
}
