import { greatest } from 'd3-array';
import { line } from 'd3-shape';
import type { SkyPicture, SunPoint } from '../../spot/skyPicture.ts';
import { monthName } from '../words.ts';
import { bar } from './bar.ts';
import { type ChartColumn, chart, numbers, type Panel, texts } from './chart.ts';
import { type Box, coordinate, element, isolated, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import { type LegendEntry, legend } from './legend.ts';
import { rightward, upward, verticalAxis } from './verticalAxis.ts';

/** Height of the sky, and the room between it and the months beneath. */
const SKY = 270;
const GAP = 96;
const MONTHS = 136;
const BEARINGS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];
/** Months whose 21st shows the sun's way: its highest, middle and lowest. */
const PATH_MONTHS = [6, 3, 12];

type Month = SkyPicture['months'][number];

const COLUMNS: ChartColumn<Month>[] = [
  texts('month', 'month', ({ month }) => monthName(month)),
  numbers('sun_above_horizon_h_day', 'sun above the horizon', 'h a day', 2, ({ sun_h }) => sun_h),
  numbers('sun_in_sight_h_day', 'in sight of the spot', 'h a day', 2, ({ beam_h }) => beam_h),
];

/** Bearing to x, and elevation to y. */
interface SkyScales {
  x: (bearing_deg: number) => number;
  up: (elevation_deg: number) => number;
}

/**
 * The sky from a spot: bearing across, elevation up, the darker the less passes; the sun's way on the 21st of June,
 * March and December, dotted where it is hidden; beneath, hours of sun a day by month, above the horizon and in sight.
 *
 * in: id; spot, its name; picture; southern, whether north comes into the middle
 * out: the picture; a rect of class shut for each run of cells that hide the sky, a path or pathHidden for each stretch of sun
 */
export function skyChart(id: string, spot: string, picture: SkyPicture, southern: boolean): Figure {
  return chart(
    {
      key: 'sky',
      id,
      title: `The sky from ${isolated(spot)}`,
      summary:
        'The sky as seen from the spot, bearing across and elevation up: what is hidden, the way of the sun on the 21st of June, March and December, and hours of sun a day by month, above the horizon and in sight.',
      legend: [
        { mark: 'shut', words: 'hidden (paler: part of the light passes)' },
        { mark: 'path', line: true, words: "the sun's way, in sight" },
        { mark: 'pathHidden', line: true, words: 'hidden' },
      ],
      height: { plot: MONTHS },
      above: 14 + SKY + GAP,
      below: 26,
      rows: picture.months,
      columns: COLUMNS,
      reader: { step: 'month' },
    },
    (plot) => {
      const seen = sky(picture, southern, { ...plot, y: plot.y - SKY - GAP, height: SKY });
      const hours = monthBars(picture.months, plot);
      return { panels: [seen.panel, hours.panel], own: [...seen.own, ...hours.own] };
    },
  );
}

function sky(picture: SkyPicture, southern: boolean, plot: Box): { panel: Panel; own: string[] } {
  const turn = southern ? 180 : 0;
  const across = rightward(plot, 360);
  const up = upward(plot, 0, 90);
  const scales: SkyScales = { x: (bearing_deg) => across((bearing_deg - turn + 360) % 360), up };
  const bottom = plot.y + plot.height;
  const ways = picture.sunPaths.filter(({ month }) => PATH_MONTHS.includes(month));
  const marks = () => [
    rect('sky', plot),
    cells(picture, turn, across, up),
    ...ways.map(({ points }) => sunWay(points, scales)),
    path('gridStrong', `M${plot.x} ${bottom}H${plot.x + plot.width}`),
  ];
  return {
    panel: { box: plot, marks },
    own: [
      obstacleNames(picture, scales),
      ...ways.map(({ month, points }) => wayName(month, points, scales)),
      ...[0, 1, 2, 3, 4, 5, 6, 7, 8].map((k) =>
        label(across(k * 45), bottom + 18, BEARINGS[(k + turn / 45) % 8]!, 'axis middle'),
      ),
      ...[0, 30, 60, 90].map((elevation) =>
        label(plot.x - 8, up(elevation) + 4, `${elevation}°`, 'axis end'),
      ),
    ],
  };
}

