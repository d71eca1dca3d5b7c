import type { Measured } from './measure.ts';
import type { TruthCase } from './TruthCase.ts';

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

export function verdictWord({ holds }: Measured): string {
  return holds ? 'holds' : 'MISSES';
}

const STATUS: Record<TruthCase['status'], string> = {
  confirmed: 'printed value seen',
  memory: 'from memory',
  derived: 'follows from published equations',
  practice: 'common practice, no source',
};

/** How sure the outside value is, in words. */
export function statusWords({ status }: TruthCase): string {
  return STATUS[status];
}
