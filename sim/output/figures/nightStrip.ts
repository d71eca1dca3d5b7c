import type { NightRow } from '../../night/nightLedger.ts';
import { rightward } from './chart.ts';
import { type Box, coordinate, element, label, path, svg } from './element.ts';
import { monthTicks } from './monthAxis.ts';

const WIDTH = 366;
const HEIGHT = 46;
const BAR = 30;

/**
 * Each night of a row as a column of three paths by their share of the promise: hours out hang down from its top, dim
 * ones below them, lit ones at the bottom.
 *
 * in: nights; across, index of a night to x; box, top and height of the row; share of a column's width that is drawn
 * out: three a night, '' where it has no such time
 */
export function nightShares(
  nights: readonly NightRow[],
  across: (index: number) => number,
  { y, height }: Pick<Box, 'y' | 'height'>,
  share: number,
): { lit: string; dim: string; out: string }[] {
  const wide = coordinate((across(1) - across(0)) * share);
  return nights.map(({ promised_h, lit_h, dim_h, out_h }, index) => {
    if (!(promised_h > 0)) return { lit: '', dim: '', out: '' };
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
 * A winter in one line: each night a column, hours out and dim hanging down from its top by their share of the promise.
 *
 * in: nights, in the order of the season
 * out: SVG markup without a name of its own: it stands beside words that say the same; classes lit, dim and
 *   short (out), each one path for all its nights
 */
export function nightStrip(nights: readonly NightRow[]): string {
  const bar = { x: 0, y: 0, width: WIDTH, height: BAR };
  const across = rightward(bar, nights.length);
  const shares = nightShares(nights, across, bar, 1);
  const months = monthTicks(nights.map((row) => row.night));
  const lines = months
    .filter(({ index }) => index > 0)
    .map(({ index }) => `M${coordinate(across(index))} 0V${BAR}`);
  const marks = [
    element('rect', { class: 'night', width: WIDTH, height: BAR }),
    path('lit', shares.map(({ lit }) => lit).join('')),
    path('dim', shares.map(({ dim }) => dim).join('')),
    path('short', shares.map(({ out }) => out).join('')),
    path('onNight', lines.join('')),
    ...months
      .filter(({ length }) => length > 20)
      .map(({ index, length, name }) =>
        label(across(index + length / 2), HEIGHT - 3, name.slice(0, 1), 'axis middle'),
      ),
  ];
  return svg('strip', { width: WIDTH, height: HEIGHT }, { 'aria-hidden': 'true' }, marks);
}
