import { InputProblem } from '../common/InputProblem.ts';
import { countOf } from '../scenario/choices.ts';
import type { Json, Origin, Scenario } from '../scenario/Scenario.ts';
import { schemaAt } from '../scenario/SchemaNode.ts';
import { uncertainValues } from '../scenario/uncertainValues.ts';
import { choiceKey } from '../sizing/choiceProblem.ts';
import type { PartEnds } from '../trial/partEnds.ts';
import { TERMINAL_COLUMNS, wrapText } from './textTable.ts';

const KEY_WIDTH = 32;
const VALUE_WIDTH = 24;
/** Below so many columns there is no room for a source beside its value. */
const NARROW = 80;

export interface DescribeOptions {
  /** What its trials come to, or why they were not run; not told where not given. */
  verdicts?: readonly PartEnds[] | InputProblem;
  /** Columns of the terminal, 60 or more; 100 unless stated. */
  width?: number;
}

/**
 * A checked scenario as text: every value with its unit and what else it may be, defaults filled in, and where each came
 * from; then what was assumed, what its trials come to, then what a maker must see.
 *
 * in: scenario; options
 * out: lines, none wider than the terminal unless a word is
 */
export function describeScenario(
  scenario: Scenario,
  { verdicts, width = TERMINAL_COLUMNS }: DescribeOptions = {},
): string {
  const { assumptions, questions, flags } = scenarioData(scenario);
  const ends = endsByPath(scenario);
  const owned = scenario.origins.some(({ kind }) => kind === 'own part');
  const lines = [
    `Scenario ${scenario.name}, from ${scenario.file}`,
    ...wrapText(
      `"line" is a line of that file, "part" the parts library,${owned ? ' "own part" your own file of parts,' : ''} "assumed" a default that rests on an assumption, "default" any other. In brackets: what an assumed value may be instead.`,
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
    lines.push(...valueLines(origin, ends.get(JSON.stringify(path)), scenario, width));
    above = path;
  }
  if (scenario.choices !== undefined) lines.push('', 'Choices', ...choiceLines(scenario, width));
  if (questions.length > 0) lines.push('', 'Please check: hardly anyone has such numbers');
  for (const question of questions) lines.push(...wrapText(`? ${question}`, 2, 4, width));
  lines.push('', 'Assumed');
  for (const sentence of assumptions) lines.push(...wrapText(`- ${sentence}`, 2, 4, width));
  if (assumptions.length === 0) lines.push('  nothing');
  if (verdicts !== undefined) lines.push('', 'Verdict', ...verdictLines(verdicts, width));
  if (flags.length > 0) lines.push('', 'Please note');
  for (const flag of flags) lines.push(...wrapText(`! ${flag}`, 2, 4, width));
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

/** How many designs the choices make, which `size` goes through. */
function choiceLines({ choices = [], spots }: Scenario, width: number): string[] {
  const counts = choices
    .filter(({ values }) => values.length > 1)
    .map((choice) => `${choice.values.length} of ${choiceKey(choice)}`);
  const where =
    spots.length > 1 && !choices.some(({ section }) => section === 'spot')
      ? `, in each of the ${spots.length} spots`
      : '';
  const text = `${countOf(choices)} designs${where}: ${counts.join(' times ') || 'nothing to choose'}`;
  return wrapText(text, 2, 4, width);
}

/** Both ends of what a value may be. */
type Ends = readonly [Json, Json];

function endsByPath(scenario: Scenario): Map<string, Ends> {
  return new Map(
    uncertainValues(scenario).flatMap(({ section, ends: [one, other] }) =>
      Object.keys(one).map((key) => [JSON.stringify([...section, key]), [one[key]!, other[key]!]] as const),
    ),
  );
}

function verdictLines(verdicts: readonly PartEnds[] | InputProblem, width: number): string[] {
  if (verdicts instanceof InputProblem) {
    return verdicts.message
      .split('\n')
      .flatMap((line, k) => wrapText(k === 0 ? `not run: ${line}` : line, 2, 4, width));
  }
  const lines = verdicts.map(({ spot, lamp, assumed, poor, good }) => {
    const nights = (at: PartEnds['poor']) => (at == null ? 'it cannot be' : `${at.failedNights}`);
    const parts =
      poor === undefined
        ? ''
        : `; with the low values of its generic parts ${nights(poor)}, with the high ones ${nights(good)}`;
    return `${lamp} on ${spot}: fails ${assumed.failedNights} of ${assumed.nights} nights${parts}`;
  });
  if (verdicts.some(({ poor }) => poor !== undefined)) {
    lines.push(
      'Low and high: all generic parts at once as poor, or as good, as they are sold. --sensitivity tells which of them matter.',
    );
  }
  return lines.flatMap((line) => wrapText(line, 2, 4, width));
}

function valueLines(
  { path, value, from, kind }: Origin,
  ends: Ends | undefined,
  scenario: Scenario,
  width: number,
): string[] {
  const unit = schemaAt(path, scenario.resolved)?.unit;
  const range = rangeText(value, ends);
  const shown =
    typeof value === 'number'
      ? `${valueText(value)}${unit === undefined || unit === '1' ? '' : ` ${unit}`}${range}`
      : valueText(value, ends);
  const key = indented(path.at(-1)!, path.length - 1);
  const source =
    kind === 'scenario'
      ? from.replace('scenario ', '')
      : kind === 'part'
        ? from.replace(/ \(.*/, '')
        : from.replace('default: ', 'assumed: ');
  const beside = KEY_WIDTH + VALUE_WIDTH;
  const start = width < NARROW ? KEY_WIDTH : beside;
  const left = `${key.padEnd(KEY_WIDTH - 1)} `;
  const sources = [...(width < NARROW ? [''] : []), ...wrapText(source, 0, 0, width - start)];
  const tail = sources.slice(1).map((line) => ' '.repeat(start) + line);
  if (shown.length < VALUE_WIDTH) return [left + shown.padEnd(VALUE_WIDTH) + (sources[0] ?? ''), ...tail];
  // A long value takes lines of its own, broken between its rows; the source stands beside the key.
  const rows =
    Array.isArray(value) && value.length > 1
      ? value.map((row: Json, k) => valueText(row, below(ends, k)))
      : [shown];
  return [
    left + ' '.repeat(VALUE_WIDTH) + (sources[0] ?? ''),
    ...tail,
    ...rows.flatMap((row) => wrapText(row, path.length * 2, path.length * 2, width)),
  ];
}

function valueText(value: Json, ends?: Ends): string {
  if (typeof value === 'string') return value === '' ? '""' : value;
  if (Array.isArray(value))
    return `[${value.map((item: Json, k) => valueText(item, below(ends, k))).join(', ')}]`;
  if (typeof value === 'object' && value !== null) {
    return Object.entries(value)
      .map(([key, item]) => `${key} ${valueText(item as Json, below(ends, key))}`)
      .join(', ');
  }
  return `${value}${Array.isArray(ends) ? rangeText(value, ends) : ''}`;
}

/** The ends of an item of a list or of a map. */
function below(ends: Ends | undefined, step: string | number): Ends | undefined {
  const [one, other] = (ends ?? []).map(
    (end) => (end as Readonly<Record<string | number, Json>> | null)?.[step],
  );
  return one === undefined || other === undefined ? undefined : [one, other];
}

/** What a number may be instead, from the lower to the higher. */
function rangeText(value: Json, ends: Ends | undefined): string {
  if (typeof value !== 'number' || ends === undefined) return '';
  const [low, high] = ends.toSorted((one, other) => Number(one) - Number(other));
  return low === high ? '' : ` (${low} to ${high})`;
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
  /** Designs that its choices make in a spot; not there without choices. */
  designs?: number;
  /** What its trials come to; null where they could not be run. */
  verdicts?: readonly PartEnds[] | null;
}

/** A checked scenario as plain JSON: every value with its defaults filled in, where each came from, and what it comes to. */
export function scenarioData(scenario: Scenario, verdicts?: DescribeOptions['verdicts']): ScenarioData {
  const { name, sha256, resolved, origins, assumptions, questions, lamps, choices } = scenario;
  const flags = lamps.flatMap((lamp) => lamp.flags.map((flag) => `${lamp.name}: ${flag}`));
  const designs = choices && { designs: countOf(choices) };
  const data = { name, sha256, resolved, origins, assumptions, questions, flags, ...designs };
  if (verdicts === undefined) return data;
  return { ...data, verdicts: verdicts instanceof InputProblem ? null : verdicts };
}
