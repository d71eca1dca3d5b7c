import { extent, max } from 'd3-array';
import { line } from 'd3-shape';
import { bar } from './bar.ts';
import type { CapacitorLimits } from './capacitorChart.ts';
import { type ChartColumn, chart, numbers, type Panel, texts } from './chart.ts';
import { type Box, coordinate, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import type { FortnightHour, FortnightHours } from './fortnightHours.ts';
import type { LegendEntry } from './legend.ts';
import { rightward, upward, verticalAxis } from './verticalAxis.ts';

/** Between panels; the last one is larger by the times that stand in it. */
const GAP = 30;
const TIMES = 16;
const LEGEND: readonly LegendEntry[] = [
  { mark: 'sun', words: 'light on the cell' },
  { mark: 'air', line: true, words: 'air outside' },
  { mark: 'jar', line: true, words: 'in the jar' },
  { mark: 'capacitor', line: true, words: 'capacitor' },
  { mark: 'lit', words: 'LED' },
  { mark: 'dim', words: 'promised and dim: the deeper the longer' },
  { mark: 'hatched', words: 'promised and out' },
  { mark: 'night', words: 'dusk to dawn' },
  { mark: 'solid', triangle: true, words: 'falls short, and when' },
];

const COLUMNS: ChartColumn<FortnightHour>[] = [
  texts('start_local', 'hour from', ({ local }) => local.replace('T', ' ')),
  numbers('light_on_cell_W_m2', 'light on the cell', 'W/m2', 1, (hour) => hour.light_W_m2),
  numbers('air_degC', 'air', '°C', 1, (hour) => hour.air_degC),
  numbers('jar_degC', 'jar', '°C', 1, (hour) => hour.jar_degC),
  numbers('capacitor_lowest_V', 'capacitor, lowest', 'V', 3, (hour) => hour.capacitorLowest_V),
  numbers('capacitor_end_V', 'capacitor, at its end', 'V', 3, (hour) => hour.capacitorEnd_V),
  numbers('light_mean_lm', 'LED, mean', 'lm', 3, (hour) => hour.light_lm),
  numbers('promised_min', 'promised', 'min', 1, (hour) => hour.promised_min),
  numbers('dim_min', 'of it dim', 'min', 1, (hour) => hour.dim_min),
  numbers('out_min', 'of it out', 'min', 1, (hour) => hour.out_min),
];

type Across = (hour: number) => number;
type Hours = readonly FortnightHour[];
type Nights = FortnightHours['nights'];

/** A panel's marks beneath its nights' shade, and its words. */
interface Part {
  marks: () => string;
  words: string;
}

/**
 * The darkest fortnight hour by hour: light on the cell, temperature, capacitor and LED one above the other, the nights
 * shaded, and where it falls short marked with the time.
 *
 * in: id; name; data; limits; summary
 * out: the picture; classes: sun, air, jar, capacitor, lit, dim, hatched (out), event
 */
export function fortnightChart(
  id: string,
  name: string,
  { hours, nights }: FortnightHours,
  limits: CapacitorLimits,
  summary: string,
): Figure {
  const goes = new Set(nights.map(({ firstShort }) => Math.floor(firstShort)));
  return chart(
    {
      key: 'fortnight',
      id,
      title: `The darkest fortnight: ${name}`,
      summary,
      legend: [...LEGEND, { mark: 'limit', line: true, words: `cut-off, ${limits.cutoff_V} V` }],
      height: { whole: 656 },
      above: 26,
      below: 32,
      rows: hours,
      columns: COLUMNS,
      reader: {
        step: 'hour',
        stops: { name: 'hour it falls short', at: (_, k) => goes.has(k) },
        first: Math.max(0, Math.floor(nights.find(({ failed }) => failed)?.firstShort ?? 0)),
      },
    },
    (whole) => {
      const across = rightward(whole, hours.length);
      const boxes = panels(whole, [1, 0.8, 1.35, 1]);
      const [light, air, capacitor, led] = boxes as [Box, Box, Box, Box];
      const parts = [
        lightPart(hours, across, light),
        airPart(hours, across, air),
        capacitorPart(hours, across, capacitor, limits),
        ledPart(hours, across, led),
      ];
      const falls = nights.filter(({ firstShort, failed }) => failed && firstShort >= 0);
      return {
        panels: boxes.map((box, k): Panel => {
          const ground = () => nightBands(nights, across, box) + dayLines(hours, across, box);
          const events = k < 3 ? '' : eventLines(falls, across, capacitor, led);
          return { box, marks: () => [ground(), parts[k]!.marks(), events] };
        }),
        own: [
          ...parts.map(({ words }) => words),
          dayNames(hours, across, whole),
          ...fallsShort(falls, across, capacitor),
        ],
      };
    },
  );
}

function panels(whole: Box, shares: readonly number[]): Box[] {
  const all = shares.reduce((sum, share) => sum + share, 0);
  const room = whole.height - GAP * (shares.length - 1) - TIMES;
  let y = whole.y;
  return shares.map((share, k) => {
    if (k === shares.length - 1) y += TIMES;
    const plot = { ...whole, y, height: Math.round((room * share) / all) };
    y += plot.height + GAP;
    return plot;
  });
}

function nightBands(nights: Nights, across: Across, plot: Box): string {
  const bands = nights
    .filter(({ dusk }) => !Number.isNaN(dusk))
    .map(({ dusk, dawn }) => {
      const x = Math.max(across(dusk), plot.x);
      const width = Math.max(0, Math.min(across(dawn), plot.x + plot.width) - x);
      return rect('night', { ...plot, x, width });
    });
  return rect('day', plot) + bands.join('');
}

function midnights(hours: Hours): number[] {
  return hours.flatMap(({ local }, k) => (local.endsWith('T00:00') ? [k] : []));
}

function dayLines(hours: Hours, across: Across, { y, height }: Box): string {
  return path(
    'onNight',
    midnights(hours)
      .map((k) => `M${coordinate(across(k))} ${y}v${height}`)
      .join(''),
  );
}

/** Room for the date of a day. */
const DATE = 38;

function dayNames(hours: Hours, across: Across, whole: Box): string {
  const every = Math.ceil(DATE / (across(24) - across(0)));
  return midnights(hours)
    .map((hour, k) => {
      const [, month, day] = hours[hour]!.local.slice(0, 10).split('-').map(Number);
      const words = `${day}.${month}.`;
      return k % every === 0 ? label(across(hour), whole.y + whole.height + 18, words, 'axis middle') : '';
    })
    .join('');
}

function heading(plot: Box, words: string): string {
  return label(plot.x, plot.y - 8, words, 'strong');
}

function lightPart(hours: Hours, across: Across, plot: Box): Part {
  const most = max(hours, (hour) => hour.light_W_m2) ?? 0;
  const up = upward(plot, 0, Math.max(most, 10)).nice(3);
  const base = coordinate(up(0));
  const wide = coordinate(across(1) - across(0));
  const bars = hours.map(({ light_W_m2 }, k) =>
    light_W_m2 > 0 ? `M${across(k).toFixed(1)} ${base}V${up(light_W_m2).toFixed(1)}h${wide}V${base}z` : '',
  );
  const axis = verticalAxis(up, plot, 3);
  return {
    marks: () => axis.lines + path('sun', bars.join('')),
    words: heading(plot, 'Light on the cell, W/m2') + axis.words,
  };
}

function airPart(hours: Hours, across: Across, plot: Box): Part {
  const [least = 0, most = 1] = extent(hours.flatMap((hour) => [hour.air_degC, hour.jar_degC]));
  const up = upward(plot, least - 1, most + 1).nice(3);
  const curve = (kind: 'jar' | 'air') =>
    path(
      kind,
      line<FortnightHour>(
        (_, k) => across(k + 0.5),
        (hour) => up(hour[`${kind}_degC`]),
      ).digits(1)(hours),
    );
  const axis = verticalAxis(up, plot, 3);
  return {
    marks: () => axis.lines + curve('jar') + curve('air'),
    words: heading(plot, 'Temperature, °C') + axis.words,
  };
}

function capacitorPart(hours: Hours, across: Across, plot: Box, { cutoff_V }: CapacitorLimits): Part {
  const highest_V = Math.max(max(hours, (hour) => hour.capacitorEnd_V) ?? 0, cutoff_V);
  const up = upward(plot, 0, highest_V * 1.08).nice(4);
  const curve = line<FortnightHour>(
    (_, k) => across(k + 1),
    (hour) => up(hour.capacitorEnd_V),
  ).digits(1);
  const axis = verticalAxis(up, plot, 4);
  return {
    marks: () =>
      axis.lines +
      path('limit', `M${plot.x} ${coordinate(up(cutoff_V))}H${plot.x + plot.width}`) +
      path('capacitor', curve(hours)),
    words: heading(plot, 'Capacitor, V') + axis.words,
  };
}

function ledPart(hours: Hours, across: Across, plot: Box): Part {
  const most = max(hours, (hour) => hour.light_lm) ?? 0;
  const up = upward(plot, 0, Math.max(most, 0.1)).nice(3);
  const wide = across(1) - across(0);
  const bars = () =>
    hours.map(({ light_lm }, k) =>
      light_lm > 0 ? bar('lit', across(k) + 0.3, wide - 0.6, light_lm, up) : '',
    );
  // Short time hangs from the top of the panel, as long a part of its hour as it lasted, dim below out.
  const short = () =>
    hours.map(({ dim_min, out_min }, k) => {
      const deep = (minutes: number) => (plot.height * 0.5 * minutes) / 60;
      const part = (mark: string, minutes: number, y: number) =>
        minutes >= 0.5 ? rect(mark, { x: across(k), y, width: wide, height: deep(minutes) }) : '';
      return part('hatched', out_min, plot.y) + part('dim', dim_min, plot.y + deep(out_min));
    });
  const axis = verticalAxis(up, plot, 3);
  return {
    marks: () => [axis.lines, ...bars(), ...short()].join(''),
    words: heading(plot, 'LED, lm') + axis.words,
  };
}

/** Through the capacitor's panel and the LED's, not through the words between. */
function eventLines(falls: Nights, across: Across, capacitor: Box, led: Box): string {
  return falls
    .map(({ firstShort }) => {
      const x = coordinate(across(firstShort));
      return path('event', `M${x} ${capacitor.y}v${capacitor.height}M${x} ${led.y}v${led.height}`);
    })
    .join('');
}

/** A time of the clock needs so much. */
const TIME = 38;

/** Triangles under the capacitor's panel, and the times where there is room for them. */
function fallsShort(falls: Nights, across: Across, { y, height }: Box): string[] {
  const named = across(24) - across(0) >= TIME;
  return falls.map(({ firstShort, firstShort_local }) => {
    const x = across(firstShort);
    const time = named ? label(x + 6, y + height + 14, firstShort_local, 'strong') : '';
    return path('solid', `M${coordinate(x)} ${y + height + 4}l3.5 7h-7z`) + time;
  });
}
