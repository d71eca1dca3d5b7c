import { type Measured, sorted } from './measure.ts';
import { significant } from './significant.ts';
import { byTopic, statusLegend, verdictWord } from './truthWords.ts';

const HEADINGS = ['what', 'unit', 'expected', 'got', 'off', 'tolerance', '', 'status', 'source'];
const NUMBERS = new Set([2, 3, 4, 5]);

/** Every case in one table, aligned over all topics. */
export function truthText(all: readonly Measured[]): string {
  const topics = byTopic(all).map(([topic, cases]) => ({ topic, rows: cases.map(rowOf) }));
  const rows = topics.flatMap((one) => one.rows);
  const widths = HEADINGS.map((heading, i) => Math.max(heading.length, ...rows.map((row) => row[i]!.length)));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, i) => (NUMBERS.has(i) ? cell.padStart(widths[i]!) : cell.padEnd(widths[i]!)))
      .join('  ')
      .trimEnd();
  return [
    line(HEADINGS),
    ...topics.flatMap(({ topic, rows: cases }) => ['', topic, ...cases.map(line)]),
    '',
    ...statusLegend(),
    '',
    countWords(all),
    '',
  ].join('\n');
}

/** The same as Markdown, a table a topic. */
export function truthMarkdown(all: readonly Measured[]): string {
  const cells = (row: readonly string[]) =>
    `| ${row.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [
    ...byTopic(all).flatMap(([topic, cases]) => [
      `### ${topic}`,
      '',
      cells(HEADINGS),
      cells(HEADINGS.map((_, i) => (NUMBERS.has(i) ? '---:' : '---'))),
      ...cases.map((one) => cells(rowOf(one))),
      '',
    ]),
    ...statusLegend().map((line) => `- ${line}`),
    '',
    countWords(all),
    '',
  ].join('\n');
}

function rowOf(one: Measured): string[] {
  const { truth, got, off } = one;
  return [
    truth.what,
    truth.unit,
    significant(truth.expected, 7),
    significant(got, 7),
    significant(off, 2),
    significant(truth.tolerance, 2),
    `${verdictWord(one)}${truth.reportOnly && truth.status !== 'input' ? ' (reported)' : ''}`,
    truth.status,
    truth.source,
  ];
}

function countWords(all: readonly Measured[]): string {
  const { gated, facts, inputs } = sorted(all);
  const held = (some: readonly Measured[]) => `${some.filter(({ holds }) => holds).length} of ${some.length}`;
  return [
    `${held(gated)} gated values hold`,
    `${held(facts)} facts that are only reported`,
    `${inputs.length} give back what was put in and count for nothing.`,
  ].join('; ');
}
