import type { WeatherValue } from './schema.ts';

/**
 * Whether a weather section says itself how its file is to be read; otherwise the file is recognised, and what is
 * stated wins over what is found.
 *
 * in: section, as the scenario resolved it
 */
export function isMapped({ stamp, columns }: WeatherValue): boolean {
  return stamp !== undefined && columns !== undefined && Object.keys(columns).length > 0;
}
