import { lampPrice } from '../lamp/partsList.ts';
import type { LampSection, SettledSection } from '../lamp/schema.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { Design, PartVariant, SpotVariant } from './Design.ts';

/** The sections of a lamp in the order in which a design's index counts them, the last fastest. */
export const DESIGN_PARTS = [
  'cell',
  'diode',
  'capacitor',
  'driver',
  'led',
  'jar',
  'schedule',
] as const satisfies (keyof LampSection)[];

/** What a search needs of a space of designs: plain data, that another thread can be handed. */
export interface SearchedSpace {
  /** What all of them are run with. */
  scenario: Pick<Scenario, 'site' | 'promise' | 'start' | 'seed'>;
  /** The slowest of the index. */
  spots: readonly SpotVariant[];
  parts: { readonly [Part in keyof LampSection]: readonly PartVariant<Part>[] };
  /** Designs in it, whether such lamps can be or not. */
  count: number;
}

/**
 * A design of a space by its index; all of it but the lists is shared with other designs.
 *
 * in: space; index, from 0 to below the space's count
 */
export function designAt({ spots, parts, count }: SearchedSpace, index: number): Design {
  let rest = index;
  const section: Partial<Record<keyof LampSection, unknown>> = {};
  const settled: Partial<Record<keyof LampSection, unknown>> = {};
  const variants: PartVariant[] = [];
  for (let k = DESIGN_PARTS.length - 1; k >= 0; k--) {
    const part = DESIGN_PARTS[k]!;
    const choices: readonly PartVariant[] = parts[part];
    const variant = choices[rest % choices.length]!;
    rest = Math.floor(rest / choices.length);
    section[part] = variant.section;
    settled[part] = variant.settled;
    variants.unshift(variant);
  }
  const spot = spots[rest];
  if (spot === undefined || index < 0) throw new Error(`no design ${index} of ${count}`);
  return {
    index,
    chosen: [spot, ...variants].flatMap(({ chosen }) => chosen),
    changed: [spot, ...variants].flatMap(({ changed }) => changed),
    spot,
    section: section as LampSection,
    settled: settled as SettledSection,
    price: lampPrice(section as LampSection),
  };
}
