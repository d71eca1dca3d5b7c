import { element, wordsMarkup } from '../figures/element.ts';
import type { Figure, FigureTable, TableColumn } from '../figures/Figure.ts';
import { embeddedJson } from './embeddedJson.ts';
import { CITED, FIGURE_NOTES, type FigureNote, LIFE_CITED } from './figureNotes.ts';

/**
 * A picture's part of the page: heading, picture with the reader that points into it, what it says, its data as CSV
 * and as a table, unit, assumption and source.
 *
 * in: id, of the trial (or the run) it belongs to; figure, undefined where there was nothing to draw
 * out: markup; '' without a figure
 */
export function figurePart(id: string, figure: Figure | undefined): string {
  if (figure === undefined) return '';
  const note = FIGURE_NOTES[figure.key];
  const heading = note?.heading ?? figure.title;
  const own = `${id}-${figure.key}`;
  const stage = element('div', { class: 'stage across' }, figure.svg + reader(figure, heading));
  const parts = [
    element('h3', { id: `${own}-heading` }, wordsMarkup(heading)),
    captionMarkup(figure),
    element('div', { class: 'scroll' }, stage + narrowStage(figure, heading)),
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

/** Of a picture's part of the page what a hand that turns values watches: what it says, and both its forms. */
export function figureSight(figure: Figure | undefined): string {
  return figure === undefined ? '' : captionMarkup(figure) + figure.svg + figure.narrow.svg;
}

function captionMarkup({ summary }: Figure): string {
  return element('figcaption', {}, wordsMarkup(summary));
}

/** The picture for a narrow screen, with a reader of its own. */
function narrowStage(figure: Figure, heading: string): string {
  const { narrow, reader: facts } = figure;
  const { svg, width, height, plot, panels, turned } = narrow;
  const own = reader(
    { ...figure, width, height, reader: facts && { ...facts, ...plot, panels } },
    heading,
    turned,
  );
  return element('div', { class: 'stage narrow' }, svg + own);
}

/** The pointer into a picture: a slider along its rows, laid over its plot; the page's script brings it to life. */
function reader(figure: Figure, heading: string, upright = false): string {
  const { reader: facts, width, height, table } = figure;
  if (facts === undefined || table.rows.length === 0) return '';
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
    needles(facts, upright),
  );
}

/** What marks a row: one needle through the plot, or one for each of its panels. */
function needles(plot: NonNullable<Figure['reader']>, upright: boolean): string {
  if (upright || plot.panels.length === 0) return element('div', { class: 'needle' }, ' ');
  return plot.panels
    .map(({ y, height }) => {
      const style = `top:${percent(y - plot.y, plot.height)};height:${percent(height, plot.height)}`;
      return element('div', { class: 'needle', style }, ' ');
    })
    .join('');
}

function percent(part: number, whole: number): string {
  return `${Math.round((1e4 * part) / whole) / 100}%`;
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
  const cited = sources.map((key) => wordsMarkup(CITED[key] ?? LIFE_CITED[key]!)).join('; ');
  const facts = [
    ['Unit', wordsMarkup(unit)],
    ['Assumption', `${wordsMarkup(assumption)} <a href="#grounds-assumptions">All that was assumed</a>.`],
    ['Source', cited === '' ? 'The table of nights of this run; no outside equation.' : cited],
  ];
  return facts.map(([name, markup]) => `<dt>${name}</dt><dd>${markup}</dd>`).join('');
}

/** The table with its rows as lines of cells parted by commas, where no cell holds one: half as long. */
function shortTable({ columns, rows }: FigureTable): { columns: TableColumn[]; rows: string | string[][] } {
  const plain = rows.every((row) => row.every((cell) => !/[,\n]/.test(cell)));
  return { columns, rows: plain ? rows.map((row) => row.join(',')).join('\n') : rows };
}
