import type { JarCard } from '../../ageing/JarCard.ts';
import { isolated } from '../figures/element.ts';
import { jarCardWords, type MeaningRow } from '../jarCardWords.ts';
import { listMarkup, type MarkupColumn, nameMarkup, paragraphMarkup, tableMarkup } from './tableMarkup.ts';

/**
 * The card for the jar of a lamp as a part of the page, which prints in postcard size, to be cut out and laid into the jar.
 *
 * in: id; card
 * out: markup
 */
export function jarCardPart(id: string, card: JarCard): string {
  const { title, spring, autumn, expected, care } = jarCardWords(card);
  const columns: MarkupColumn<MeaningRow>[] = (['means', 'reads', 'moved'] as const).map((key) => ({
    heading: autumn.headings[key],
    cell: (row) => row[key],
    ...(key === 'means' ? {} : { number: true }),
  }));
  return [
    `<section class="jarCard" id="${id}" aria-labelledby="${id}-name">`,
    `<h2 id="${id}-name">${nameMarkup(title)}</h2>`,
    `<h3>Care first</h3>${listMarkup(care, 'cautions')}`,
    `<h3>${spring.title}</h3>${listMarkup(spring.tasks, 'tasks')}`,
    `<h3>${autumn.title}</h3>${listMarkup(autumn.how, 'tasks')}`,
    autumn.rows.length === 0
      ? ''
      : tableMarkup(`What the reading of ${isolated(card.lamp)} means`, columns, autumn.rows),
    listMarkup([...autumn.says, ...expected], 'says'),
    paragraphMarkup('Year, volts, day before: ______________________________', 'blanks'),
    '</section>',
  ].join('\n');
}
