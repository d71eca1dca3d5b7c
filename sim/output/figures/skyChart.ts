import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { fixed } from '../../common/csvText.ts';
import type { SkyPicture, SunPoint } from '../../spot/skyPicture.ts';
import { element, shortNumber } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { isolated } from './isolated.ts';
import { label } from './label.ts';
import { legend } from './legend.ts';
import type { Plot } from './monthAxis.ts';
import { verticalAxis } from './verticalAxis.ts';

const WIDTH = 1000;
const HEIGHT = 540;
const LEFT = 52;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const BEARINGS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW', 'N'];
/** Months whose 21st shows the sun's way: its highest, middle and lowest. */
const PATH_MONTHS = [6, 3, 12];

/**
 * The sky from a spot: bearing across, elevation up, the darker the less passes; the sun's way on the 21st of June,
 * March and December, dotted where it is hidden; beneath, hours of sun a day by month, above the horizon and in sight.
 *
 * in: id; spot, its name; picture; southern, whether north comes into the middle; summary
 * out: the picture; a rect of class shut for each run of cells that hide the sky, a path or pathHidden for each stretch of sun
 */
export function skyChart(
  id: string,
  spot: string,
  picture: SkyPicture,
  southern: boolean,
  summary: string,
): Figure {
  const facts = {
    key: 'sky',
    id,
    title: `The sky from ${isolated(spot)}`,
    summary,
    width: WIDTH,
    height: HEIGHT,
  };
  const key = legend(
    [
      { mark: 'shut', words: 'hidden (paler: part of the light passes)' },
      { mark: 'path', line: true, words: "the sun's way, in sight" },
      { mark: 'pathHidden', line: true, words: 'hidden' },
    ],
    LEFT,
    4,
    WIDTH - 12,
  );
  const plot: Plot = { x: LEFT, y: key.height + 14, width: WIDTH - LEFT - 12, height: 270 };
  const bars: Plot = {
    ...plot,
    y: plot.y + plot.height + 74,
    height: HEIGHT - plot.y - plot.height - 74 - 26,
  };
  const turn = southern ? 180 : 0;
  const across = scaleLinear([0, 360], [plot.x, plot.x + plot.width]);
  const x = (bearing_deg: number) => across((bearing_deg - turn + 360) % 360);
  const up = scaleLinear([0, 90], [plot.y + plot.height, plot.y]);
  const names = BEARINGS.map((_, k) =>
    label(across(k * 45), plot.y + plot.height + 18, BEARINGS[(k + (southern ? 4 : 0)) % 8]!, {
      class: 'axis middle',
    }),
  );
  const heights = [0, 30, 60, 90].map((elevation) =>
    label(plot.x - 8, up(elevation) + 4, `${elevation}°`, { class: 'axis end' }),
  );
  const marks = [
    key.markup,
    element('rect', { class: 'day', x: plot.x, y: plot.y, width: plot.width, height: plot.height }),
    cells(picture, turn, across, up),
    ...picture.sunPaths
      .filter(({ month }) => PATH_MONTHS.includes(month))
      .map(({ month, points }) => sunPath(month, points, x, up)),
    obstacleNames(picture, x, up),
    element('path', { class: 'gridStrong', d: `M${plot.x} ${plot.y + plot.height}H${plot.x + plot.width}` }),
    ...names,
    ...heights,
    monthBars(picture, bars),
  ];
  return {
    ...facts,
    svg: figureSvg(facts, marks),
    table: {
      columns: [
        { heading: 'month', label: 'month' },
        { heading: 'sun_above_horizon_h_day', label: 'sun above the horizon', unit: 'h a day' },
        { heading: 'sun_in_sight_h_day', label: 'in sight of the spot', unit: 'h a day' },
      ],
      rows: picture.months.map(({ month, sun_h, beam_h }) => [
        MONTHS[month - 1]!,
        fixed(sun_h, 2),
        fixed(beam_h, 2),
      ]),
    },
    reader: { step: 'month', ...bars, first: Math.floor(picture.months.length / 2) },
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

function sunPath(
  month: number,
  points: readonly SunPoint[],
  x: (bearing: number) => number,
  up: (elevation: number) => number,
): string {
  const draw = line<SunPoint>()
    .x((point) => x(point.bearing_deg))
    .y((point) => up(point.elevation_deg))
    .digits(1);
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
  const highest = points.reduce<SunPoint | undefined>(
    (top, point) => (top === undefined || point.elevation_deg > top.elevation_deg ? point : top),
    undefined,
  );
  const name =
    highest === undefined
      ? ''
      : tag(x(highest.bearing_deg), up(highest.elevation_deg) - 12, `21 ${MONTHS[month - 1]}`);
  return (
    pieces
      .map((piece) =>
        element('path', { class: piece.hidden ? 'pathHidden' : 'path', d: draw(piece.points) ?? undefined }),
      )
      .join('') + name
  );
}

/** Words on a plate of their own, to be read on light and dark alike. */
function tag(x: number, y: number, words: string): string {
  return (
    element('rect', { class: 'tag', x: x - 25, y: y - 9, width: 50, height: 17, rx: 4 }) +
    label(x, y + 4, words, { class: 'strong middle' })
  );
}

/** The name of each obstacle in the middle of what it hides, where there is room for it. */
function obstacleNames(
  picture: SkyPicture,
  x: (bearing: number) => number,
  up: (elevation: number) => number,
): string {
  return picture.outlines
    .map(({ name, points }) => {
      const middle = points[Math.floor(points.length / 2)];
      if (middle === undefined || points.length < 20 || middle.to_deg - middle.from_deg < 8) return '';
      return label(x(middle.bearing_deg), up(middle.from_deg + 3), isolated(name), {
        class: 'onDark middle',
      });
    })
    .join('');
}

function monthBars(picture: SkyPicture, plot: Plot): string {
  const top = picture.months.reduce((most, { sun_h }) => Math.max(most, sun_h), 1);
  const up = scaleLinear([0, top], [plot.y + plot.height, plot.y]).nice(3);
  const each = plot.width / Math.max(picture.months.length, 1);
  const bars = picture.months.map(({ month, sun_h, beam_h }, k) => {
    const left = plot.x + k * each + each * 0.15;
    const bar = (hours: number, mark: string) =>
      element('rect', {
        class: `${mark} edged`,
        x: left,
        y: up(hours),
        width: each * 0.7,
        height: up(0) - up(hours),
      });
    return (
      bar(sun_h, 'slanted') +
      bar(beam_h, 'lit') +
      label(left + each * 0.35, plot.y + plot.height + 17, MONTHS[month - 1]!, { class: 'axis middle' })
    );
  });
  const key = legend(
    [
      { mark: 'slanted', over: 'outlineSoft', words: 'sun above the horizon' },
      { mark: 'lit', over: 'outlineSoft', words: 'in sight of the spot' },
    ],
    plot.x + 200,
    plot.y - 24,
    plot.x + plot.width,
  );
  return (
    label(plot.x, plot.y - 14, 'Sun, hours a day', { class: 'strong' }) +
    key.markup +
    verticalAxis(up, plot, '', 3) +
    bars.join('') +
    element('path', { class: 'gridStrong', d: `M${plot.x} ${shortNumber(up(0))}H${plot.x + plot.width}` })
  );
}
