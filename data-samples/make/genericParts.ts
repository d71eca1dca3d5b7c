import { PARTS, type Part } from '../../sim/scenario/parts.ts';

/** The parts library in the form of a file of own parts. */
export function genericPartsYaml(): string {
  const lines = [
    '# The parts library as a file of own parts, to be copied from: nobody makes these parts, they are the middle of what',
    '# is sold, and its poor and good ends. Every value and every price is from memory; prices are those of hobby quantities,',
    '# in euros or dollars. A copy in a file of your own (parts: { file: ... } in a scenario) needs names of its own.',
    'format: 1',
    'parts:',
  ];
  for (const [kind, parts] of Object.entries(PARTS)) {
    lines.push(`  ${kind}:`);
    for (const [name, { note, values }] of Object.entries(parts as Record<string, Part>)) {
      lines.push(`    ${name}:`, `      note: ${JSON.stringify(note)}`);
      for (const [key, value] of Object.entries(values)) lines.push(`      ${key}:${below(value)}`);
    }
  }
  return `${lines.join('\n')}\n`;
}

/** A value after its key; a list has a line for each of its rows. */
function below(value: unknown): string {
  return Array.isArray(value)
    ? value.map((row) => `\n        - ${inline(row)}`).join('')
    : ` ${inline(value)}`;
}

function inline(value: unknown): string {
  if (typeof value !== 'object' || value === null) return String(value);
  const keys = Object.entries(value).map(([key, each]) => `${key}: ${String(each)}`);
  return `{ ${keys.join(', ')} }`;
}
