import type { Json, Origin, Scenario } from '../scenario/Scenario.ts';
import type { Design } from './Design.ts';

/** The scenario with a design as its only lamp in its only spot: where its values came from too. */
export function aloneIn(scenario: Scenario, { section, settled, spot }: Design): Scenario {
  const { shelf, lamps } = scenario;
  const name = 'design';
  const resolved = {
    ...scenario.resolved,
    spots: { [spot.name]: spot.section as unknown as Json },
    lamps: { [name]: section as unknown as Json },
  };
  const origins = (path: readonly string[], value: Json): Origin[] => {
    if (typeof value !== 'object' || value === null || Array.isArray(value))
      return [{ path, value, kind: 'scenario', from: '' }];
    const keys = value as { readonly [key: string]: Json };
    const shelved = shelf[path.at(-1) as keyof typeof shelf]?.[String(keys.part)]?.values ?? {};
    return Object.entries(keys).flatMap(([key, each]) => {
      const same = key in shelved && JSON.stringify(shelved[key]) === JSON.stringify(each);
      return same
        ? [{ path: [...path, key], value: each, kind: 'part' as const, from: '' }]
        : origins([...path, key], each);
    });
  };
  return {
    ...scenario,
    spots: [spot],
    lamps: [{ ...lamps[0]!, name, section, settled }],
    resolved,
    origins: [
      ...origins(['spots', spot.name], spot.section as unknown as Json),
      ...origins(['lamps', name], section as unknown as Json),
    ],
  };
}
