import { extent, max } from 'd3-array';
import { type ScaleLinear, scaleLinear, scaleThreshold } from 'd3-scale';
import { area } from 'd3-shape';
import { HOUR_MS } from '../../common/time.ts';
import type { SpotLight } from '../../spot/spotLight.ts';
import type { CivilDay, WeatherDay } from '../../statistics/civilHours.ts';
import { WEATHER_MARKS } from '../../weather/WeatherRecord.ts';
import { type ChartColumn, chart, numbers, type Panel, texts } from './chart.ts';
import { type Box, coordinate, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import type { LegendEntry } from './legend.ts';
import { monthAxis } from './monthAxis.ts';
import { rightward, upward, verticalAxis } from './verticalAxis.ts';

/** Light in the sky and on a cell, from none to the full sun of summer, by steps that let a dull winter be told apart. */
const LIGHT_STEPS_W_M2 = [2, 20, 50, 100, 200, 350, 550, 800] as const;
const FILLED = WEATHER_MARKS.indexOf('filled');

/** A day of the picture: its statistics, and which hours of the record it holds. */
type WeatherChartDay = WeatherDay & Pick<CivilDay, 'from' | 'to' | 'offset_min'>;

/** What the picture takes of a spot's light. */
type Light = Pick<SpotLight, 'start_ms' | 'ghi_W_m2' | 'planeOfArray_W_m2' | 'mark'>;

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
  light: Light,
  summary: string,
): Figure {
  const logged = Number.isNaN(light.ghi_W_m2[0] ?? Number.NaN);
  return chart(
    {
      key: 'weather',
      id,
      title: 'The year of the weather',
      summary,
      legend: legendOf(logged),
      height: { whole: 480 },
      above: 14,
      below: 42,
      rows: days,
      columns: columns(logged),
      reader: {
        step: 'day',
        stops: { name: 'day with filled hours', at: (day) => day.filled_h > 0 && !logged },
      },
    },
    (plot) => marks(days, light, logged, plot),
  );
}

function legendOf(logged: boolean): LegendEntry[] {
  const steps = LIGHT_STEPS_W_M2.map((from, k) => ({
    mark: `step${k}`,
    over: 'outlineSoft',
    words: `${from}+`,
  }));
  const what = logged ? 'light on the cell' : 'global light';
  const filled = logged ? [] : [{ mark: 'filled', words: 'filled hour' }];
  return [{ mark: 'deep', words: `${what} below 2 W/m2` }, ...steps, ...filled];
}

function columns(logged: boolean): ChartColumn<WeatherChartDay>[] {
  return [
    texts('date', 'date', (day) => day.night),
    numbers('ghi_Wh_m2', 'global light', 'Wh/m2', 0, (day) => day.ghi_Wh_m2),
    numbers('air_coldest_degC', 'coldest hour', '°C', 1, (day) => day.coldest_degC),
    numbers('air_warmest_degC', 'warmest hour', '°C', 1, (day) => day.warmest_degC),
    { ...texts('filled_h', 'filled', (day) => (logged ? '' : String(day.filled_h))), unit: 'h' },
  ];
}

function marks(
  days: readonly WeatherChartDay[],
  light: Light,
  logged: boolean,
  whole: Box,
): { panels: Panel[]; own: string[] } {
  const plot: Box = { ...whole, height: 264 };
  const air: Box = { ...whole, y: plot.y + plot.height + 28, height: whole.height - plot.height - 28 };
  const across = rightward(plot, days.length);
  const down = scaleLinear([0, 24], [plot.y, plot.y + plot.height]);
  const hours = { days, across, down, clock: clockOf(light.start_ms) };
  const dates = days.map((day) => day.night);
  const { words } = monthAxis(dates, across, air);
  const begins = (box: Box) => monthAxis(dates, across, box).lines;
  const values = logged ? light.planeOfArray_W_m2 : light.ghi_W_m2;
  const degrees = airScale(days, air);
  const axis = verticalAxis(degrees, air, 4);
  const sky = () => [
    rect('deep', plot),
    ...lightPaths(hours, values),
    logged ? '' : filledPath(hours, light.mark),
    begins(plot),
  ];
  return {
    panels: [
      { box: plot, marks: sky },
      { box: air, marks: () => [begins(air), axis.lines, airBand(days, across, degrees)] },
    ],
    own: [
      ...[0, 6, 12, 18, 24].map((hour) => label(plot.x - 8, down(hour) + 4, `${hour} h`, 'axis end')),
      label(air.x, air.y - 9, 'Air, coldest to warmest hour of the day, °C', 'strong'),
      axis.words,
      words,
    ],
  };
}

/** The hours of the record as places in the picture. */
interface HourPlaces {
  days: readonly WeatherChartDay[];
  across: (day: number) => number;
  down: (hour: number) => number;
  /** Hour of the day, by the wall clock, at which an hour of the record begins. */
  clock: (day: WeatherChartDay, hour: number) => number;
}

/** The clocks' offset is that of the day's first hour: on the two days of change the rest of it stands an hour aside. */
function clockOf(start_ms: number): HourPlaces['clock'] {
  return (day, i) => {
    const hour = start_ms / HOUR_MS + i + day.offset_min / 60;
    return ((hour % 24) + 24) % 24;
  };
}

/** One path for each step of light; hours that follow each other in a day are one stroke. */
function lightPaths({ days, across, down, clock }: HourPlaces, values: Float64Array): string[] {
  const step = scaleThreshold<number, number>(LIGHT_STEPS_W_M2, [-1, 0, 1, 2, 3, 4, 5, 6, 7]);
  const paths = new Array<string>(LIGHT_STEPS_W_M2.length).fill('');
  // A column is a little wider than its day: no seams of the ground show between them.
  const wide = coordinate(across(1) - across(0) + 0.15);
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
  return paths.map((d, k) => (d === '' ? '' : path(`step${k}`, d)));
}

function filledPath({ days, across, down, clock }: HourPlaces, mark: Uint8Array): string {
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
  return d === '' ? '' : path('filled', d);
}

function airScale(days: readonly WeatherChartDay[], plot: Box): ScaleLinear<number, number> {
  const [coldest = 0] = extent(days, (day) => day.coldest_degC);
  const warmest = max(days, (day) => day.warmest_degC) ?? 1;
  return upward(plot, coldest - 1, warmest + 1).nice(4);
}

function airBand(
  days: readonly WeatherChartDay[],
  across: (day: number) => number,
  up: (degrees: number) => number,
): string {
  const band = area<WeatherChartDay>(
    (_, k) => across(k + 0.5),
    (day) => up(day.coldest_degC),
    (day) => up(day.warmest_degC),
  ).digits(1);
  return path('airBand', band(days));
}
