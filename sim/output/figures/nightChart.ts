import { max, min } from 'd3-array';
import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import type { SpanKind } from '../../night/nightSpans.ts';
import { chart } from './chart.ts';
import { type Box, coordinate, label, path, rect, svg, use } from './element.ts';
import type { Figure, Narrow } from './Figure.ts';
import { type LegendEntry, legend } from './legend.ts';
import { monthAxis, monthTicks } from './monthAxis.ts';
import { clockText, NIGHT_TABLE, type NightColumn } from './nightColumns.ts';
import { rightward } from './verticalAxis.ts';

/** Share of a column's width that is drawn: nights stay apart. */
const FULL = 0.84;
const NOON_H = 12;
const LEGEND: readonly LegendEntry[] = [
  { mark: 'lit', words: 'promised and lit' },
  { mark: 'dim', words: 'promised and dim' },
  { mark: 'hatched', words: 'promised and out' },
  { mark: 'beyond', words: 'on beyond the promise' },
  { mark: 'night', words: 'night, nothing promised' },
  { mark: 'day', over: 'outlineSoft', words: 'day' },
  { mark: 'solid', triangle: true, words: 'failed night' },
];

type Scale = ScaleLinear<number, number>;

/**
 * The night chart: every night a column from late afternoon to morning, down the wall clock.
 *
 * in: id, the picture's own on a page; name, of lamp and spot; nights; summary, what it says in words
 * out: the picture; classes of the marks: lit, dim, hatched (out), beyond, solid (failed nights)
 */
export function nightChart(
  id: string,
  name: string,
  nights: readonly NightColumn[],
  summary: string,
): Figure {
  const hours = clockSpan(nights);
  const dates = nights.map(({ row }) => row.night);
  return chart(
    {
      key: 'nights',
      id,
      title: `Every night: ${name}`,
      summary,
      legend: LEGEND,
      height: { whole: 470 },
      above: 14,
      below: 58,
      narrow: (marks_id, plot) => upright(id, dates, marks_id, plot, hours),
      rows: nights,
      columns: NIGHT_TABLE,
      reader: {
        step: 'night',
        first: nights.findIndex(({ row }) => row.outcome === 'failed'),
        stops: { name: 'failed night', at: ({ row }) => row.outcome === 'failed' },
      },
    },
    (plot) => {
      const down = scaleLinear(hours, [plot.y, plot.y + plot.height]);
      const across = rightward(plot, nights.length);
      const axis = monthAxis(dates, across, { ...plot, height: plot.height + 12 }, 'onNight');
      const marks = () => [
        rect('day', plot),
        skyOf(nights, across, down),
        hourLines(down, plot),
        axis.lines,
        ...monthTicks(dates).flatMap((month) => columns(nights, month, across, down)),
        failures(nights, across, plot.y + plot.height + 3),
      ];
      return { panels: [{ box: plot, marks }], own: [hourNames(down, plot), axis.words] };
    },
  );
}

/** From the whole hour before the earliest of all to that after the latest; at least an evening. */
export function clockSpan(nights: readonly NightColumn[]): [number, number] {
  const begins = nights.flatMap((night) => [night.dusk_h, ...night.spans.map((span) => span.from_h)]);
  const ends = nights.flatMap((night) => [night.dawn_h, ...night.spans.map((span) => span.to_h)]);
  const earliest = min(begins.filter(Number.isFinite)) ?? 16;
  const latest = max(ends.filter(Number.isFinite)) ?? 32;
  return [Math.max(Math.floor(earliest - 0.4), NOON_H), Math.min(Math.ceil(latest + 0.4), NOON_H + 26)];
}

/** The night between dusk and dawn, with its edges; it breaks off where the sun does not sink that far. */
function skyOf(nights: readonly NightColumn[], across: Scale, down: Scale): string {
  const shape = area<NightColumn>(
    // From edge to edge of the plot, though a night's place is the middle of its column.
    (_, index) => across(index === 0 ? 0 : index === nights.length - 1 ? nights.length : index + 0.5),
    (night) => down(night.dusk_h),
    (night) => down(night.dawn_h),
  )
    .defined((night) => !Number.isNaN(night.dusk_h))
    .digits(1);
  return path('night edged', shape(nights));
}

/** The even hours of a span of the clock. */
export function evenHours([from = 0, to = 0]: readonly number[]): number[] {
  const first = Math.ceil(from / 2) * 2;
  return Array.from({ length: Math.max(0, Math.floor((to - first) / 2) + 1) }, (_, k) => first + 2 * k);
}

