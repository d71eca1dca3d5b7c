import type { JarCard } from '../ageing/JarCard.ts';
import { jarCardWords, type MeaningRow } from './jarCardWords.ts';
import { type Look, paint, textTable } from './textTable.ts';

/**
 * The card for the jar of a lamp as text: what to do each year, what a reading means, care.
 *
 * in: card; look, of the terminal
 * out: text, ending in a line break
 */
export function jarCardText(card: JarCard, look: Look = {}): string {
  const style = paint(look);
  const { title, spring, autumn, expected, care } = jarCardWords(card);
  const items = (sentences: readonly string[]) =>
    sentences.flatMap((sentence) => style.wrap(`- ${sentence}`, 2, 4));
  const { headings } = autumn;
  const columns = (['means', 'reads', 'moved'] as const).map((key) => ({
    heading: ['', headings[key]] as const,
    cell: (row: MeaningRow) => row[key],
  }));
  const lines = [
    ...style.wrap(title),
    '',
    'Care first',
    ...items(care),
    '',
    spring.title,
    ...items(spring.tasks),
    '',
    autumn.title,
    ...items(autumn.how),
    ...(autumn.rows.length === 0 ? [] : [...textTable(columns, autumn.rows, style.columns), '']),
    ...items([...autumn.says, ...expected]),
    '',
    '  Readings (year, volts, day before): ____________________________________________',
  ];
  return `${lines.join('\n')}\n`;
}
