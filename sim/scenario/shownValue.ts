import { isMap } from './paths.ts';

/** A value of a scenario as a message shows it: short, texts in quotes. */
export function shownValue(value: unknown): string {
  return typeof value === 'string' ? `"${value}"` : bareValue(value);
}

/** The same without the quotes; numbers as YAML writes them. */
export function bareValue(value: unknown): string {
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (isMap(value)) return `the keys ${Object.keys(value).join(', ') || '(none)'}`;
  if (Number.isNaN(value)) return '.nan';
  if (value === Number.POSITIVE_INFINITY) return '.inf';
  if (value === Number.NEGATIVE_INFINITY) return '-.inf';
  return String(value);
}
