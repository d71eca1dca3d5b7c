// The closer look at the capacitor, hour by hour, drawn by the library that is inlined beside this script.

import type { CloserHours } from '../closerHours.ts';
import { closerPlot } from './closerPlot.ts';
import { type HourAxis, hourAxis } from './hourAxis.ts';
import { cellOf, make, makeButton, saveCsv, savedName, spoken, utcCell } from './page.ts';

/** What can be shown at once, in days; 0 is all there is. */
const SPANS = [
  ['Day', 1],
  ['Week', 7],
  ['Month', 31],
  ['All', 0],
] as const;

/** The part that is looked at: hour in its middle, days. */
interface View {
  middle: number;
  span: number;
}

/**
 * Lets a capacitor be looked at closer, below its picture, once that comes near the window.
 *
 * in: figure; hours, what brings them; undefined where there are none
 */
export function closerLook(figure: HTMLElement, hours: () => Promise<CloserHours | undefined>): void {
  const space = figure.querySelector<HTMLElement>('.closer');
  if (space === null) return;
  const seen = new IntersectionObserver(
    async (entries) => {
      if (!entries.some((entry) => entry.isIntersecting)) return;
      seen.disconnect();
      const drawn = await hours();
      if (drawn === undefined) return;
      space.hidden = false;
      setUp(figure, space, drawn);
    },
    { rootMargin: '400px' },
  );
  seen.observe(figure);
}

function setUp(figure: HTMLElement, space: HTMLElement, drawn: CloserHours): void {
  const axis = hourAxis(drawn.start_ms, drawn.days);
  const view: View = { middle: axis.count / 2, span: 7 };
  const top = make('div', 'closerTop');
  const range = make('span', 'range');
  range.setAttribute('aria-live', 'polite');
  const frame = make('div', 'closerFrame');
  frame.setAttribute('role', 'img');
  space.append(top, frame);
  const say = (from: number, to: number) => {
    const [a, b] = [from, Math.max(from, to - 1)].map((hour) => spoken(axis.localText(hour).slice(0, 10)));
    range.textContent = a === b ? a! : `${a} to ${b}`;
    frame.setAttribute(
      'aria-label',
      `Capacitor, highest voltage the cell can charge it to, and light on the cell, hour by hour, ${range.textContent}`,
    );
  };
  const bounds = () => boundsOf(view, axis);
  const plot = closerPlot(frame, axis, drawn, { bounds, say, all: () => spans.choose(0) });
  const spans = spanButtons(view, plot.go);
  const step = (direction: number) => {
    const [from, to] = plot.shown() ?? bounds();
    view.middle = Math.min(Math.max((from + to) / 2 + direction * (to - from), 0), axis.count - 1);
    plot.go();
  };
  top.append(
    make('span', 'name', 'Closer, hour by hour:'),
    range,
    ...spans.buttons,
    makeButton('Earlier', () => step(-1)),
    makeButton('Later', () => step(1)),
    makeButton('Save hours (CSV)', () => {
      const columns = [drawn.capacitor_V, drawn.reachable_V, drawn.lightOnCell_W_m2];
      const rows = axis.starts.map((ms, i) => [utcCell(ms), ...columns.map((each) => cellOf(each[i]!))]);
      const headings = ['start_utc', 'capacitor_end_V', 'reachable_V', 'light_on_cell_W_m2'];
      saveCsv(`${savedName(figure)}-hours`, headings, rows);
    }),
  );
  figure.addEventListener('row', (event) => {
    view.middle = axis.first[(event as CustomEvent<number>).detail]! + 12;
    plot.go();
  });
}

/** A button for each span, pressed where it is chosen. */
function spanButtons(view: View, go: () => void) {
  const choose = (span: number) => {
    view.span = span;
    buttons.forEach((button, k) => {
      button.setAttribute('aria-pressed', String(SPANS[k]![1] === span));
    });
    go();
  };
  const buttons = SPANS.map(([word, span]) => makeButton(word, () => choose(span)));
  choose(view.span);
  return { buttons, choose };
}

/** First hour shown, and the hour after the last. */
function boundsOf({ middle, span }: View, { count, first, dayOf }: HourAxis): [number, number] {
  const wide = span === 0 ? count : Math.min(span * 24, count);
  const centred = Math.min(Math.max(middle - wide / 2, 0), count - wide);
  const from = span === 0 ? 0 : span === 1 ? first[dayOf(Math.floor(middle))]! : centred;
  return [from, Math.min(from + wide, count)];
}
