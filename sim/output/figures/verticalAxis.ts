import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { type Box, coordinate, label, path } from './element.ts';

/** Steps of a count from the left of a plot to its right. */
export function rightward(plot: Box, count: number): ScaleLinear<number, number> {
  return scaleLinear([0, Math.max(count, 1)], [plot.x, plot.x + plot.width]);
}

/** Values from the bottom of a plot to its top. */
export function upward(plot: Box, from: number, to: number): ScaleLinear<number, number> {
  return scaleLinear([from, to], [plot.y + plot.height, plot.y]);
}

/**
 * The axis on the left of a plot: a hairline and a number for each round value, the unit at the topmost.
 *
 * in: up, value to y; plot; ticks, about how many; unit
 * out: markup: lines that lie under the data, and words
 */
export function verticalAxis(
  up: ScaleLinear<number, number>,
  plot: Box,
  ticks: number,
  unit = '',
): { lines: string; words: string } {
  const values = up.ticks(ticks);
  const write = up.tickFormat(ticks);
  const lines = values.map((value) => `M${plot.x} ${coordinate(up(value))}H${plot.x + plot.width}`);
  const words = values.map((value, k) => {
    // As numbers stand everywhere else: a plain minus, thousands not parted.
    const number = write(value).replace('\u2212', '-').replaceAll(',', '');
    return label(
      plot.x - 8,
      up(value) + 4,
      `${number}${k === values.length - 1 ? ` ${unit}` : ''}`,
      'axis end',
    );
  });
  return { lines: path('grid', lines.join('')), words: words.join('') };
}
