import { max, min } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import type { SpanKind } from '../../night/nightSpans.ts';
import { clockText } from './clockText.ts';
import { element, shortNumber } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { label } from './label.ts';
import { type LegendEntry, legend } from './legend.ts';
import { monthAxis, type Plot } from './monthAxis.ts';
import type { NightColumn } from './nightColumns.ts';
import { nightTable } from './nightTable.ts';
import { evenHours, uprightNights } from './uprightNights.ts';

const WIDTH = 1000;
const HEIGHT = 470;
/** Share of a column's width that is drawn: nights stay apart. */
const FULL = 0.84;
const NOON_H = 12;
const KEY: readonly LegendEntry[] = [
  { mark: 'lit', words: 'promised and lit' },
  { mark: 'hatched', words: 'promised and dark' },
  { mark: 'beyond', words: 'on beyond the promise' },
  { mark: 'night', words: 'night, nothing promised' },
  { mark: 'day', over: 'outlineSoft', words: 'day' },
  { mark: 'failure', triangle: true, words: 'failed night' },
];

/**
 * The night chart: every night a column from late afternoon to morning, down the wall clock.
 *
 * in: id, the picture's own on a page; name, of lamp and spot; nights; summary, what it says in words
 * out: the picture; classes of the marks: lit, dark, beyond, failure
 */
export function nightChart(
  id: string,
  name: string,
  nights: readonly NightColumn[],
  summary: string,
): Figure {
  const facts = { key: 'nights', id, title: `Every night: ${name}`, summary, width: WIDTH, height: HEIGHT };
  const key = legend(KEY, 52, 4, WIDTH - 12);
  const plot: Plot = { x: 52, y: key.height + 14, width: WIDTH - 64, height: HEIGHT - key.height - 14 - 58 };
  const down = scaleLinear(clockSpan(nights), [plot.y, plot.y + plot.height]);
  const across = scaleLinear([0, Math.max(nights.length, 1)], [plot.x, plot.x + plot.width]);
  const dates = nights.map(({ row }) => row.night);
  const axis = monthAxis(dates, across, { ...plot, height: plot.height + 12 }, 'onNight');
  const [top, bottom] = down.range() as [number, number];
  const marks_id = `${id}-nights-marks`;
  const drawn = [
    element('rect', { class: 'day', x: plot.x, y: top, width: plot.width, height: bottom - top }),
    skyOf(nights, across, down),
    hourLines(down, plot),
    axis.lines,
    ...nights.map((night, index) => column(night, index, across, down)),
    failures(nights, across, bottom + 3),
  ];
  const marks = [
    key.markup,
    // The class of the whole picture once more: where the group is borrowed, styles find nothing above it.
    element('g', { id: marks_id, class: 'picture' }, drawn.join('')),
    hourNames(down, plot),
    axis.words,
  ];
  const failed = nights.flatMap(({ row }, index) => (row.outcome === 'failed' ? [index] : []));
  return {
    ...facts,
    svg: figureSvg(facts, marks),
    table: nightTable(nights),
    reader: {
      step: 'night',
      ...plot,
      stops: { name: 'failed night', rows: failed },
      first: failed[0] ?? Math.floor(nights.length / 2),
    },
    upright: uprightNights(id, dates, { marks_id, plot, hours: down.domain() as [number, number], key: KEY }),
  };
}

/** From the whole hour before the earliest of all to that after the latest; at least an evening. */
function clockSpan(nights: readonly NightColumn[]): [number, number] {
  const begins = nights.flatMap((night) => [night.dusk_h, ...night.spans.map((span) => span.from_h)]);
  const ends = nights.flatMap((night) => [night.dawn_h, ...night.spans.map((span) => span.to_h)]);
  const earliest = min(begins.filter(Number.isFinite)) ?? 16;
  const latest = max(ends.filter(Number.isFinite)) ?? 32;
  return [Math.max(Math.floor(earliest - 0.4), NOON_H), Math.min(Math.ceil(latest + 0.4), NOON_H + 26)];
}

/** The night between dusk and dawn, with its edges; it breaks off where the sun does not sink that far. */
function skyOf(
  nights: readonly NightColumn[],
  across: (index: number) => number,
  down: (hour: number) => number,
): string {
  const shape = area<NightColumn>()
    .defined((night) => !Number.isNaN(night.dusk_h))
    // From edge to edge of the plot, though a night's place is the middle of its column.
    .x((_, index) => across(index === 0 ? 0 : index === nights.length - 1 ? nights.length : index + 0.5))
    .y0((night) => down(night.dusk_h))
    .y1((night) => down(night.dawn_h))
    .digits(1);
  return element('path', { class: 'night edged', d: shape(nights) ?? undefined });
}

type Down = ReturnType<typeof scaleLinear<number, number>>;

function hourLines(down: Down, plot: Plot): string {
  const lines = evenHours(down.domain()).map(
    (hour) => `M${plot.x} ${shortNumber(down(hour))}H${plot.x + plot.width}`,
  );
  return element('path', { class: 'onNight', d: lines.join('') || undefined });
}

function hourNames(down: Down, plot: Plot): string {
  const names = evenHours(down.domain()).map((hour) =>
    label(plot.x - 8, down(hour) + 4, clockText(hour), { class: hour === 24 ? 'strong end' : 'axis end' }),
  );
  return names.join('');
}

const CLASS_OF: Readonly<Record<SpanKind, string>> = { lit: 'lit', dark: 'hatched', beyond: 'beyond' };

function column(
  night: NightColumn,
  index: number,
  across: (index: number) => number,
  down: (hour: number) => number,
): string {
  const width = across(1) - across(0);
  const x = shortNumber(across(index) + (width * (1 - FULL)) / 2);
  const wide = shortNumber(width * FULL);
  const paths = new Map<string, string>();
  for (const { from_h, to_h, kind } of night.spans) {
    const d = `M${x} ${shortNumber(down(from_h))}h${wide}V${shortNumber(down(to_h))}h-${wide}z`;
    paths.set(CLASS_OF[kind], (paths.get(CLASS_OF[kind]) ?? '') + d);
  }
  return [...paths].map(([mark, d]) => element('path', { class: mark, d })).join('');
}

/** A triangle under each failed night: a second cue, and to be found on a small screen. */
function failures(nights: readonly NightColumn[], across: (index: number) => number, top: number): string {
  return nights
    .map(({ row }, index) =>
      row.outcome === 'failed'
        ? element('path', { class: 'failure', d: `M${shortNumber(across(index + 0.5))} ${top}l3.2 7h-6.4z` })
        : '',
    )
    .join('');
}
