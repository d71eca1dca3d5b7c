import type { Measured } from './measure.ts';
import { STATUSES } from './TruthCase.ts';

/** Cases under their topics, in the order in which those first appear. */
export function byTopic(all: readonly Measured[]): [string, Measured[]][] {
  const topics = new Map<string, Measured[]>();
  for (const one of all) {
    const cases = topics.get(one.truth.topic);
    if (cases === undefined) topics.set(one.truth.topic, [one]);
    else cases.push(one);
  }
  return [...topics];
}

export function verdictWord({ holds, truth }: Measured): string {
  if (truth.status === 'input') return 'input';
  return holds ? 'holds' : 'MISSES';
}

/** What some cases rest on, as '4 printed; 9 computed', in the order of the list of statuses. */
export function statusCounts(some: readonly Measured[]): string {
  return Object.keys(STATUSES)
    .map((status) => ({ status, count: some.filter(({ truth }) => truth.status === status).length }))
    .filter(({ count }) => count > 0)
    .map(({ status, count }) => `${count} ${status}`)
    .join('; ');
}

/** What each status means, a line each. */
export function statusLegend(): string[] {
  return Object.entries(STATUSES).map(([status, meaning]) => `${status}: ${meaning}`);
}
