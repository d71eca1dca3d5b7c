import { fixOf, InputProblem } from '../../common/InputProblem.ts';
import type { ColumnContext } from './chooseColumns.ts';
import type { UnitChoice } from './chooseUnit.ts';
import type { ColumnChoice, Layout, QuantityName } from './DetectedFormat.ts';

/** How a message names a column. */
export function nameOf(layout: Layout, column: number): string {
  const heading = layout.headings[column];
  return heading ? `"${heading}"` : `column ${column + 1}`;
}

/** A column as it is typed; by number where its heading is not its own. */
function columnTyped({ headings }: Layout, quantity: QuantityName, column: number): string {
  const heading = headings[column] ?? '';
  const isOwn = heading !== '' && headings.filter((other) => other === heading).length === 1;
  const value = `${quantity}=${isOwn ? heading : column + 1}`;
  return `--column ${/[^\w=./-]/.test(value) ? `"${value}"` : value}`;
}

/** A unit as it is typed. */
export function unitTyped(quantity: QuantityName, unit: string): string {
  const value = `${quantity}=${unit}`;
  return `--unit ${value.includes(' ') ? `"${value}"` : value}`;
}

/** The columns there are, in words. */
export function columnsText(layout: Layout): string {
  if (layout.headings.length === 0) return `${layout.width} columns without headings`;
  const names = layout.headings.filter((heading) => heading !== '').map((heading) => `"${heading}"`);
  return `the columns ${names.slice(0, 20).join(', ')}${names.length > 20 ? ', ...' : ''}`;
}

/** Two columns that could be the same light and disagree. */
export function twoLights(
  context: ColumnContext,
  quantity: QuantityName,
  a: number,
  b: number,
): InputProblem {
  const { layout, file } = context;
  return new InputProblem({
    code: 'WEATHER_AMBIGUOUS',
    file,
    ...(layout.headingLine === undefined ? {} : { line: layout.headingLine }),
    field: quantity,
    got: `${nameOf(layout, a)} and ${nameOf(layout, b)}, which could both be ${quantity} and disagree`,
    expected: `one column for ${quantity}`,
    ...fixOf(
      [a, b].map((column) => columnTyped(layout, quantity, column)),
      ` (in a scenario, weather.columns.${quantity}.column).`,
    ),
  });
}

/** No column of light. */
export function noLight(context: ColumnContext): InputProblem {
  return new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file: context.file,
    ...(context.layout.headingLine === undefined ? {} : { line: context.layout.headingLine }),
    field: 'ghi',
    got: columnsText(context.layout),
    expected:
      'a column of global irradiance, or of both direct and diffuse, that is dark at night and as bright by day as daylight',
    fix: '--column ghi=NAME, with the heading or the number of the column (in a scenario, weather.columns.ghi.column).',
  });
}

/** Throws where the unit of global irradiance is one that the numbers do not settle. */
export function refuseUnit(
  context: ColumnContext,
  choice: ColumnChoice,
  unitAt: (quantity: QuantityName, column: number) => UnitChoice,
): void {
  if (choice.unitReason === 'stated by the user') return;
  const unit = unitAt(choice.quantity, choice.column);
  const place = {
    code: 'WEATHER_AMBIGUOUS',
    file: context.file,
    ...(context.layout.headingLine === undefined ? {} : { line: context.layout.headingLine }),
    field: choice.heading || `column ${choice.column + 1}`,
  } as const;
  if (unit.others.length > 0) {
    throw new InputProblem({
      ...place,
      got: `no unit, and numbers that could be ${[unit.unit, ...unit.others].join(' or ')}`,
      expected: 'a stated unit, or a longer stretch in which clear days show',
      ...fixOf(
        [unit.unit, ...unit.others].map((name) => unitTyped(choice.quantity, name)),
        `${choice.quantity === 'ghi' ? ' (in a scenario, weather.columns.ghi.unit)' : ''}${context.latitude_deg === undefined ? '; a latitude may settle it too' : ''}.`,
      ),
    });
  }
}
