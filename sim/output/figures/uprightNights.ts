import { scaleLinear } from 'd3-scale';
import { clockText } from './clockText.ts';
import { element, shortNumber } from './element.ts';
import type { Figure } from './Figure.ts';
import { label } from './label.ts';
import { type LegendEntry, legend } from './legend.ts';
import type { Plot } from './monthAxis.ts';
import { monthTicks } from './monthTicks.ts';

const WIDTH = 360;
const LEFT = 34;
const RIGHT = 344;
/** Height of a night; a year takes 530. */
const NIGHT = 530 / 365;

/** What the night chart lends. */
export interface LentMarks {
  /** Id of the group that holds its marks. */
  marks_id: string;
  plot: Plot;
  /** First and last hour of the clock. */
  hours: readonly [number, number];
  key: readonly LegendEntry[];
}

/**
 * The night chart turned for a narrow screen: nights from above to below, hours of the clock across. Its marks are
 * those of the chart itself, mirrored along the diagonal.
 *
 * in: id, the picture's own on a page; dates of the nights; lent
 * out: SVG that shows nothing unless the chart is on the same page
 */
export function uprightNights(
  id: string,
  dates: readonly string[],
  lent: LentMarks,
): NonNullable<Figure['upright']> {
  const { plot: source } = lent;
  const key = legend(lent.key, 4, 4, WIDTH - 4);
  const plot = {
    x: LEFT,
    y: key.height + 34,
    width: RIGHT - LEFT,
    height: Math.max(Math.round(dates.length * NIGHT), 120),
  };
  const height = plot.y + plot.height + 12;
  const wide = plot.width / source.height;
  const high = plot.height / source.width;
  const turned = [0, high, wide, 0, plot.x - source.y * wide, plot.y - source.x * high];
  const across = scaleLinear(lent.hours, [plot.x, plot.x + plot.width]);
  const down = scaleLinear([0, Math.max(dates.length, 1)], [plot.y, plot.y + plot.height]);
  const hours = evenHours(lent.hours).map((hour) =>
    label(across(hour), plot.y - 8, clockText(hour).slice(0, 2), {
      class: hour === 24 ? 'strong middle' : 'axis middle',
    }),
  );
  const months = monthTicks(dates).flatMap((tick) =>
    tick.length * NIGHT < 14
      ? []
      : [label(plot.x - 5, down(tick.index + tick.length / 2) + 4, tick.name, { class: 'axis end' })],
  );
  const seams = monthTicks(dates)
    .filter((tick) => tick.index > 0 && tick.newYear)
    .map((tick) =>
      element('path', { class: 'seam', d: `M4 ${shortNumber(down(tick.index))}H${RIGHT + 10}` }),
    );
  const svg = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'picture picture-nights-upright',
      viewBox: `0 0 ${WIDTH} ${height}`,
      role: 'img',
      'aria-labelledby': `${id}-nights-title ${id}-nights-summary`,
    },
    key.markup +
      element('use', {
        href: `#${lent.marks_id}`,
        transform: `matrix(${turned.map((value) => String(Math.round(value * 1e5) / 1e5)).join(' ')})`,
      }) +
      hours.join('') +
      months.join('') +
      seams.join(''),
  );
  return { svg, width: WIDTH, height, plot };
}

/** The even hours of a span of the clock. */
export function evenHours(span: readonly number[]): number[] {
  const [from = 0, to = 0] = span;
  const first = Math.ceil(from / 2) * 2;
  return Array.from({ length: Math.max(0, Math.floor((to - first) / 2) + 1) }, (_, k) => first + 2 * k);
}