function hourLines(down: Scale, { x, width }: Box): string {
  return path(
    'onNight',
    evenHours(down.domain())
      .map((hour) => `M${x} ${coordinate(down(hour))}H${x + width}`)
      .join(''),
  );
}

function hourNames(down: Scale, plot: Box): string {
  return evenHours(down.domain())
    .map((hour) =>
      label(plot.x - 8, down(hour) + 4, clockText(hour), hour === 24 ? 'strong end' : 'axis end'),
    )
    .join('');
}

const CLASS_OF: Readonly<Record<SpanKind, string>> = {
  lit: 'lit',
  dim: 'dim',
  out: 'hatched',
  beyond: 'beyond',
};
const KINDS: readonly SpanKind[] = ['lit', 'dim', 'out', 'beyond'];

/**
 * Columns of the nights of a month: a path for each kind of time in them. A browser is slow at a path a night, of which
 * there are hundreds, and at one for all, of which each of its tiles has to look through the whole.
 */
function columns(
  nights: readonly NightColumn[],
  { index: first, length }: { index: number; length: number },
  across: Scale,
  down: Scale,
): string[] {
  const width = across(1) - across(0);
  const wide = coordinate(width * FULL);
  const drawn = new Map<SpanKind, string>();
  nights.slice(first, first + length).forEach(({ spans }, k) => {
    const x = coordinate(across(first + k) + (width * (1 - FULL)) / 2);
    for (const { from_h, to_h, kind } of spans) {
      const d = `M${x} ${coordinate(down(from_h))}h${wide}V${coordinate(down(to_h))}h-${wide}z`;
      drawn.set(kind, (drawn.get(kind) ?? '') + d);
    }
  });
  return KINDS.map((kind) => path(CLASS_OF[kind], drawn.get(kind) ?? null));
}

/** A triangle under each failed night: a second cue, and to be found on a small screen. */
function failures(nights: readonly NightColumn[], across: Scale, top: number): string {
  const triangles = nights.map(({ row }, index) =>
    row.outcome === 'failed' ? `M${coordinate(across(index + 0.5))} ${top}l3.2 7h-6.4z` : '',
  );
  return path('solid', triangles.join(''));
}

const NARROW = { width: 360, left: 34, right: 344 };
/** Height of a night; a year takes 530. */
const NIGHT = 530 / 365;

/**
 * The night chart turned for a narrow screen: nights from above to below, hours of the clock across. Its marks are
 * those of the chart itself, mirrored along the diagonal, so it shows nothing unless the chart is on the same page.
 */
function upright(
  id: string,
  dates: readonly string[],
  marks_id: string,
  source: Box,
  hours: readonly [number, number],
): Narrow {
  const { width, left, right } = NARROW;
  const key = legend(LEGEND, 4, 4, width - 4);
  const plotHeight = Math.max(Math.round(dates.length * NIGHT), 120);
  const plot = { x: left, y: key.height + 34, width: right - left, height: plotHeight };
  const height = plot.y + plot.height + 12;
  const [wide, high] = [plot.width / source.height, plot.height / source.width];
  const turned = [0, high, wide, 0, plot.x - source.y * wide, plot.y - source.x * high];
  const across = scaleLinear(hours, [plot.x, plot.x + plot.width]);
  const down = scaleLinear([0, Math.max(dates.length, 1)], [plot.y, plot.y + plot.height]);
  const ticks = monthTicks(dates);
  const marks = [
    key.markup,
    use(marks_id, turned),
    ...evenHours(hours).map((hour) => {
      const kind = hour === 24 ? 'strong middle' : 'axis middle';
      return label(across(hour), plot.y - 8, clockText(hour).slice(0, 2), kind);
    }),
    ...ticks
      .filter(({ length }) => length * NIGHT >= 14)
      .map(({ index, length, name }) => label(plot.x - 5, down(index + length / 2) + 4, name, 'axis end')),
    ...ticks
      .filter(({ index, newYear }) => index > 0 && newYear)
      .map(({ index }) => path('seam', `M4 ${coordinate(down(index))}H${right + 10}`)),
  ];
  const named = { role: 'img', 'aria-labelledby': `${id}-nights-title ${id}-nights-summary` };
  return {
    svg: svg('picture-nights-upright', { width, height }, named, marks),
    width,
    height,
    plot,
    panels: [],
    turned: true,
  };
}
