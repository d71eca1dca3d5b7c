import type { JarCard } from '../ageing/JarCard.ts';
import { jarCardWords, type MeaningRow } from './jarCardWords.ts';
import { textTable, wrapText } from './textTable.ts';

/**
 * The card for the jar of a lamp as text: what to do each year, what a reading means, care.
 *
 * in: card
 * out: text of at most 100 columns, ending in a line break
 */
export function jarCardText(card: JarCard): string {
  const { title, spring, autumn, expected, care } = jarCardWords(card);
  const items = (sentences: readonly string[]) =>
    sentences.flatMap((sentence) => wrapText(`- ${sentence}`, 2, 4));
  const { headings } = autumn;
  const columns = (['means', 'reads', 'moved'] as const).map((key) => ({
    heading: ['', headings[key]] as const,
    cell: (row: MeaningRow) => row[key],
  }));
  const lines = [
    title,
    '',
    'Care first',
    ...items(care),
    '',
    spring.title,
    ...items(spring.tasks),
    '',
    autumn.title,
    ...items(autumn.how),
    ...(autumn.rows.length === 0 ? [] : [...textTable(columns, autumn.rows), '']),
    ...items([...autumn.says, ...expected]),
    '',
    '  Readings (year, volts, day before): ____________________________________________',
  ];
  return `${lines.join('\n')}\n`;
}
