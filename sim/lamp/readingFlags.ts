import type { Estimate } from '../common/Estimate.ts';
import { fitLamp } from './fitLamp.ts';
import type { LampSection } from './schema.ts';

/** Quantities that say nothing to a maker by themselves. */
const INNER = new Set(['saturation_A', 'ideality']);
const WORTH_SAYING = 0.1;

/**
 * Sentences on parts whose readings are not what would be taken without them: outside the interval, and by a tenth or
 * more.
 *
 * in: section, one lamp of the scenario with its library parts merged in
 * out: one sentence a part that has such
 */
export function readingFlags(section: LampSection): string[] {
  return Object.entries(fitLamp(section, () => {})).flatMap(([part, fit]) => {
    const others = (fit as { estimates: readonly Estimate[] }).estimates.filter(differs);
    if (others.length === 0) return [];
    const words = others.map(
      ({ what, unit, value, datasheet }) => `${what} ${three(value)} ${unit} instead of ${three(datasheet!)}`,
    );
    return [`Readings of the ${part}: ${words.join(', ').replaceAll('  ', ' ')}.`];
  });
}

function differs({ key, value, low, high, datasheet }: Estimate): boolean {
  if (datasheet === undefined || INNER.has(key) || (datasheet >= low && datasheet <= high)) return false;
  return Math.abs(value / datasheet - 1) >= WORTH_SAYING;
}

function three(value: number): string {
  return String(Number(value.toPrecision(3)));
}