/** Cells of equal transmittance in a row are one rect. */
function cells(
  { grid }: SkyPicture,
  turn: number,
  across: (degrees: number) => number,
  up: (elevation: number) => number,
): string {
  const wide_deg = 360 / grid.bearing_deg.length;
  const high_deg = 90 / grid.elevation_deg.length;
  const from = Math.round(turn / wide_deg);
  let markup = '';
  grid.inLeaf.forEach((row, r) => {
    // Ten steps of shade; a cell that lets all through is not drawn.
    const shade = (k: number) => Math.round((1 - row[(k + from) % row.length]!) * 10);
    for (let k = 0; k < row.length; ) {
      let stop = k + 1;
      while (stop < row.length && shade(stop) === shade(k)) stop++;
      if (shade(k) > 0) {
        markup += element('rect', {
          class: 'shut',
          x: across(k * wide_deg),
          y: up((r + 1) * high_deg),
          width: across(stop * wide_deg) - across(k * wide_deg),
          height: up(0) - up(high_deg),
          'fill-opacity': shade(k) < 10 ? shade(k) / 10 : undefined,
        });
      }
      k = stop;
    }
  });
  return markup;
}

function sunWay(points: readonly SunPoint[], { x, up }: SkyScales): string {
  const pieces: { hidden: boolean; points: SunPoint[] }[] = [];
  points.forEach((point, k) => {
    const hidden = point.passes < 0.5;
    const last = pieces[pieces.length - 1];
    const before = points[k - 1];
    // The way is broken where it runs out of the picture on one side and in on the other.
    const leap = before !== undefined && Math.abs(x(point.bearing_deg) - x(before.bearing_deg)) > 200;
    if (last !== undefined && last.hidden === hidden && !leap) last.points.push(point);
    else pieces.push({ hidden, points: leap || before === undefined ? [point] : [before, point] });
  });
  const draw = line<SunPoint>(
    (point) => x(point.bearing_deg),
    (point) => up(point.elevation_deg),
  ).digits(1);
  return pieces.map((piece) => path(piece.hidden ? 'pathHidden' : 'path', draw(piece.points))).join('');
}

/** The day of a way, over its highest point. */
function wayName(month: number, points: readonly SunPoint[], { x, up }: SkyScales): string {
  const highest = greatest(points, (point) => point.elevation_deg);
  if (highest === undefined) return '';
  return tag(x(highest.bearing_deg), up(highest.elevation_deg) - 12, `21 ${monthName(month)}`);
}

/** Words on a plate of their own, to be read on light and dark alike. */
function tag(x: number, y: number, words: string): string {
  return (
    element('rect', { class: 'tag', x: x - 25, y: y - 9, width: 50, height: 17, rx: 4 }) +
    label(x, y + 4, words, 'strong middle')
  );
}

/** The name of each obstacle in the middle of what it hides, where there is room for it. */
function obstacleNames({ outlines }: SkyPicture, { x, up }: SkyScales): string {
  return outlines
    .map(({ name, points }) => {
      const middle = points[Math.floor(points.length / 2)];
      if (middle === undefined || points.length < 20 || middle.to_deg - middle.from_deg < 8) return '';
      return label(x(middle.bearing_deg), up(middle.from_deg + 3), isolated(name), 'onDark middle');
    })
    .join('');
}

const MONTH_KEY: readonly LegendEntry[] = [
  { mark: 'slanted', over: 'outlineSoft', words: 'sun above the horizon' },
  { mark: 'lit', over: 'outlineSoft', words: 'in sight of the spot' },
];

function monthBars(months: readonly Month[], plot: Box): { panel: Panel; own: string[] } {
  const top = Math.max(1, ...months.map(({ sun_h }) => sun_h));
  const up = upward(plot, 0, top).nice(3);
  const each = plot.width / Math.max(months.length, 1);
  const bars = months.flatMap(({ sun_h, beam_h }, k) => {
    const left = plot.x + k * each + each * 0.15;
    return [
      bar('slanted edged', left, each * 0.7, sun_h, up),
      bar('lit edged', left, each * 0.7, beam_h, up),
    ];
  });
  const right = plot.x + plot.width;
  const keyTop = plot.y - 8 - legend(MONTH_KEY, plot.x, 0, right).height;
  const axis = verticalAxis(up, plot, 3);
  const ground = path('gridStrong', `M${plot.x} ${coordinate(up(0))}H${plot.x + plot.width}`);
  return {
    panel: { box: plot, marks: () => [axis.lines, ...bars, ground] },
    own: [
      label(plot.x, keyTop - 8, 'Sun, hours a day', 'strong'),
      legend(MONTH_KEY, plot.x, keyTop, right).markup,
      axis.words,
      ...months.map(({ month }, k) =>
        label(plot.x + (k + 0.5) * each, plot.y + plot.height + 17, monthName(month), 'axis middle'),
      ),
    ],
  };
}
