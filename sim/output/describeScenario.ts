import type { Json, Origin, Scenario } from '../scenario/Scenario.ts';
import { schemaAt } from '../scenario/SchemaNode.ts';
import { wrapText } from './textTable.ts';

const KEY_WIDTH = 32;
const VALUE_WIDTH = 24;

/**
 * A checked scenario as text: every value with its unit, defaults filled in, and where each came from; then what was
 * assumed, then what a maker must see.
 *
 * in: scenario; width, columns of the terminal, 60 or more (100 by default)
 * out: lines, none wider than that unless a word is
 */
export function describeScenario(scenario: Scenario, width = 100): string {
  const { assumptions, questions, flags } = scenarioData(scenario);
  const lines = [
    `Scenario ${scenario.name}, from ${scenario.file}`,
    ...wrapText(
      '"line" is a line of that file, "part" the parts library, "assumed" a default that rests on an assumption, "default" any other.',
      0,
      0,
      width,
    ),
    '',
  ];
  let above: readonly string[] = [];
  for (const origin of scenario.origins) {
    const { path } = origin;
    if (path[0] !== above[0] && (path.length > 1 || above.length > 1)) lines.push('');
    let depth = path.findIndex((key, i) => key !== above[i]);
    for (; depth < path.length - 1; depth++) lines.push(indented(path[depth]!, depth));
    lines.push(...valueLines(origin, scenario, width));
    above = path;
  }
  if (questions.length > 0) lines.push('', 'Please check: hardly anyone has such numbers');
  for (const question of questions) lines.push(...wrapText(`? ${question}`, 2, 4, width));
  lines.push('', 'Assumed');
  for (const sentence of assumptions) lines.push(...wrapText(`- ${sentence}`, 2, 4, width));
  if (assumptions.length === 0) lines.push('  nothing');
  if (flags.length > 0) lines.push('', 'Please note');
  for (const flag of flags) lines.push(...wrapText(`! ${flag}`, 2, 4, width));
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

function valueLines({ path, value, from, kind }: Origin, scenario: Scenario, width: number): string[] {
  const unit = schemaAt(path, scenario.resolved)?.unit;
  const shown = `${valueText(value)}${unit === undefined || unit === '1' || typeof value !== 'number' ? '' : ` ${unit}`}`;
  const key = indented(path.at(-1)!, path.length - 1);
  const source =
    kind === 'scenario'
      ? from.replace('scenario ', '')
      : kind === 'part'
        ? from.replace(/ \(.*/, '')
        : from.replace('default: ', 'assumed: ');
  const start = KEY_WIDTH + VALUE_WIDTH;
  const left = `${key.padEnd(KEY_WIDTH - 1)} `;
  const sources = wrapText(source, 0, 0, width - start);
  const tail = sources.slice(1).map((line) => ' '.repeat(start) + line);
  if (shown.length < VALUE_WIDTH) return [left + shown.padEnd(VALUE_WIDTH) + (sources[0] ?? ''), ...tail];
  // A long value takes lines of its own, broken between its rows; the source stands beside the key.
  const rows =
    Array.isArray(value) && value.length > 1 ? value.map((row) => valueText(row as Json)) : [shown];
  return [
    left + ' '.repeat(VALUE_WIDTH) + (sources[0] ?? ''),
    ...tail,
    ...rows.flatMap((row) => wrapText(row, path.length * 2, path.length * 2, width)),
  ];
}

function valueText(value: Json): string {
  if (typeof value === 'string') return value === '' ? '""' : value;
  if (Array.isArray(value)) return `[${value.map((item) => valueText(item as Json)).join(', ')}]`;
  if (typeof value === 'object' && value !== null) {
    return Object.entries(value)
      .map(([key, item]) => `${key} ${valueText(item as Json)}`)
      .join(', ');
  }
  return String(value);
}

function indented(text: string, depth: number): string {
  return '  '.repeat(depth) + text;
}

/** What is told of a checked scenario, as plain JSON. */
export interface ScenarioData {
  name: string;
  sha256: string;
  resolved: { readonly [key: string]: Json };
  origins: readonly Origin[];
  assumptions: readonly string[];
  /** Numbers that hardly anyone would have. */
  questions: readonly string[];
  /** Sentences a maker must see, with the lamp's name before them. */
  flags: readonly string[];
}

/** A checked scenario as plain JSON: every value with its defaults filled in, and where each came from. */
export function scenarioData(scenario: Scenario): ScenarioData {
  const { name, sha256, resolved, origins, assumptions, questions, lamps } = scenario;
  const flags = lamps.flatMap((lamp) => lamp.flags.map((flag) => `${lamp.name}: ${flag}`));
  return { name, sha256, resolved, origins, assumptions, questions, flags };
}
