import type { KeyPath } from '../common/document.ts';
import { isMap } from './paths.ts';
import { schemaAt } from './SchemaNode.ts';
import { writtenQuantity } from './writtenQuantity.ts';

/** A scenario whose numbers with units have become numbers. */
export interface ReadScenario {
  value: Record<string, unknown>;
  /** The texts that became numbers, with where they stand. */
  texts: { path: KeyPath; text: string }[];
}

/**
 * A scenario with numbers in place of texts such as '180 cm', each in the unit of its key. What cannot be understood
 * stays a text, for the schema to refuse.
 *
 * in: value, as the user wrote it; left alone
 */
export function readQuantities(value: Record<string, unknown>): ReadScenario {
  const texts: ReadScenario['texts'] = [];
  const visit = (part: unknown, path: KeyPath): unknown => {
    if (Array.isArray(part)) return part.map((each, i) => visit(each, [...path, i]));
    if (isMap(part)) {
      return Object.fromEntries(
        Object.entries(part).map(([key, each]) => [key, visit(each, [...path, key])]),
      );
    }
    if (typeof part !== 'string') return part;
    const number = writtenQuantity(part, schemaAt(path, value) ?? {})?.value;
    if (number === undefined) return part;
    texts.push({ path, text: part });
    return number;
  };
  return { value: visit(value, []) as Record<string, unknown>, texts };
}
