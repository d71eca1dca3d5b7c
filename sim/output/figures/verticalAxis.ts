import type { ScaleLinear } from 'd3-scale';
import { element, shortNumber } from './element.ts';
import { label } from './label.ts';
import type { Plot } from './monthAxis.ts';

/**
 * The axis on the left of a plot: a hairline and a number for each round value, the unit at the topmost.
 *
 * in: up, value to y; plot; unit; ticks, about how many
 * out: markup
 */
export function verticalAxis(
  up: ScaleLinear<number, number>,
  plot: Plot,
  unit: string,
  ticks: number,
): string {
  const values = up.ticks(ticks);
  const write = up.tickFormat(ticks);
  const lines = values.map((value) => `M${plot.x} ${shortNumber(up(value))}H${plot.x + plot.width}`);
  // As numbers stand everywhere else: a plain minus, thousands not parted.
  const words = values.map((value, k) =>
    label(
      plot.x - 8,
      up(value) + 4,
      `${write(value).replace('\u2212', '-').replaceAll(',', '')}${k === values.length - 1 ? ` ${unit}` : ''}`,
      {
        class: 'axis end',
      },
    ),
  );
  return element('path', { class: 'grid', d: lines.join('') || undefined }) + words.join('');
}
