import { extent, max } from 'd3-array';
import { scaleLinear, scaleThreshold } from 'd3-scale';
import { area } from 'd3-shape';
import { fixed } from '../../common/csvText.ts';
import { HOUR_MS } from '../../common/time.ts';
import type { SpotLight } from '../../spot/spotLight.ts';
import type { CivilDay } from '../../statistics/civilHours.ts';
import type { WeatherDay } from '../../statistics/weatherDays.ts';
import { WEATHER_MARKS } from '../../weather/WeatherRecord.ts';
import { LIGHT_STEPS_W_M2 } from './colours.ts';
import { element, shortNumber } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { label } from './label.ts';
import { legend } from './legend.ts';
import { monthAxis, type Plot } from './monthAxis.ts';
import { verticalAxis } from './verticalAxis.ts';

const WIDTH = 1000;
const HEIGHT = 480;
const FILLED = WEATHER_MARKS.indexOf('filled');

/** A day of the picture: its statistics, and which hours of the record it holds. */
export type WeatherChartDay = WeatherDay & Pick<CivilDay, 'from' | 'to' | 'offset_min'>;

/**
 * The year of the weather: every day a column from midnight to midnight by the wall clock, the brighter the more global
 * light; filled hours hatched; beneath, the air from the coldest to the warmest hour of the day.
 *
 * in: id; days, in the order of the season; light, which carries the sky's columns (where it was logged on the cell, that
 *   is drawn, and nothing counts as filled); summary
 * out: the picture; a path for each step of light, and one for all filled hours
 */
export function weatherChart(
  id: string,
  days: readonly WeatherChartDay[],
  light: Pick<SpotLight, 'start_ms' | 'ghi_W_m2' | 'planeOfArray_W_m2' | 'mark'>,
  summary: string,
): Figure {
  const logged = Number.isNaN(light.ghi_W_m2[0] ?? Number.NaN);
  const what = logged ? 'light on the cell' : 'global light';
  const values = logged ? light.planeOfArray_W_m2 : light.ghi_W_m2;
  const facts = {
    key: 'weather',
    id,
    title: 'The year of the weather',
    summary,
    width: WIDTH,
    height: HEIGHT,
  };
  const steps = LIGHT_STEPS_W_M2.map((from, k) => ({
    mark: `step${k}`,
    over: 'outlineSoft',
    words: `${from}+`,
  }));
  const key = legend(
    [
      { mark: 'deep', words: `${what} below 2 W/m2` },
      ...steps,
      ...(logged ? [] : [{ mark: 'filled', words: 'filled hour' }]),
    ],
    52,
    4,
    WIDTH - 12,
  );
  const plot: Plot = { x: 52, y: key.height + 14, width: WIDTH - 64, height: 264 };
  const air: Plot = {
    ...plot,
    y: plot.y + plot.height + 28,
    height: HEIGHT - plot.y - plot.height - 28 - 42,
  };
  const across = scaleLinear([0, Math.max(days.length, 1)], [plot.x, plot.x + plot.width]);
  const down = scaleLinear([0, 24], [plot.y, plot.y + plot.height]);
  // The clocks' offset is that of the day's first hour: on the two days of change the rest of it stands an hour aside.
  const clock: Clock = (day, i) => {
    const hour = light.start_ms / HOUR_MS + i + day.offset_min / 60;
    return ((hour % 24) + 24) % 24;
  };
  const axis = monthAxis(
    days.map((day) => day.night),
    across,
    { ...plot, height: air.y + air.height - plot.y },
  );
  const hours = [0, 6, 12, 18, 24].map((hour) =>
    label(plot.x - 8, down(hour) + 4, `${hour} h`, { class: 'axis end' }),
  );
  const marks = [
    key.markup,
    element('rect', { class: 'deep', x: plot.x, y: plot.y, width: plot.width, height: plot.height }),
    ...lightPaths(days, values, clock, across, down),
    logged ? '' : filledPath(days, light.mark, clock, across, down),
    hours.join(''),
    axis.lines,
    airPanel(days, across, air),
    axis.words,
  ];
  return {
    ...facts,
    svg: figureSvg(facts, marks),
    table: {
      columns: [
        { heading: 'date', label: 'date' },
        { heading: 'ghi_Wh_m2', label: 'global light', unit: 'Wh/m2' },
        { heading: 'air_coldest_degC', label: 'coldest hour', unit: '°C' },
        { heading: 'air_warmest_degC', label: 'warmest hour', unit: '°C' },
        { heading: 'filled_h', label: 'filled', unit: 'h' },
      ],
      rows: days.map((day) => [
        day.night,
        fixed(day.ghi_Wh_m2, 0),
        fixed(day.coldest_degC, 1),
        fixed(day.warmest_degC, 1),
        logged ? '' : String(day.filled_h),
      ]),
    },
    reader: {
      step: 'day',
      ...plot,
      height: air.y + air.height - plot.y,
      stops: {
        name: 'day with filled hours',
        rows: days.flatMap((day, k) => (day.filled_h > 0 && !logged ? [k] : [])),
      },
      first: Math.floor(days.length / 2),
    },
  };
}

