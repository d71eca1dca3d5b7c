import { scaleLinear } from 'd3-scale';
import type { NightRow } from '../../night/NightRow.ts';
import { element, shortNumber } from './element.ts';
import { label } from './label.ts';
import { monthTicks } from './monthTicks.ts';

const WIDTH = 366;
const HEIGHT = 46;
const BAR = 30;

/**
 * A winter in one line: each night a column, short hours hanging down from its top by their share of the promise.
 *
 * in: nights, in the order of the season
 * out: SVG markup without a name of its own: it stands beside words that say the same; classes lit and hatched, each
 *   one path for all its nights
 */
export function nightStrip(nights: readonly NightRow[]): string {
  const across = scaleLinear([0, Math.max(nights.length, 1)], [0, WIDTH]);
  const wide = shortNumber(across(1) - across(0));
  let lit = '';
  let dark = '';
  nights.forEach((night, index) => {
    if (!(night.promised_h > 0)) return;
    const x = shortNumber(across(index));
    const split = shortNumber((BAR * night.short_h) / night.promised_h);
    if (night.lit_h > 0) lit += `M${x} ${split}h${wide}V${BAR}h-${wide}z`;
    if (night.short_h > 0) dark += `M${x} 0h${wide}V${split}h-${wide}z`;
  });
  const months = monthTicks(nights.map((row) => row.night));
  const names = months
    .filter((tick) => tick.length > 20)
    .map((tick) =>
      label(across(tick.index + tick.length / 2), HEIGHT - 3, tick.name.slice(0, 1), {
        class: 'axis middle',
      }),
    );
  const lines = months
    .filter((tick) => tick.index > 0)
    .map((tick) => `M${shortNumber(across(tick.index))} 0V${BAR}`);
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'picture strip',
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      'aria-hidden': 'true',
    },
    element('rect', { class: 'night', width: WIDTH, height: BAR }) +
      element('path', { class: 'lit', d: lit || undefined }) +
      element('path', { class: 'dark', d: dark || undefined }) +
      element('path', { class: 'onNight', d: lines.join('') || undefined }) +
      names.join(''),
  );
}
