import type {
  SkylineRow,
  SkylineStretch,
  SpotSheet,
  SpotSurvey,
  StatedObstacle,
} from '../trial/spotSurvey.ts';
import { shortened, shownWidth } from './shownWidth.ts';
import { type Look, type Paint, paint, type TextColumn, textTable } from './textTable.ts';

/**
 * The sheets for surveying the skyline of spots as text: how it is done once, then a sheet a spot.
 *
 * in: survey; look, of the terminal
 * out: text, ending in a line break; '' where no spot is to be surveyed
 */
export function spotSurveyText({ steps, example, sheets }: SpotSurvey, look: Look = {}): string {
  const style = paint(look);
  if (sheets.length === 0) return '';
  const lines = [
    'To survey a spot with compass, paces and a clinometer',
    ...steps.flatMap((step, k) => style.wrap(`${k + 1} ${step}`, 2, 4)),
    '',
    ...style.wrap(example.words, 2),
    ...example.csv
      .trimEnd()
      .split('\n')
      .map((row) => `    ${row}`),
    '  or, as an obstacle:',
    ...style.wrap(example.obstacle, 4, 6),
    ...sheets.flatMap((sheet) => ['', ...sheetLines(sheet, style)]),
  ];
  return `${lines.join('\n')}\n`;
}

/** What a maker writes down at the head of a sheet. */
export const HEAD_WORDS =
  'Date ______  trees (ring one) green bare  declination ______  one pace ______ m  eye at ______ m';
/** And at its foot. */
export const EDGE_WORDS =
  'Upright edges, bearing and angle on both sides: ____ ____ | ____ ____ | ____ ____ | ____ ____';
export const NOTHING_STATED = 'The scenario states nothing around it.';
/** Rows left empty below what the scenario states. */
const SPARE_ROWS = 4;

/** What stands around: as stated, then empty rows. */
export function obstacleRows({ obstacles }: SpotSheet): (StatedObstacle | undefined)[] {
  return [...obstacles, ...Array.from({ length: SPARE_ROWS }, () => undefined)];
}

/**
 * What a skyline is stated to be at one bearing, degrees, in words; '' where nothing is stated.
 * @example skylineWords({ bearing_deg: 0, stated: [] }); // => '0'
 */
export function skylineWords({ stated }: SkylineRow): string {
  if (stated?.length === 0) return '0';
  const words = ({ from_deg, to_deg }: SkylineStretch) =>
    from_deg < 0.5 ? to_deg.toFixed(0) : `${from_deg.toFixed(0)} to ${to_deg.toFixed(0)}`;
  return stated?.map(words).join(', ') ?? '';
}

/** Whose skyline that is. */
export function skylineNames({ stated }: SkylineRow): string {
  return stated?.map(({ name }) => name).join(', ') ?? '';
}

/** Name and kind of an obstacle, the kind where the name does not say it. */
export function obstacleName({ name, kind }: StatedObstacle): string {
  return name.includes(kind) ? name : `${name} (${kind})`;
}

/** The share of light that passes an obstacle, in leaf and without; '' of a solid one. */
export function passingWords({ green, bare }: StatedObstacle): string {
  if (green === 0 && bare === 0) return '';
  return green === bare ? String(green) : `${green} / ${bare}`;
}

/** A blank to write into. */
export const GAP = '______';
const LONGEST_NAME = 22;

/** A column of what may be stated, a gap to write into where it is not. */
function statedColumn(
  heading: readonly [string, string],
  cell: (obstacle: StatedObstacle) => string,
): TextColumn<StatedObstacle | undefined> {
  return { heading, cell: (obstacle) => (obstacle === undefined ? GAP : cell(obstacle)) };
}

const OBSTACLE_COLUMNS: TextColumn<StatedObstacle | undefined>[] = [
  statedColumn(['', 'what'], (obstacle) => shortened(obstacleName(obstacle), LONGEST_NAME)),
  statedColumn(['bearing', 'deg'], ({ bearing_deg }) => bearing_deg.toFixed(0)),
  statedColumn(['distance', 'm'], ({ distance_m }) => distance_m.toFixed(1)),
  statedColumn(['width', 'm'], ({ width_m }) => width_m.toFixed(1)),
  statedColumn(['height', 'm'], ({ height_m }) => height_m.toFixed(1)),
  statedColumn(['passes', 'green / bare'], passingWords),
  { heading: ['angle of', 'its top'], cell: () => GAP },
  { heading: ['', 'found'], cell: (obstacle) => (obstacle === undefined ? '' : '____________') },
];

const LONGEST_NAMES = 17;

/** The round of the skyline in so many blocks side by side, and a blank to write into beside each bearing. */
function skylineTable(skyline: readonly SkylineRow[], longest: number, blocks: number): string[] {
  const each = Math.ceil(skyline.length / blocks);
  const isStated = skyline.some(({ stated }) => stated !== undefined);
  const columns = Array.from({ length: blocks }, (_, block): TextColumn<number>[] => {
    const of = (words: (row: SkylineRow) => string) => (k: number) => words(skyline[block * each + k]!);
    return [
      { heading: ['', 'bearing'], cell: of(({ bearing_deg }) => String(bearing_deg).padStart(7)) },
      ...(isStated
        ? [
            { heading: ['', 'stated'] as const, cell: of(skylineWords) },
            { heading: ['', 'by'] as const, cell: of((row) => shortened(skylineNames(row), LONGEST_NAMES)) },
          ]
        : []),
      { heading: ['', 'seen'], cell: () => GAP },
      ...(isStated ? [] : [{ heading: ['', 'what'] as const, cell: () => `${GAP}${GAP}` }]),
    ];
  }).flat();
  const lines = textTable(
    columns,
    Array.from({ length: each }, (_, k) => k),
    blocks === 1 ? longest : Number.POSITIVE_INFINITY,
  ).slice(1);
  const fits = lines.every((line) => shownWidth(line) <= longest);
  return fits || blocks === 1 ? lines : skylineTable(skyline, longest, blocks - 1);
}

function sheetLines(sheet: SpotSheet, style: Paint): string[] {
  const { spot, cellHeight_m, skyline, obstacles } = sheet;
  const stated = obstacles.length > 0;
  return [
    ...style.wrap(`Sheet for the spot ${spot}, its cell ${cellHeight_m} m above the ground`),
    ...toFillIn(HEAD_WORDS, style),
    ...(stated ? [] : [`  ${NOTHING_STATED}`]),
    '',
    ...textTable(OBSTACLE_COLUMNS, obstacleRows(sheet), style.columns),
    '',
    ...style.wrap(
      `Skyline as the cell sees it, degrees above the level${stated ? ': as stated, and as you see it' : ''}`,
      2,
    ),
    ...skylineTable(skyline, style.columns, 2),
    ...toFillIn(EDGE_WORDS, style),
  ];
}

/** Blanks to write into, in one line where there is room. */
function toFillIn(words: string, style: Paint): string[] {
  return shownWidth(words) + 2 <= style.columns ? [`  ${words}`] : style.wrap(words, 2);
}
