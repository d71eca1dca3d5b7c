import { extent, max } from 'd3-array';
import { line } from 'd3-shape';
import type { CapacitorLimits } from './capacitorChart.ts';
import {
  bar,
  type ChartColumn,
  chart,
  type LegendEntry,
  numbers,
  rightward,
  texts,
  upward,
  verticalAxis,
} from './chart.ts';
import { type Box, coordinate, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import type { FortnightHour, FortnightHours } from './fortnightHours.ts';

const GAP = 30;
const LEGEND: readonly LegendEntry[] = [
  { mark: 'sun', words: 'light on the cell' },
  { mark: 'air', line: true, words: 'air outside' },
  { mark: 'jar', line: true, words: 'in the jar' },
  { mark: 'capacitor', line: true, words: 'capacitor' },
  { mark: 'lit', words: 'LED' },
  { mark: 'dim', words: 'promised and dim: the deeper the longer' },
  { mark: 'hatched', words: 'promised and out' },
  { mark: 'night', words: 'dusk to dawn' },
  { mark: 'solid', triangle: true, words: 'falls short' },
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
      legend: LEGEND,
      height: { whole: 640 },
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
      const plots = panels(whole, [1, 0.8, 1.35, 1]);
      const [light, air, capacitor, led] = plots as [Box, Box, Box, Box];
      return [
        ...plots.map((plot) => nightBands(nights, across, plot)),
        dayLines(hours, across, whole),
        lightPanel(hours, across, light),
        airPanel(hours, across, air),
        capacitorPanel(hours, across, capacitor, limits),
        ledPanel(hours, across, led),
        fallsShort(nights, across, capacitor, led),
      ];
    },
  );
}

function panels(whole: Box, shares: readonly number[]): Box[] {
  const all = shares.reduce((sum, share) => sum + share, 0);
  const room = whole.height - GAP * (shares.length - 1);
  let y = whole.y;
  return shares.map((share) => {
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

function dayLines(hours: Hours, across: Across, whole: Box): string {
  const bottom = whole.y + whole.height;
  const midnights = hours.flatMap(({ local }, k) => (local.endsWith('T00:00') ? [k] : []));
  const lines = midnights.map((k) => `M${coordinate(across(k))} ${whole.y}V${bottom}`);
  const words = midnights.map((k) => {
    const [, month, day] = hours[k]!.local.slice(0, 10).split('-').map(Number);
    return label(across(k), bottom + 18, `${day}.${month}.`, 'axis middle');
  });
  return path('onNight', lines.join('')) + words.join('');
}

function heading(plot: Box, words: string): string {
  return label(plot.x, plot.y - 8, words, 'strong');
}

function lightPanel(hours: Hours, across: Across, plot: Box): string {
  const most = max(hours, (hour) => hour.light_W_m2) ?? 0;
  const up = upward(plot, 0, Math.max(most, 10)).nice(3);
  const base = coordinate(up(0));
  const wide = coordinate(across(1) - across(0));
  const bars = hours.map(({ light_W_m2 }, k) =>
    light_W_m2 > 0 ? `M${across(k).toFixed(1)} ${base}V${up(light_W_m2).toFixed(1)}h${wide}V${base}z` : '',
  );
  return heading(plot, 'Light on the cell, W/m2') + verticalAxis(up, plot, 3) + path('sun', bars.join(''));
}

function airPanel(hours: Hours, across: Across, plot: Box): string {
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
  return heading(plot, 'Temperature, °C') + verticalAxis(up, plot, 3) + curve('jar') + curve('air');
}

function capacitorPanel(hours: Hours, across: Across, plot: Box, { cutoff_V }: CapacitorLimits): string {
  const highest_V = Math.max(max(hours, (hour) => hour.capacitorEnd_V) ?? 0, cutoff_V);
  const up = upward(plot, 0, highest_V * 1.08).nice(4);
  const curve = line<FortnightHour>(
    (_, k) => across(k + 1),
    (hour) => up(hour.capacitorEnd_V),
  ).digits(1);
  const cutoff = up(cutoff_V);
  return (
    heading(plot, 'Capacitor, V') +
    verticalAxis(up, plot, 4) +
    path('limit', `M${plot.x} ${coordinate(cutoff)}H${plot.x + plot.width}`) +
    label(plot.x + 4, cutoff - 5, `cut-off ${cutoff_V} V`, 'strong halo') +
    path('capacitor', curve(hours))
  );
}

function ledPanel(hours: Hours, across: Across, plot: Box): string {
  const most = max(hours, (hour) => hour.light_lm) ?? 0;
  const up = upward(plot, 0, Math.max(most, 0.1)).nice(3);
  const wide = across(1) - across(0);
  const bars = hours.map(({ light_lm }, k) =>
    light_lm > 0 ? bar('lit', across(k) + 0.3, wide - 0.6, light_lm, up) : '',
  );
  // Short time hangs from the top of the panel, as long a part of its hour as it lasted, dim below out.
  const short = hours.map(({ dim_min, out_min }, k) => {
    const deep = (minutes: number) => (plot.height * 0.5 * minutes) / 60;
    const part = (mark: string, minutes: number, y: number) =>
      minutes >= 0.5 ? rect(mark, { x: across(k), y, width: wide, height: deep(minutes) }) : '';
    return part('hatched', out_min, plot.y) + part('dim', dim_min, plot.y + deep(out_min));
  });
  return heading(plot, 'LED, lm') + verticalAxis(up, plot, 3) + bars.join('') + short.join('');
}

function fallsShort(nights: Nights, across: Across, capacitor: Box, led: Box): string {
  return nights
    .filter(({ firstShort, failed }) => failed && firstShort >= 0)
    .map(({ firstShort, firstShort_local }) => {
      const x = coordinate(across(firstShort));
      return (
        path('event', `M${x} ${capacitor.y}V${led.y + led.height}`) +
        path('solid', `M${x} ${capacitor.y + capacitor.height + 3}l3.5 7h-7z`) +
        label(across(firstShort) + 4, capacitor.y + 14, firstShort_local, 'strong halo')
      );
    })
    .join('');
}
