import type { Origin, Scenario } from './Scenario.ts';
import { schemaAt } from './SchemaNode.ts';

/**
 * What a scenario rests on without having been told, in sentences: generic parts, and defaults with an assumption.
 * The same assumption of several lamps or spots is one sentence.
 */
export function assumptionsOf({ origins, resolved }: Pick<Scenario, 'origins' | 'resolved'>): string[] {
  const users = new Map<string, Set<string>>();
  const add = (sentence: string, { path }: Origin): void => {
    const who = path[0] === 'lamps' || path[0] === 'spots' ? path[1]! : path[0]!;
    users.set(sentence, (users.get(sentence) ?? new Set()).add(who));
  };
  for (const origin of origins.filter(({ kind }) => kind === 'part')) add(origin.from, origin);
  for (const origin of origins) {
    if (origin.kind !== 'default' || !origin.from.startsWith('default: ') || origin.path.length === 1)
      continue;
    const node = schemaAt(origin.path, resolved);
    const unit = node?.unit === undefined || node.unit === '1' ? '' : ` ${node.unit}`;
    const key = origin.path.slice(origin.path[0] === 'lamps' || origin.path[0] === 'spots' ? 2 : 0).join('.');
    const value = typeof origin.value === 'string' ? origin.value : JSON.stringify(origin.value);
    add(`${key} ${value}${unit}: ${origin.from.slice('default: '.length)}`, origin);
  }
  return [...users].map(([sentence, who]) => `${sentence} [${[...who].join(', ')}]`);
}
