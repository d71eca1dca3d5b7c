import { fixed } from '../common/csvText.ts';
import type { SkyPicture } from '../spot/skyPicture.ts';
import { monthName } from './words.ts';

/** Glyphs by the share of light that passes: from the least share on. */
const SHADES: readonly (readonly [number, string])[] = [
  [0.95, ' '],
  [0.6, '░'],
  [0.3, '▒'],
  [0.05, '▓'],
  [0, '█'],
];
const LETTERS: Readonly<Record<number, string>> = { 6: 'J', 3: 'M', 12: 'D' };
const MIDDLE = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];

/**
 * The sky from a spot as lines of text: bearing across, elevation up, the sun's way in June, March and December, and
 * hours of sun a day by month. At most 90 columns with the grid of 5 degrees, unless a name is longer.
 *
 * in: picture; title; southern, whether north comes into the middle; bare, to draw the trees without leaves
 * out: lines
 */
export function skyPictureText(
  picture: SkyPicture,
  title: string,
  { southern = false, bare = false }: { southern?: boolean; bare?: boolean } = {},
): string[] {
  const { grid } = picture;
  const shares = bare && grid.bare !== undefined ? grid.bare : grid.inLeaf;
  const columns = grid.bearing_deg.length;
  const rows = grid.elevation_deg.length;
  const turn = southern ? columns / 2 : 0;
  const cells = shares.map((row) => row.map((_, c) => shade(row[(c + turn) % columns]!)));
  drawSun(cells, picture, turn);
  const leaves = grid.bare === undefined ? '' : bare ? ', trees bare' : ', trees in leaf';
  const lines = [`Sky from ${title}${leaves} (bearing across, degrees of elevation up):`];
  for (let row = rows - 1; row >= 0; row--) {
    const top_deg = ((row + 1) * 90) / rows;
    const label = top_deg % 15 === 0 ? String(top_deg) : '';
    lines.push(`  ${label.padStart(2)} |${cells[row]!.join('')}|`);
  }
  lines.push(`   0 +${'-'.repeat(columns)}+`, `     ${compass(columns, southern)}`);
  lines.push(
    '  █ shut  ▓ ▒ ░ lets some through',
    '  Sun on the 21st of June J, March M, December D; small: hidden',
    ...outlineLines(picture),
    '',
    ...beamLines(picture),
  );
  return lines.map((line) => line.trimEnd());
}

/** Marks the way of the sun in the cells, in small letters where it is hidden. */
function drawSun(cells: string[][], { sunPaths }: SkyPicture, turn: number): void {
  const rows = cells.length;
  const columns = cells[0]!.length;
  for (const { month, points } of sunPaths) {
    const letter = LETTERS[month];
    if (letter === undefined) continue;
    for (const { bearing_deg, elevation_deg, passes } of points) {
      const row = Math.min(Math.floor((elevation_deg / 90) * rows), rows - 1);
      const column = (Math.floor((bearing_deg / 360) * columns) - turn + columns) % columns;
      cells[row]![column] = passes >= 0.5 ? letter : letter.toLowerCase();
    }
  }
}

/** The points of the compass below the columns, north at both ends (south, where north is in the middle). */
function compass(columns: number, southern: boolean): string {
  const axis: string[] = new Array(columns + 2).fill(' ');
  for (let k = 0; k <= MIDDLE.length; k++) {
    const name = MIDDLE[(k + (southern ? 4 : 0)) % MIDDLE.length]!;
    const at = Math.min(Math.round((k * columns) / MIDDLE.length), columns + 2 - name.length);
    for (let c = 0; c < name.length; c++) axis[at + c] = name[c]!;
  }
  return axis.join('');
}

function shade(share: number): string {
  return SHADES.find(([least]) => share >= least)?.[1] ?? '█';
}

/** A line for each obstacle: where it is seen, and how high it reaches. */
function outlineLines({ outlines }: SkyPicture): string[] {
  return outlines.flatMap(({ name, kind, points }) => {
    if (points.length === 0) return [];
    const highest_deg = points.reduce((most, point) => Math.max(most, point.to_deg), 0);
    const all = points.length === 360;
    // The first bearing after a gap; what is seen across north begins before it.
    const starts = points.findIndex(
      ({ bearing_deg }, k) => bearing_deg - points.at(k - 1)!.bearing_deg !== 1 && (k > 0 || bearing_deg > 0),
    );
    const first = points[Math.max(starts, 0)]!;
    const last = points.at(starts - 1)!;
    const what = kind === 'trunk' ? `${name} (trunk)` : name;
    const where = all ? 'all around' : `from ${first.bearing_deg} to ${last.bearing_deg}`;
    return [`  ${what}: ${where}, up to ${fixed(highest_deg, 0)} degrees`];
  });
}

function beamLines({ months }: SkyPicture): string[] {
  const row = (name: string, cell: (month: SkyPicture['months'][number]) => string) =>
    `  ${name.padEnd(12)}${months.map((month) => cell(month).padStart(5)).join('')}`;
  return [
    'Hours a day with the sun above the horizon, and in sight of the spot, means of the month:',
    row('', ({ month }) => monthName(month)),
    row('above', ({ sun_h }) => fixed(sun_h, 1)),
    row('in sight', ({ beam_h }) => fixed(beam_h, 1)),
  ];
}