/** Hour of the day, by the wall clock, at which an hour of the record begins. */
type Clock = (day: WeatherChartDay, hour: number) => number;

/** One path for each step of light; hours that follow each other in a day are one stroke. */
function lightPaths(
  days: readonly WeatherChartDay[],
  values: Float64Array,
  clock: Clock,
  across: (day: number) => number,
  down: (hour: number) => number,
): string[] {
  const step = scaleThreshold<number, number>([...LIGHT_STEPS_W_M2], [-1, 0, 1, 2, 3, 4, 5, 6, 7]);
  const paths = new Array<string>(LIGHT_STEPS_W_M2.length).fill('');
  // A column is a little wider than its day: no seams of the ground show between them.
  const wide = shortNumber(across(1) - across(0) + 0.15);
  days.forEach((day, k) => {
    const x = across(k).toFixed(1);
    for (let i = day.from; i < day.to; ) {
      const which = step(values[i]!);
      const from = clock(day, i);
      let stop = i + 1;
      while (stop < day.to && step(values[stop]!) === which && clock(day, stop) > from) stop++;
      if (which >= 0) {
        const bottom = down(Math.min(from + stop - i, 24));
        paths[which] += `M${x} ${down(from).toFixed(1)}h${wide}V${bottom.toFixed(1)}h-${wide}z`;
      }
      i = stop;
    }
  });
  return paths.map((d, k) => (d === '' ? '' : element('path', { class: `step${k}`, d })));
}

function filledPath(
  days: readonly WeatherChartDay[],
  mark: Uint8Array,
  clock: Clock,
  across: (day: number) => number,
  down: (hour: number) => number,
): string {
  let d = '';
  days.forEach((day, k) => {
    if (day.filled_h === 0) return;
    const left = across(k).toFixed(1);
    for (let i = day.from; i < day.to; i++) {
      if (mark[i]! < FILLED) continue;
      const from = clock(day, i);
      d += `M${left} ${down(from).toFixed(1)}H${across(k + 1).toFixed(1)}V${down(Math.min(from + 1, 24)).toFixed(1)}H${left}z`;
    }
  });
  return d === '' ? '' : element('path', { class: 'filled', d });
}

function airPanel(days: readonly WeatherChartDay[], across: (day: number) => number, plot: Plot): string {
  const [coldest = 0] = extent(days, (day) => day.coldest_degC);
  const warmest = max(days, (day) => day.warmest_degC) ?? 1;
  const up = scaleLinear([coldest - 1, warmest + 1], [plot.y + plot.height, plot.y]).nice(4);
  const band = area<WeatherChartDay>()
    .x((_, k) => across(k + 0.5))
    .y0((day) => up(day.coldest_degC))
    .y1((day) => up(day.warmest_degC))
    .digits(1);
  return (
    label(plot.x, plot.y - 9, 'Air, coldest to warmest hour of the day, °C', { class: 'strong halo' }) +
    verticalAxis(up, plot, '', 4) +
    element('path', { class: 'airBand', d: band(days) ?? undefined })
  );
}
