import { type LampMoney, lampMoney } from '../../trial/lampMoney.ts';
import type { RunResult, Trial } from '../../trial/Trial.ts';
import { isolated } from '../figures/element.ts';
import { moneyCells } from '../moneyWords.ts';
import { type MarkupColumn, numberColumn, paragraphMarkup, tableMarkup } from './tableMarkup.ts';

type MoneyRow = Trial & { money: LampMoney };

const UNPRICED: MarkupColumn<MoneyRow> = {
  heading: 'without a price',
  cell: ({ money }) => money.unpriced.join(', '),
};

/**
 * What the lamps of a run cost and the light that this buys in each spot, as a part of the page; '' where no price is
 * known.
 *
 * in: run; trials, those to be shown
 * out: markup
 */
export function moneyPart({ scenario }: Pick<RunResult, 'scenario'>, trials: readonly Trial[]): string {
  const rows: MoneyRow[] = trials.map((trial) => ({ ...trial, money: lampMoney(scenario, trial) }));
  if (rows.every(({ money }) => money.price === undefined)) return '';
  const columns: MarkupColumn<MoneyRow>[] = [
    { heading: 'lamp', cell: ({ lamp }) => isolated(lamp) },
    { heading: 'spot', cell: ({ spot }) => isolated(spot) },
    ...moneyCells(rows).map(({ heading, cell }) =>
      numberColumn<MoneyRow>(heading, ({ money }) => cell(money)),
    ),
    ...(rows.every(({ money }) => money.unpriced.length === 0) ? [] : [UNPRICED]),
  ];
  return [
    '<section class="shared money" id="money" aria-labelledby="money-name">',
    '<h2 id="money-name">What it costs, and the light that buys</h2>',
    paragraphMarkup(
      'Prices are of the parts that are not at hand, as the scenario states them or, of generic parts, from memory. What each part costs stands on the bench sheet; longnight life tells how many winters it lasts.',
      'why',
    ),
    tableMarkup('What it costs', columns, rows),
    '</section>',
  ].join('\n');
}
