import { InputProblem } from '../../common/InputProblem.ts';
import type { ColumnChoices, ColumnContext } from './ColumnChoices.ts';
import { columnsText, columnTyped } from './columnProblems.ts';
import { columnName, columnTexts, headingPlace, type QuantityName } from './DetectedFormat.ts';
import { type ForeignUnit, foreignUnit } from './foreignUnit.ts';
import { looksLikeLight } from './inferColumnsFromValues.ts';
import { patternTable, QUANTITY_WORDS } from './quantityWords.ts';
import { unitFromWords } from './unitFromWords.ts';
import { normaliseHeading } from './words.ts';

/** What a column holds that its words say is no global irradiance, on `normaliseHeading`. */
const HELD = patternTable<string>(String.raw`
  light on a tilted plane  tilt|inclin|genei?gt|\bplane\b|\bpoa\b|\bgti\b
  a sky without clouds, which is reckoned and not measured  clear|\bclr|\bcs\b|klarhimmel|cloud ?free
  light outside the air  extra ?ter|\betr\b|\btoa\b|top of
  diffuse light alone  diffus|difus|\bdhi\b|\bgd\b|haja|himmel|rozpros|rozptyl|difuz|scatter
  direct light alone  direct|direkt|beam|normal|\bdni\b|\bgb
  what a panel or its converter gives  \bpv\b|photovolt|inverter|wechselrichter|\byield\b|ertrag
  a part of the spectrum  \buv|ultra|\bpar\b|photosyn|infra
  a balance, or light that the ground sends back  \bnet\b|netto|balan|\bbil[aj]n|refle|albedo|outgoing|upw
`);
const MEASURES = {
  voltage: 'is a voltage',
  current: 'is a current',
  share: 'is a share',
  count: 'is a count of a converter',
  photons: 'counts photons',
  power: 'without an area is the power of a panel',
  energy: 'without an area is the energy of a panel',
} as const satisfies Record<ForeignUnit['what'], string>;

const isOfPanel = ({ what }: ForeignUnit): boolean => what === 'power' || what === 'energy';

/** A column of light that the user names without a unit, and whose own is none of irradiance. */
export function noIrradiance(
  context: ColumnContext,
  quantity: QuantityName,
  column: number,
  foreign: ForeignUnit,
): InputProblem {
  const { file, layout } = context;
  return new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file,
    ...headingPlace(layout, column),
    got: `${columnName(layout, column)}, where ${unitText(foreign)}`,
    expected: `irradiance for ${quantity}, or a stated unit of it`,
    fix: calibration(context, quantity, column, foreign),
  });
}

/** A file in which no column holds the light: what it has, and why those that come near it are left aside. */
export function noLight(choices: ColumnChoices): InputProblem {
  const { context, values } = choices;
  const { file, layout } = context;
  const near = values.flatMap((list, column) => {
    if (list === undefined || !isNearLight(choices, column, list)) return [];
    const foreign = foreignUnit(layout, column);
    const why = foreign === undefined ? heldBy(choices, column) : unitText(foreign);
    return why === undefined ? [] : [{ column, foreign, why }];
  });
  const asides = near.map(({ column, why }) => `; ${columnName(layout, column)} is left aside: ${why}`);
  const [first] = near;
  const fix =
    first === undefined
      ? '--column ghi=NAME, with the heading or the number of the column (in a scenario, weather.columns.ghi.column).'
      : first.foreign === undefined
        ? `${columnTyped(layout, 'ghi', first.column)} reads it all the same as light on level ground (in a scenario, weather.columns.ghi.column).`
        : calibration(context, 'ghi', first.column, first.foreign);
  return new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file,
    ...headingPlace(layout),
    field: 'ghi',
    got: `${columnsText(layout)}${asides.join('')}`,
    expected:
      'a column of global irradiance, or of both direct and diffuse, that is dark at night and as bright by day as daylight',
    fix,
  });
}

function unitText(foreign: ForeignUnit): string {
  return `${foreign.written} ${MEASURES[foreign.what]}, no irradiance`;
}

function calibration(
  { layout }: ColumnContext,
  quantity: QuantityName,
  column: number,
  foreign: ForeignUnit,
): string {
  const named = columnTyped(layout, quantity, column);
  const onLamp = 'what was logged on the cell of a lamp goes in as light_on_cell (see scenarios/README.md)';
  if (isOfPanel(foreign)) {
    const unit = `${foreign.written}/m2`;
    return `where it is light on a square metre, ${named} --unit ${quantity}=${unit}; where it is what a panel gives, compare it with a known instrument, multiply, and say the same; ${onLamp}.`;
  }
  return `compare it with a known instrument in the same light, multiply its numbers, and say ${named} --unit ${quantity}=W/m2; ${onLamp}.`;
}

/** Words, a unit or numbers of light. */
function isNearLight({ context }: ColumnChoices, column: number, values: Float64Array): boolean {
  const texts = columnTexts(context.layout, column).map(({ text }) => text);
  const isOfLight = (text: string): boolean =>
    unitFromWords(text, 'ghi') !== undefined ||
    QUANTITY_WORDS.ghi.yes.some(([pattern]) => pattern.test(normaliseHeading(text)));
  return texts.some(isOfLight) || looksLikeLight(values, context);
}

function heldBy({ context: { layout } }: ColumnChoices, column: number): string | undefined {
  const words = normaliseHeading(`${layout.headings[column] ?? ''} ${layout.legends[column] ?? ''}`);
  const held = HELD.find(([pattern]) => pattern.test(words))?.[1];
  const [word] = QUANTITY_WORDS.ghi.no.exec(words) ?? [];
  if (held !== undefined && word !== undefined) return `its words speak of ${held}`;
  return word === undefined ? undefined : `its words speak of "${word.trim()}"`;
}
