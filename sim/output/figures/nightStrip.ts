import type { NightRow } from '../../night/nightLedger.ts';
import { type Box, coordinate, element, label, path, svg } from './element.ts';
import { monthTicks } from './monthAxis.ts';

const WIDTH = 366;
const HEIGHT = 46;
const BAR = 30;

/**
 * Each night of a row as a column of three paths by their share of the promise: hours out hang down from its top, dim
 * ones below them, lit ones at the bottom.
 *
 * in: nights, undefined where there is none; across, index of a night to x; box, top and height of the row; share of a column's width that is drawn
 * out: three a night, '' where it has no such time
 */
export function nightShares(
  nights: readonly (NightRow | undefined)[],
  across: (index: number) => number,
  { y, height }: Pick<Box, 'y' | 'height'>,
  share: number,
): { lit: string; dim: string; out: string }[] {
  const wide = coordinate((across(1) - across(0)) * share);
  return nights.map((night, index) => {
    if (night === undefined || !(night.promised_h > 0)) return { lit: '', dim: '', out: '' };
    const { promised_h, lit_h, dim_h, out_h } = night;
    const x = coordinate(across(index));
    const down = (hours: number) => coordinate(y + (height * hours) / promised_h);
    const column = (hours: number, from: string | number, to: string | number) =>
      hours > 0 ? `M${x} ${from}h${wide}V${to}h-${wide}z` : '';
    const [ember, light] = [down(out_h), down(out_h + dim_h)];
    return {
      lit: column(lit_h, light, y + height),
      dim: column(dim_h, ember, light),
      out: column(out_h, y, ember),
    };
  });
}

/**
 * A winter in one line: each night a column, hours out and dim hanging down from its top by their share of the promise,
 * to a sixtieth of it; nights alike are one mark, so that hundreds of strips fit a page.
 *
 * in: nights, in the order of the season; letters, whether the months are named below; id, by which it may be shown again
 * out: SVG markup without a name of its own: it stands beside words that say the same; classes lit, dim and
 *   short (out), each one path for all its nights
 */
export function nightStrip(nights: readonly NightRow[], letters = true, id?: string): string {
  const count = Math.max(nights.length, 1);
  const share = (hours: (row: NightRow) => number) => (row: NightRow) =>
    row.promised_h > 0 ? Math.round((2 * BAR * hours(row)) / row.promised_h) / 2 : 0;
  const months = monthTicks(nights.map((row) => row.night));
  const lines = months.filter(({ index }) => index > 0).map(({ index }) => `M${index} 0V${BAR}`);
  const marks = [
    element('rect', { class: 'night', width: count, height: BAR }),
    path('lit', hanging(nights.map(share((row) => row.promised_h)))),
    path('dim', hanging(nights.map(share((row) => row.dim_h + row.out_h)))),
    path('short', hanging(nights.map(share((row) => row.out_h)))),
    path('onNight', lines.join('')),
  ];
  if (!letters) {
    const stretched = { id, 'aria-hidden': 'true', preserveAspectRatio: 'none' };
    return svg('strip', { width: count, height: BAR }, stretched, marks);
  }
  const names = months
    .filter(({ length }) => length > 20)
    .map(({ index, length, name }) =>
      label((WIDTH * (index + length / 2)) / count, HEIGHT - 3, name.slice(0, 1), 'axis middle'),
    );
  const wide = element('g', { transform: `scale(${WIDTH / count} 1)` }, marks.join(''));
  return svg('strip', { width: WIDTH, height: HEIGHT }, { id, 'aria-hidden': 'true' }, [wide, ...names]);
}

/** Columns of width 1 that hang from the top, each to its depth; neighbours of one depth are one. */
function hanging(depths: readonly number[]): string {
  let d = '';
  for (let from = 0; from < depths.length; ) {
    const depth = depths[from]!;
    let to = from + 1;
    while (depths[to] === depth) to++;
    if (depth > 0) d += `M${from} 0v${depth}h${to - from}v-${depth}z`;
    from = to;
  }
  return d;
}

/** A strip of the page once more, by its id, in the width of a page. */
export function stripAgain(id: string): string {
  const size = { width: WIDTH, height: BAR };
  return svg('strip', size, { 'aria-hidden': 'true' }, [element('use', { href: `#${id}` })]);
}
