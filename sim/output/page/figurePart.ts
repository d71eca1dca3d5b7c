import { element, escapeText } from '../figures/element.ts';
import type { Figure, FigureTable, TableColumn } from '../figures/Figure.ts';
import { embeddedJson } from './pageShell.ts';

/**
 * A picture's part of the page: heading, picture with the reader that points into it, what it says, its data as CSV
 * and as a table, unit, assumption and source.
 *
 * in: id, of the trial (or the run) it belongs to; figure
 * out: markup
 */
export function figurePart(id: string, figure: Figure): string {
  const note = FIGURE_NOTES[figure.key];
  const heading = note?.heading ?? figure.title;
  const own = `${id}-${figure.key}`;
  const kind = figure.upright === undefined ? 'stage' : 'stage across';
  const stage = element('div', { class: kind }, figure.svg + reader(figure, heading));
  const parts = [
    element('h3', { id: `${own}-heading` }, escapeText(heading)),
    element('figcaption', {}, escapeText(figure.summary)),
    element('div', { class: 'scroll' }, stage + uprightStage(figure, heading)),
    figure.reader === undefined ? '' : '<div class="reading" hidden></div>',
    figure.key === 'capacitor' ? '<div class="closer" hidden></div>' : '',
    about(note, own),
    `<script type="application/json" class="data">${embeddedJson(shortTable(figure.table))}</script>`,
  ];
  const attributes = {
    class: `figure figure-${figure.key}`,
    id: own,
    'data-figure': figure.key,
    'data-of': id,
  };
  return element('figure', attributes, parts.join('\n'));
}

/** The picture turned for a narrow screen, with a reader of its own. */
function uprightStage(figure: Figure, heading: string): string {
  const { upright, reader: facts } = figure;
  if (upright === undefined) return '';
  const turned = {
    ...figure,
    width: upright.width,
    height: upright.height,
    reader: facts && { ...facts, ...upright.plot },
  };
  return element('div', { class: 'stage upright' }, upright.svg + reader(turned, heading, true));
}

/** The pointer into a picture: a slider along its rows, laid over its plot; the page's script brings it to life. */
function reader(figure: Figure, heading: string, upright = false): string {
  const { reader: facts, width, height, table } = figure;
  if (facts === undefined || table.rows.length === 0) return '';
  const percent = (part: number, whole: number) => `${Math.round((1e4 * part) / whole) / 100}%`;
  return element(
    'div',
    {
      class: 'reader',
      hidden: '',
      role: 'slider',
      tabindex: '0',
      'aria-orientation': upright ? 'vertical' : undefined,
      'aria-label': `${heading}: ${facts.step} by ${facts.step}`,
      'aria-valuemin': 1,
      'aria-valuemax': table.rows.length,
      'aria-valuenow': facts.first + 1,
      'data-step': facts.step,
      'data-first': facts.first,
      'data-stops': facts.stops === undefined ? undefined : embeddedJson(facts.stops),
      style: `left:${percent(facts.x, width)};top:${percent(facts.y, height)};width:${percent(facts.width, width)};height:${percent(facts.height, height)}`,
    },
    '<div class="needle"></div>',
  );
}

function about(note: FigureNote | undefined, own: string): string {
  return (
    `<div class="tools" hidden><button type="button" data-do="csv">Save data (CSV)</button>` +
    `<button type="button" data-do="svg">Save picture (SVG)</button>` +
    `<button type="button" data-do="table" aria-expanded="false" aria-controls="${own}-table">Show as table</button></div>` +
    `<div class="tableSpace" id="${own}-table" hidden></div>` +
    `<details class="about"><summary>Unit, assumption, source</summary><dl>${note === undefined ? '' : noteTerms(note)}</dl></details>`
  );
}

function noteTerms({ unit, assumption, sources }: FigureNote): string {
  const cited = sources.map((key) => escapeText(CITED[key]!)).join('; ');
  const facts = [
    ['Unit', escapeText(unit)],
    ['Assumption', `${escapeText(assumption)} <a href="#grounds-assumptions">All that was assumed</a>.`],
    ['Source', cited === '' ? 'The table of nights of this run; no outside equation.' : cited],
  ];
  return facts.map(([name, markup]) => `<dt>${name}</dt><dd>${markup}</dd>`).join('');
}

/** The table with its rows as lines of cells parted by commas, where no cell holds one: half as long. */
function shortTable({ columns, rows }: FigureTable): { columns: TableColumn[]; rows: string | string[][] } {
  const plain = rows.every((row) => row.every((cell) => !/[,\n]/.test(cell)));
  return { columns, rows: plain ? rows.map((row) => row.join(',')).join('\n') : rows };
}

/** What a picture's numbers are, what they rest on, and whose equations they follow. */
export interface FigureNote {
  /** Name of its section on the page. */
  heading: string;
  unit: string;
  assumption: string;
  /** Keys of the list of sources. */
  sources: readonly string[];
}

