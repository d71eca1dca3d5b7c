import type { FigureTable } from '../../figures/Figure.ts';
import { make, makeButton, show as showCell, spoken } from './page.ts';

/** So few rows or less: the needle is a frame around a whole column. */
const FRAMED = 31;
/** Rows that a page key moves, by what a row is. */
const LONG_STEP: Readonly<Record<string, number>> = { night: 30, day: 30, hour: 24, month: 3 };

/** A slider over a picture's plot, lying or upright, and the needles in it, one a panel. */
interface Slider {
  element: HTMLElement;
  needles: HTMLElement[];
  upright: boolean;
}

/**
 * Lets pointer, finger and keys read a picture row by row; what a row says stands below it, and the figure tells of it
 * in an event 'row'.
 */
export function readRows(figure: HTMLElement, table: FigureTable, elements: readonly HTMLElement[]): void {
  const count = table.rows.length;
  const { step = '', first, stops: stopText } = elements[0]!.dataset;
  const stops: { name: string; rows: number[] } = JSON.parse(stopText ?? '{"name":"","rows":[]}');
  const sliders = elements.map((element) => sliderOf(element, count));
  const say = readingOf(figure.querySelector<HTMLElement>('.reading')!, table);
  let row = Number(first);
  const show = (wanted: number) => {
    row = Math.min(Math.max(wanted, 0), count - 1);
    const words = say(row);
    for (const slider of sliders) point(slider, row, count, words);
    figure.dispatchEvent(new CustomEvent('row', { detail: row }));
  };
  const stopFrom = (direction: number) => {
    const ahead = stops.rows.filter((each) => (each - row) * direction > 0);
    const stop = ahead.at(direction > 0 ? 0 : -1);
    if (stop !== undefined) show(stop);
  };
  if (stops.rows.length > 0) {
    const steps = make('span', 'steps');
    steps.append(
      makeButton(`Previous ${stops.name}`, () => stopFrom(-1)),
      makeButton(`Next ${stops.name}`, () => stopFrom(1)),
    );
    figure.querySelector('.reading')!.append(steps);
  }
  for (const slider of sliders) {
    followPointer(slider, count, show);
    followKeys(slider, { end: count, long: LONG_STEP[step] ?? 10 }, (move) => show(row + move), stopFrom);
    slider.element.hidden = false;
  }
  show(row);
}

function sliderOf(element: HTMLElement, count: number): Slider {
  const needles = [...element.querySelectorAll<HTMLElement>('.needle')];
  const upright = element.getAttribute('aria-orientation') === 'vertical';
  for (const needle of needles) {
    if (upright) needle.classList.add('lying');
    if (count <= FRAMED) {
      needle.classList.add('frame');
      needle.style[upright ? 'height' : 'width'] = `${100 / count}%`;
    }
  }
  return { element, needles, upright };
}

/** Fills the line below a picture; the function that says a row there gives the words too. */
function readingOf(reading: HTMLElement, { columns, rows }: FigureTable): (row: number) => string {
  const place = make('span', 'place');
  const values = columns.slice(1).map((column) => {
    const item = make('span', 'item');
    const value = make('span', 'value');
    item.append(make('span', 'name', column.label), value);
    return { column, item, value };
  });
  reading.append(place, ...values.map(({ item }) => item));
  reading.hidden = false;
  return (row) => {
    const [name = '', ...cells] = rows[row]!;
    place.textContent = spoken(name);
    const words = [place.textContent];
    values.forEach(({ column, item, value }, k) => {
      const text = cells[k] ?? '';
      item.hidden = text === '';
      showCell(value, text, column, column.unit);
      if (text !== '') words.push(`${column.label} ${value.textContent}`);
    });
    return words.join(', ');
  };
}

function point({ element, needles, upright }: Slider, row: number, count: number, words: string): void {
  const at = `${(100 * (row + (count <= FRAMED ? 0 : 0.5))) / count}%`;
  for (const needle of needles) needle.style[upright ? 'top' : 'left'] = at;
  element.setAttribute('aria-valuenow', String(row + 1));
  element.setAttribute('aria-valuetext', words);
}

function followPointer({ element, upright }: Slider, count: number, show: (row: number) => void): void {
  const read = (event: PointerEvent) => {
    const box = element.getBoundingClientRect();
    const share = upright ? (event.clientY - box.top) / box.height : (event.clientX - box.left) / box.width;
    show(Math.floor(count * share));
  };
  element.addEventListener('pointermove', read);
  element.addEventListener('pointerdown', read);
}

/** steps: rows to either end, and of a page key. */
function followKeys(
  { element, upright }: Slider,
  { end, long }: { end: number; long: number },
  move: (rows: number) => void,
  stopFrom: (direction: number) => void,
): void {
  const down = upright ? 1 : -1;
  const moves: Readonly<Record<string, number>> = {
    ArrowLeft: -1,
    ArrowDown: down,
    ArrowRight: 1,
    ArrowUp: -down,
    PageUp: -long,
    PageDown: long,
    Home: -end,
    End: end,
  };
  element.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const rows = moves[event.key];
    if (rows !== undefined) move(rows);
    else if (event.key === 'n') stopFrom(1);
    else if (event.key === 'p') stopFrom(-1);
    else return;
    event.preventDefault();
  });
}
