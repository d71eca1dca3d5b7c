import { WEATHER_MARKS } from '../../../weather/WeatherRecord.ts';
import type { FigureTable } from '../../figures/Figure.ts';
import { type HourlyPack, unpackedColumn } from '../packedColumn.ts';
import { cellOf, HOURS, hourStarts, make, save, saveCsv, savedName, show, utcCell } from './page.ts';
import { pictureFile } from './pictureFile.ts';
import { readRows } from './readRows.ts';

/** Brings a picture to life: its reader, and the buttons that save it or show its data. */
export function figureTools(figure: HTMLElement): void {
  const table = tableOf(figure);
  const sliders = [...figure.querySelectorAll<HTMLElement>('.reader')];
  if (sliders.length > 0) readRows(figure, table, sliders);
  const tools = figure.querySelector<HTMLElement>('.tools')!;
  tools.hidden = false;
  tools.addEventListener('click', ({ target }) => {
    const button = target instanceof Element ? target.closest('button') : null;
    if (button === null) return;
    const weather = figure.dataset.figure === 'weather' ? HOURS?.weather : undefined;
    if (button.dataset.do === 'svg')
      save(`${savedName(figure)}.svg`, 'image/svg+xml', pictureFile(copyOf(figure)));
    else if (button.dataset.do === 'table') toggleTable(figure, table, button);
    else if (HOURS && weather) saveWeather(figure.id, HOURS.start_ms, weather);
    else {
      const headings = table.columns.map((column) => column.heading);
      saveCsv(savedName(figure), headings, table.rows);
    }
  });
}

/** The table behind a picture; rows without commas in a cell stand as lines. */
function tableOf(figure: HTMLElement): FigureTable {
  const { columns, rows } = JSON.parse(figure.querySelector('script.data')!.textContent);
  return { columns, rows: typeof rows === 'string' ? rows.split('\n').map((line) => line.split(',')) : rows };
}

function saveWeather(name: string, start_ms: number, weather: NonNullable<HourlyPack['weather']>): void {
  const light = unpackedColumn(weather.light);
  const mark = unpackedColumn(weather.mark);
  const rows = hourStarts(start_ms, weather.days).map((ms, i) => [
    utcCell(ms),
    cellOf(light[i]!),
    WEATHER_MARKS[mark[i]!] ?? '',
  ]);
  saveCsv(name, ['start_utc', weather.heading, 'weather_mark'], rows);
}

function copyOf(figure: HTMLElement): SVGElement {
  return figure.querySelector('svg.picture')!.cloneNode(true) as SVGElement;
}

function toggleTable(figure: HTMLElement, table: FigureTable, button: HTMLButtonElement): void {
  const space = figure.querySelector<HTMLElement>('.tableSpace')!;
  const open = space.hidden;
  space.hidden = !open;
  button.setAttribute('aria-expanded', String(open));
  button.textContent = open ? 'Hide table' : 'Show as table';
  if (open && space.firstChild === null) space.append(tableElement(table));
}

function tableElement({ columns, rows }: FigureTable): HTMLElement {
  const box = make('div', 'scroll');
  box.tabIndex = 0;
  box.setAttribute('role', 'region');
  box.setAttribute('aria-label', 'Data of this picture');
  const grid = make('table');
  const head = grid.createTHead().insertRow();
  for (const { label, unit } of columns) {
    const cell = make('th', '', unit ? `${label}, ${unit}` : label);
    cell.scope = 'col';
    head.append(cell);
  }
  const body = grid.createTBody();
  for (const row of rows) {
    const line = body.insertRow();
    for (const [k, value] of row.entries()) show(line.insertCell(), value, columns[k]);
  }
  box.append(grid);
  return box;
}
