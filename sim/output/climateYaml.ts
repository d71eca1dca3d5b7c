import type { ClimateSection } from '../climate/schema.ts';
import { MONTH_NAMES } from '../common/time.ts';

/**
 * A climate as the YAML of a climate file, its months named.
 *
 * in: section; file, what the file is called, for the line that says how it is read
 * out: text, ending in a line break
 */
export function climateYaml(section: ClimateSection, file: string): string {
  const { clearness_shares, persistence, ...others } = section;
  const lines = [
    '# What was learned from a record of hourly weather, month by month. Every number may be edited.',
    `# A scenario reads it by weather: { climate: { file: ${JSON.stringify(file)} } } and is run with --winters 300.`,
    ...Object.entries(others).map(([key, value]) => `${key}: ${inline(value)}`),
    '# How days follow each other: correlation from day to day of what lasts, and the shares of the variance that',
    '# last and that all days of a winter have in common.',
    `persistence: { daily: ${persistence.daily}, lasting: ${persistence.lasting}, winter: ${persistence.winter} }`,
  ];
  if (clearness_shares !== undefined) {
    lines.push(
      '# Clearness index (light over the light outside the air) that a share of the days stays below.',
      'clearness_shares:',
      `  days: ${inline(clearness_shares.days)}`,
      '  months:',
      ...clearness_shares.months.map((row, month) => `    - ${inline(row)} # ${MONTH_NAMES[month]}`),
    );
  }
  return `${lines.join('\n')}\n`;
}

/** A value on one line; JSON is YAML. */
function inline(value: unknown): string {
  return Array.isArray(value)
    ? `[${value.map((each) => JSON.stringify(each)).join(', ')}]`
    : JSON.stringify(value);
}
