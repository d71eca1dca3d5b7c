import type { SkylineRow, SpotSheet, SpotSurvey, StatedObstacle } from '../../trial/spotSurvey.ts';
import { element, escapeText, isolated } from '../figures/element.ts';
import {
  EDGE_WORDS,
  GAP,
  HEAD_WORDS,
  NOTHING_STATED,
  obstacleName,
  obstacleRows,
  passingWords,
  skylineNames,
  skylineWords,
} from '../spotSurveyText.ts';
import {
  listMarkup,
  type MarkupColumn,
  nameMarkup,
  numberColumn,
  paragraphMarkup,
  sheetOf,
  tableMarkup,
} from './tableMarkup.ts';

const BLOCKS = 2;

/**
 * The sheet for surveying one spot as a part of the page, which prints on one sheet: how it is done, what is stated, and
 * blanks to write into.
 *
 * in: id; sheet; survey that it is of; of, names on the page of the trials in this spot, beside one of which alone it is
 *   shown; all by default
 * out: markup
 */
export function spotPart(
  id: string,
  sheet: SpotSheet,
  { steps, example }: SpotSurvey,
  of?: readonly string[],
): string {
  const { spot, cellHeight_m, obstacles, skyline } = sheet;
  const stated = obstacles.length > 0;
  const each = Math.ceil(skyline.length / BLOCKS);
  const columns = stated ? [BEARING, STATED, BY, SEEN] : [BEARING, SEEN, WHAT];
  const blocks = Array.from({ length: BLOCKS }, (_, block) => {
    const rows = skyline.slice(block * each, (block + 1) * each);
    return tableMarkup(`Skyline of ${isolated(spot)} from ${rows[0]!.bearing_deg} deg`, columns, rows);
  });
  return [
    `<section class="bench survey" id="${id}"${sheetOf(of)} aria-labelledby="${id}-name">`,
    `<h2 id="${id}-name">To survey the spot ${nameMarkup(spot)}, its cell ${cellHeight_m} m above the ground</h2>`,
    '<div class="pair"><div>',
    `<h3>How</h3>${listMarkup(steps, 'ways')}`,
    `<h3>Worked through</h3>${paragraphMarkup(example.words)}`,
    `<pre>${escapeText(example.csv.trimEnd())}</pre>${paragraphMarkup(`or, as an obstacle: ${example.obstacle}`)}`,
    '</div><div>',
    paragraphMarkup(HEAD_WORDS, 'blanks'),
    stated ? '' : paragraphMarkup(NOTHING_STATED),
    `<h3>What stands around</h3>`,
    tableMarkup(`What stands around ${isolated(spot)}`, OBSTACLE_COLUMNS, obstacleRows(sheet)),
    `<h3>Skyline as the cell sees it, degrees above the level</h3>`,
    element('div', { class: 'blocks' }, blocks.join('\n')),
    paragraphMarkup(EDGE_WORDS, 'blanks'),
    '</div></div>',
    '</section>',
  ].join('\n');
}

type MaybeStated = StatedObstacle | undefined;

function statedColumn(
  heading: string,
  cell: (obstacle: StatedObstacle) => string,
): MarkupColumn<MaybeStated> {
  return numberColumn(heading, (obstacle) => (obstacle === undefined ? GAP : cell(obstacle)));
}

const OBSTACLE_COLUMNS: MarkupColumn<MaybeStated>[] = [
  { heading: 'what', cell: (obstacle) => (obstacle === undefined ? `${GAP}${GAP}` : obstacleName(obstacle)) },
  statedColumn('bearing, deg', ({ bearing_deg }) => bearing_deg.toFixed(0)),
  statedColumn('distance, m', ({ distance_m }) => distance_m.toFixed(1)),
  statedColumn('width, m', ({ width_m }) => width_m.toFixed(1)),
  statedColumn('height, m', ({ height_m }) => height_m.toFixed(1)),
  statedColumn('passes green / bare', passingWords),
  { heading: 'angle of its top', cell: () => GAP },
  { heading: 'found', cell: () => `${GAP}${GAP}` },
];

const BEARING: MarkupColumn<SkylineRow> = numberColumn('bearing', ({ bearing_deg }) => String(bearing_deg));
const STATED: MarkupColumn<SkylineRow> = numberColumn('stated', skylineWords);
const BY: MarkupColumn<SkylineRow> = { heading: 'by', cell: skylineNames };
const SEEN: MarkupColumn<SkylineRow> = { heading: 'seen', cell: () => GAP };
const WHAT: MarkupColumn<SkylineRow> = { heading: 'what', cell: () => `${GAP}${GAP}` };
