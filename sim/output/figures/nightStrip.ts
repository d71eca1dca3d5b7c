import type { NightRow } from '../../night/nightLedger.ts';
import { rightward } from './chart.ts';
import { type Box, coordinate, element, label, path, svg } from './element.ts';
import { monthTicks } from './monthAxis.ts';

const WIDTH = 366;
const HEIGHT = 46;
const BAR = 30;

/**
 * Each night of a row as a column of two paths: short hours hanging down from its top by their share of the promise, lit
 * ones below.
 *
 * in: nights; across, index of a night to x; box, top and height of the row; share of a column's width that is drawn
 * out: a pair a night, '' where it has no such time
 */
export function nightShares(
  nights: readonly NightRow[],
  across: (index: number) => number,
  { y, height }: Pick<Box, 'y' | 'height'>,
  share: number,
): { lit: string; short: string }[] {
  const wide = coordinate((across(1) - across(0)) * share);
  return nights.map(({ promised_h, lit_h, short_h }, index) => {
    if (!(promised_h > 0)) return { lit: '', short: '' };
    const x = coordinate(across(index));
    const split = coordinate(y + (height * short_h) / promised_h);
    return {
      lit: lit_h > 0 ? `M${x} ${split}h${wide}V${y + height}h-${wide}z` : '',
      short: short_h > 0 ? `M${x} ${y}h${wide}V${split}h-${wide}z` : '',
    };
  });
}

/**
 * A winter in one line: each night a column, short hours hanging down from its top by their share of the promise.
 *
 * in: nights, in the order of the season
 * out: SVG markup without a name of its own: it stands beside words that say the same; classes lit and short, each
 *   one path for all its nights
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
    path('short', shares.map(({ short }) => short).join('')),
    path('onNight', lines.join('')),
    ...months
      .filter(({ length }) => length > 20)
      .map(({ index, length, name }) =>
        label(across(index + length / 2), HEIGHT - 3, name.slice(0, 1), 'axis middle'),
      ),
  ];
  return svg('strip', { width: WIDTH, height: HEIGHT }, { 'aria-hidden': 'true' }, marks);
}
