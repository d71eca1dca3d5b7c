import { csvText } from '../../../common/csvText.ts';
import { HOUR_MS } from '../../../common/time.ts';
import type { TableColumn } from '../../figures/Figure.ts';
import { properSigns } from '../../figures/properSigns.ts';
import { monthName } from '../../words.ts';
import type { HourlyPack, PackedDays } from '../packedColumn.ts';

/** The hours that the page carries; null in a page without. */
export const HOURS = blockOf('hours') as HourlyPack | null;

/** The data that stand in a script element of the page. */
export function blockOf(id: string): unknown {
  return JSON.parse(document.getElementById(id)!.textContent);
}

/** The pictures within an element. */
export function figuresIn(element: ParentNode): HTMLElement[] {
  return [...element.querySelectorAll<HTMLElement>('figure[data-figure]')];
}

/** A new element. Text only ever goes in as text. */
export function make<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  className = '',
  text = '',
): HTMLElementTagNameMap[Name] {
  const node = document.createElement(name);
  if (className !== '') node.className = className;
  node.textContent = properSigns(text);
  return node;
}

/** Shows a cell of a column in an element, with its unit where that is wanted. */
export function show(node: Element, cell: string, column: TableColumn | undefined, unit = ''): void {
  node.textContent = `${column?.signs ? properSigns(cell) : cell}${unit === '' ? '' : ` ${properSigns(unit)}`}`;
}

/** A new button with what it does. */
export function makeButton(word: string, deed: () => void): HTMLButtonElement {
  const button = make('button', '', word);
  button.type = 'button';
  button.addEventListener('click', deed);
  return button;
}

/** '2025-12-29 14:00' as '29 Dec 2025, 14:00'; what is no time stays as it is. */
export function spoken(text: string): string {
  const found = /^(\d{4})-(\d\d)(?:-(\d\d)(?: (\d\d:\d\d))?)?$/.exec(text);
  if (found === null) return text;
  const [, year, month, day, clock] = found;
  return `${day === undefined ? '' : `${Number(day)} `}${monthName(Number(month))} ${year}${clock === undefined ? '' : `, ${clock}`}`;
}

/** Start of each hour of a record's days, UTC milliseconds. */
export function hourStarts(start_ms: number, days: PackedDays): number[] {
  return days.from.flatMap((from, day) =>
    Array.from({ length: days.hours[day]! }, (_, k) => start_ms + (from + k) * HOUR_MS),
  );
}

/** What a file of a picture is called: it says where the picture shows what was tried. */
export function savedName(figure: HTMLElement): string {
  return figure.closest('[data-tried]') === null ? figure.id : `${figure.id}-tried`;
}

/** Saves a text as a file. */
export function save(name: string, kind: string, text: string): void {
  saveFile(name, new Blob([text], { type: kind }));
}

/** Saves a file under a name. */
export function saveFile(name: string, file: Blob): void {
  const link = make('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}

/** A number as a cell of a CSV file; '' for NaN. */
export function cellOf(value: number): string {
  return Number.isNaN(value) ? '' : String(value);
}

/** An instant of a whole second as a cell of a CSV file, '2025-12-21T15:00:00Z'. */
export function utcCell(ms: number): string {
  return new Date(ms).toISOString().replace('.000', '');
}

/** Saves a table as a CSV file. */
export function saveCsv(name: string, headings: readonly string[], rows: readonly string[][]): void {
  const columns = headings.map((heading, k) => ({ heading, cell: (row: string[]) => row[k] ?? '' }));
  save(`${name}.csv`, 'text/csv', csvText(columns, rows));
}
