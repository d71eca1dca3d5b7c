import { fixed } from '../common/csvText.ts';
import type { SizedDesign } from '../sizing/SizedDesign.ts';
import type { Sizing, SpaceAnswer } from '../sizing/sizeScenario.ts';
import { keyColumn, openKeys } from './designWords.ts';
import { shownWidth } from './shownWidth.ts';
import { type Paint, type TextColumn, textTable } from './textTable.ts';

/** A row of the table of designs: one of the front, a recommended one or the present lamp. */
export interface FrontRow {
  answer: SpaceAnswer;
  sized: SizedDesign;
  /** What it is recommended as; '' where it is not. */
  named: string;
}

/** What designs of an answer are recommended as, the present lamp among them. */
export function namedDesigns(answer: SpaceAnswer): { named: string; sized: SizedDesign }[] {
  const { present, cheapest, nearest, brightest, leastChange, oneOrTwo } = answer;
  const all = {
    'as it is': present,
    cheapest,
    nearest: cheapest === undefined ? nearest : undefined,
    'least change': leastChange,
    brightest,
    'one for two': oneOrTwo?.one,
  };
  const names = new Map<number, { named: string; sized: SizedDesign }>();
  for (const [named, sized] of Object.entries(all)) {
    if (sized === undefined) continue;
    const before = names.get(sized.design.index);
    names.set(sized.design.index, {
      named: before === undefined ? named : `${before.named} and ${named}`,
      sized,
    });
  }
  return [...names.values()];
}

/**
 * The designs that a table shows: those recommended, the present lamp, and of the others that nothing beats so many as
 * there is room for, those first that are nearest to keeping the promise.
 *
 * in: answers; most, rows in all
 * out: by answer, then by price
 */
export function frontRows(answers: readonly SpaceAnswer[], most: number): FrontRow[] {
  const room = Math.max(2, Math.floor(most / answers.length));
  return answers.flatMap((answer) => {
    const named = namedDesigns(answer);
    const rows = new Map(
      named
        .slice(0, room)
        .map(({ sized, named: name }) => [sized.design.index, { answer, sized, named: name }]),
    );
    const { front, steps } = answer;
    const ends = [front[0], front.at(-1)].flatMap((one) => one ?? []);
    const mending = steps.map(({ from }) => from).reverse();
    for (const sized of [...mending, ...ends, ...evenly(front, room)]) {
      if (rows.size >= room) break;
      if (!rows.has(sized.design.index)) rows.set(sized.design.index, { answer, sized, named: '' });
    }
    return [...rows.values()].sort(
      (a, b) => priceOf(a) - priceOf(b) || b.sized.failedNights - a.sized.failedNights,
    );
  });
}

/** What the rows are: how many nothing beats, of all such designs, and whether others stand among them by their name. */
export function frontTitle(rows: readonly FrontRow[]): string {
  const answers = new Set(rows.map(({ answer }) => answer));
  const best = new Set([...answers].flatMap(({ front }) => front.map(({ design }) => design)));
  const shown = rows.filter(({ sized }) => best.has(sized.design)).length;
  const few = shown < best.size ? `, ${shown} of ${best.size}` : '';
  const others = shown < rows.length ? `${few === '' ? '' : ','} and others named below` : '';
  return `Designs that nothing beats in cost, failed nights and light${few}${others}`;
}

function priceOf({ sized }: FrontRow): number {
  return sized.design.price ?? Number.POSITIVE_INFINITY;
}

function evenly<Value>(values: readonly Value[], count: number): Value[] {
  if (values.length <= count) return [...values];
  return Array.from(
    { length: count },
    (_, k) => values[Math.round((k * (values.length - 1)) / (count - 1))]!,
  );
}

/**
 * A table of designs for the terminal, the rows of each spot under its name, what they were chosen to be in as many columns
 * as there is room for.
 *
 * in: rows, one at least; sizing, that they are of; style
 * out: lines; then the choices that have no column
 */
export function frontTable(
  rows: readonly FrontRow[],
  { answers, scenario }: Sizing,
  style: Paint,
): { lines: string[]; left: string[] } {
  const several = answers.length > 1;
  const { space } = rows[0]!.answer;
  const columns: TextColumn<FrontRow>[] = [
    { heading: ['', ''], cell: ({ named }) => named },
    {
      heading: ['cost', scenario.currency ?? ''],
      cell: ({ sized }) => fixed(sized.design.price ?? Number.NaN, 2),
    },
    { heading: ['failed', 'nights'], cell: ({ sized }) => String(sized.failedNights) },
    { heading: ['lm h', 'a year'], cell: ({ sized }) => fixed(sized.light_lm_h, 0) },
  ];
  const left: string[] = [];
  for (const key of openKeys(space)) {
    const { heading, cell } = keyColumn(key, space);
    const column: TextColumn<FrontRow> = { heading, cell: ({ sized }) => cell(sized.design) };
    const whole = textTable([...columns, column], rows, Number.POSITIVE_INFINITY);
    const wide = whole.some((line) => shownWidth(line) > style.columns);
    if (wide) left.push(key);
    else columns.push(column);
  }
  const [above, below, ...lines] = textTable(columns, rows, style.columns);
  const grouped = lines.flatMap((line, k) => {
    const { answer } = rows[k]!;
    const begins = several && rows[k - 1]?.answer !== answer;
    return begins ? [style.strong(answer.spot ?? ''), line] : [line];
  });
  return { lines: [above!, below!, ...grouped], left };
}
