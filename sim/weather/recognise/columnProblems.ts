import { InputProblem } from '../../common/InputProblem.ts';
import type { ColumnContext } from './chooseColumns.ts';
import type { UnitChoice } from './chooseUnit.ts';
import type { ColumnChoice, Layout, QuantityName } from './DetectedFormat.ts';

/** How a message names a column. */
export function nameOf(layout: Layout, column: number): string {
  const heading = layout.headings[column];
  return heading ? `"${heading}"` : `column ${column + 1}`;
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
    fix: `say which one is meant: weather.columns.${quantity}.column.`,
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
    fix: 'say which column it is: weather.columns.ghi.column.',
  });
}

/** Throws where the unit of global irradiance is one that the numbers do not settle, or that they forbid. */
export function refuseUnit(
  context: ColumnContext,
  choice: ColumnChoice,
  unitAt: (quantity: QuantityName, column: number) => UnitChoice,
): void {
  if (choice.unitReason === 'stated by the user') return;
  const unit = unitAt('ghi', choice.column);
  const place = {
    code: 'WEATHER_AMBIGUOUS',
    file: context.file,
    ...(context.layout.headingLine === undefined ? {} : { line: context.layout.headingLine }),
    field: choice.heading || `column ${choice.column + 1}`,
  } as const;
  if (unit.impossible !== undefined) {
    throw new InputProblem({
      ...place,
      got: `${unit.unit} as ${unit.reason}, which would make ${unit.impossible}`,
      expected: `a unit the numbers can be in${unit.others.length > 0 ? `: ${unit.others.join(' or ')}` : ''}`,
      fix: `set weather.columns.ghi.unit${unit.others[0] === undefined ? '' : ` to ${unit.others[0]}`}, or correct the place.`,
    });
  }
  if (unit.others.length > 0) {
    throw new InputProblem({
      ...place,
      got: `no unit, and numbers that could be ${[unit.unit, ...unit.others].join(' or ')}`,
      expected: 'a stated unit, or a longer stretch in which clear days show',
      fix: `say which: weather.columns.ghi.unit: ${unit.unit}${context.latitude_deg === undefined ? '; a latitude may settle it too' : ''}.`,
    });
  }
}
