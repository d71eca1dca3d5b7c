import { type CsvColumn, csvText } from '../common/csvText.ts';
import type { Json } from '../scenario/Scenario.ts';
import type { SizedDesign } from '../sizing/SizedDesign.ts';
import type { Sizing } from '../sizing/sizeScenario.ts';
import { cellText, DESIGN_COLUMNS, DESIGN_HEADINGS } from './columns.ts';
import { namedDesigns } from './frontTable.ts';

interface Row {
  named: string;
  sized: SizedDesign;
}

/**
 * The text of designs.csv: a row per spot and design that was run whole, in the order of the choices; the present lamp
 * first where it is none of them.
 *
 * in: sizing
 * out: CSV text, one heading row
 */
export function designsCsv({ answers }: Sizing): string {
  const rows = answers.flatMap((answer): Row[] => {
    const names = new Map(namedDesigns(answer).map(({ named, sized }) => [sized.design.index, named]));
    const { present, sized: ran } = answer;
    const apart = present === undefined || ran.includes(present) ? [] : [present];
    return [...apart, ...ran].map((sized) => ({
      named: names.get(sized.design.index) ?? '',
      sized,
    }));
  });
  const keys = [...new Set(rows.flatMap(({ sized }) => sized.design.chosen.map(({ key }) => key)))];
  const [recommended, spot] = Object.keys(DESIGN_HEADINGS) as [string, string];
  const columns: CsvColumn<Row>[] = [
    { heading: recommended, cell: ({ named }) => named },
    { heading: spot, cell: ({ sized }) => sized.design.spot.name },
    ...keys
      .filter((key) => key !== 'spot')
      .map((key) => ({ heading: key, cell: ({ sized }: Row) => chosenText(sized, key) })),
    ...DESIGN_COLUMNS.map((column) => ({
      heading: column.heading,
      cell: ({ sized: { design, ...outcome } }: Row) =>
        cellText(column, { ...outcome, price: design.price ?? Number.NaN }, String),
    })),
  ];
  return csvText(columns, rows);
}

/** '' where nothing was chosen, as of the present lamp. */
function chosenText({ design }: SizedDesign, key: string): string {
  const value: Json | undefined = design.chosen.find((each) => each.key === key)?.value;
  if (value === undefined) return '';
  if (value === null) return 'none';
  return typeof value === 'object' ? JSON.stringify(value) : String(value);
}