/** Sources as the page cites them, by their keys in the program's list of sources. */
export const CITED: Readonly<Record<string, string>> = {
  Meeus1998: 'J. Meeus, Astronomical Algorithms, 2nd edition, Willmann-Bell 1998',
  Erbs1982: 'D. G. Erbs, S. A. Klein and J. A. Duffie, Solar Energy 28 (1982) 293-302',
  HayDavies1980:
    'J. E. Hay and J. A. Davies, Proc. First Canadian Solar Radiation Data Workshop, Toronto 1980 (from memory)',
  ZubietaBonert2000:
    'L. Zubieta and R. Bonert, Characterization of double-layer capacitors for power electronics applications (from memory)',
  IEC60904: 'IEC 60904-3: standard test conditions of photovoltaic devices (from memory)',
  HyndmanFan1996: 'R. J. Hyndman and Y. Fan, The American Statistician 50 (1996) 361-365 (from memory)',
  Wilson1927: 'E. B. Wilson, Journal of the American Statistical Association 22 (1927) 209-212 (from memory)',
  ISO9488: 'ISO 9488, Solar energy, Vocabulary (from memory)',
};

/** By the key of the picture. */
export const FIGURE_NOTES: Readonly<Record<string, FigureNote>> = {
  winters: {
    heading: 'Winter by winter, every night',
    unit: 'Share of the promised hours; the number before each row is its failed nights.',
    assumption:
      'A kept night is drawn as lit, whatever of its promise was short within the tolerance. Rows run with the season; 29 February has a place in all of them.',
    sources: [],
  },
  'winter-counts': {
    heading: 'Failed nights, from the best winter to the worst',
    unit: 'Failed nights of a winter.',
    assumption:
      'Winters are taken as a sample: typical is the median, and one winter in ten passes the worst in ten, which is told from ten winters on only. Whole winters alone, or their dark months.',
    sources: ['HyndmanFan1996', 'Wilson1927'],
  },
  nights: {
    heading: 'Every night',
    unit: 'Hours by the clock on the wall, daylight saving included; capacitor in volts.',
    assumption:
      "Dusk and dawn are the sun's centre 6 degrees below the horizon. Lit means at or above the promised light, dim on but below it, out off. Each hour's minutes of each are exact; where several changes fall into one hour they are shown as one.",
    sources: ['Meeus1998'],
  },
  odds: {
    heading: 'When it fails',
    unit: 'Of a hundred made winters.',
    assumption:
      'Winters are made from those on file; a climate that changes, or a winter unlike any on file, is not foreseen.',
    sources: [],
  },
  changes: {
    heading: 'What single changes would do',
    unit: 'Failed nights.',
    assumption:
      'Each change alone, the whole record run again with it, all else as stated. What is added costs only where its parts have prices; those of generic parts are from memory.',
    sources: [],
  },
  capacitor: {
    heading: 'The capacitor through the year',
    unit: 'Volts across the capacitor, light in W/m2 on the cell.',
    assumption:
      'The cell can charge the capacitor up to the voltage at which its current through the diode just covers leakage and standby, in that light and temperature; leakage falls with voltage by the law stated in the scenario.',
    sources: ['ZubietaBonert2000', 'IEC60904'],
  },
  fortnight: {
    heading: 'The darkest fortnight, hour by hour',
    unit: 'W/m2, degrees Celsius, volts, lumen; light and LED are means of the hour.',
    assumption:
      'The 14 nights running with most short hours; of equals the one with least light on the cell. The jar follows the air with the time constant stated in the scenario.',
    sources: ['ZubietaBonert2000'],
  },
  brightness: {
    heading: 'How bright "lit" is',
    unit: 'Hours a night, mean over the nights of a month.',
    assumption:
      'Half and a fifth are of the light at switching on that same night: after a dull day that is little, so read all three together.',
    sources: [],
  },
  energy: {
    heading: 'Where the energy went',
    unit: 'Watt-hours a month (1 Wh is 3600 J).',
    assumption:
      "Not used is what the cell at its best voltage would have given beyond what it gave, since the capacitor holds it at its own: 'capacitor too low' below the best voltage, 'already full' above it. What the cell gave is the sum of the parts below and the change of what is stored.",
    sources: ['IEC60904', 'ZubietaBonert2000'],
  },
  sky: {
    heading: 'The sky from the spot',
    unit: 'Degrees of bearing (clockwise from north) and elevation; hours of sun a day.',
    assumption:
      'The grid is of 5 degrees, trees in leaf. Through a crown of half transmittance an hour of sun counts half.',
    sources: ['Meeus1998', 'HayDavies1980'],
  },
  light: {
    heading: 'Light on the cell, spot by spot',
    unit: 'Wh/m2 a day, mean over the days of a month.',
    assumption:
      'On the cell as it lies in each spot, behind its cover. The open is level ground under the whole sky.',
    sources: ['HayDavies1980', 'Erbs1982'],
  },
  'nights-compared': {
    heading: 'The nights, side by side',
    unit: 'Share of the promised hours, lit, dim and out.',
    assumption: 'Of each the worst winter of the record.',
    sources: [],
  },
  designs: {
    heading: 'Cost against failed nights',
    unit: 'Money for the parts of one lamp that must be bought; failed nights by their square root, so that few can be told apart; area of a mark: lumen-hours a year.',
    assumption:
      'Every design was run over the whole record; those are missing that bounds showed to be beaten. Of designs that would lie on each other the brightest is drawn; designs.csv has all.',
    sources: [],
  },
  weather: {
    heading: 'The year of the weather',
    unit: 'W/m2 of global light on level ground, mean of the hour; degrees Celsius.',
    assumption: 'As the file gives it; where it has global light only, beam and sky light are split from it.',
    sources: ['ISO9488', 'Erbs1982'],
  },
};
