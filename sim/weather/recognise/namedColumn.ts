import { nearestWord } from '../../common/hints.ts';
import { InputProblem } from '../../common/InputProblem.ts';
import type { ColumnContext } from './ColumnChoices.ts';
import { columnsText } from './columnProblems.ts';
import { headingPlace, type QuantityName } from './DetectedFormat.ts';

/**
 * The column that the user names, by its heading or its number.
 *
 * in: file, name for messages; layout; name; what it shall hold, a quantity or 'time'
 * throws: WEATHER_COLUMN_MISSING, WEATHER_AMBIGUOUS where two bear the name
 */
export function namedColumn(
  { file, layout }: Pick<ColumnContext, 'file' | 'layout'>,
  name: string,
  what: QuantityName | 'time',
): number {
  const named = (reads: (text: string) => string): number[] =>
    layout.headings.flatMap((heading, c) => (reads(heading) === reads(name.trim()) ? [c] : []));
  const exact = named((text) => text);
  const byName = exact.length > 0 ? exact : named((text) => text.toLowerCase());
  const place = { file, ...headingPlace(layout), field: name };
  if (byName.length > 1) {
    throw new InputProblem({
      ...place,
      code: 'WEATHER_AMBIGUOUS',
      got: `the heading twice, in columns ${byName[0]! + 1} and ${byName[1]! + 1}`,
      expected: 'one column of that name',
      fix: `rename one of them, or name it by its number, as ${byName[0]! + 1}.`,
    });
  }
  if (byName.length === 1) return byName[0]!;
  const number = Number(/^(?:column )?(\d+)$/.exec(name.trim())?.[1]);
  if (number >= 1 && number <= Math.max(layout.width, layout.headings.length)) return number - 1;
  const near = nearestWord(name, layout.headings);
  const meant = near === undefined ? '' : `did you mean "${near}"? `;
  throw new InputProblem({
    ...place,
    code: 'WEATHER_COLUMN_MISSING',
    got: columnsText(layout),
    expected: `a column "${name}" for ${what}`,
    fix:
      what === 'time'
        ? `${meant}Name one of these, or its number, in weather.stamp.column.`
        : `${meant}--column ${what}=NAME, with one of these, or its number.`,
  });
}
