import { extent, max } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { fixed } from '../../common/csvText.ts';
import type { CapacitorLimits } from './capacitorChart.ts';
import { element, shortNumber } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import type { FortnightHour, FortnightHours } from './fortnightHours.ts';
import { label } from './label.ts';
import { legend } from './legend.ts';
import type { Plot } from './monthAxis.ts';
import { verticalAxis } from './verticalAxis.ts';

const WIDTH = 1000;
const HEIGHT = 640;
const LEFT = 52;
const RIGHT = 12;
const GAP = 30;

type Across = (hour: number) => number;

/**
 * The darkest fortnight hour by hour: light on the cell, temperature, capacitor and LED one above the other, the nights
 * shaded, and where it fell dark marked with the time.
 *
 * in: id; name; data; limits; summary
 * out: the picture; classes: sun, air, jar, capacitor, lit, hatched (short hours), event
 */
export function fortnightChart(
  id: string,
  name: string,
  data: FortnightHours,
  limits: CapacitorLimits,
  summary: string,
): Figure {
  const facts = {
    key: 'fortnight',
    id,
    title: `The darkest fortnight: ${name}`,
    summary,
    width: WIDTH,
    height: HEIGHT,
  };
  const { hours, nights } = data;
  const key = legend(
    [
      { mark: 'sun', words: 'light on the cell' },
      { mark: 'air', line: true, words: 'air outside' },
      { mark: 'jar', line: true, words: 'in the jar' },
      { mark: 'capacitor', line: true, words: 'capacitor' },
      { mark: 'lit', words: 'LED' },
      { mark: 'hatched', words: 'promised and dark, the deeper the longer' },
      { mark: 'night', words: 'dusk to dawn' },
      { mark: 'failure', triangle: true, words: 'falls dark' },
    ],
    LEFT,
    4,
    WIDTH - RIGHT,
  );
  const top = key.height + 26;
  const whole: Plot = { x: LEFT, y: top, width: WIDTH - LEFT - RIGHT, height: HEIGHT - top - 32 };
  const across = scaleLinear([0, Math.max(hours.length, 1)], [LEFT, WIDTH - RIGHT]);
  const [light, air, capacitor, led] = panels(whole, [1, 0.8, 1.35, 1]) as [Plot, Plot, Plot, Plot];
  const marks = [
    key.markup,
    ...[light, air, capacitor, led].map((plot) => nightBands(nights, across, plot)),
    dayLines(hours, across, whole),
    lightPanel(hours, across, light),
    airPanel(hours, across, air),
    capacitorPanel(hours, across, capacitor, limits),
    ledPanel(hours, across, led),
    fallsDark(nights, across, capacitor, led),
  ];
  return {
    ...facts,
    svg: figureSvg(facts, marks),
    table: {
      columns: [
        { heading: 'start_local', label: 'hour from' },
        { heading: 'light_on_cell_W_m2', label: 'light on the cell', unit: 'W/m2' },
        { heading: 'air_degC', label: 'air', unit: '°C' },
        { heading: 'jar_degC', label: 'jar', unit: '°C' },
        { heading: 'capacitor_lowest_V', label: 'capacitor, lowest', unit: 'V' },
        { heading: 'capacitor_end_V', label: 'capacitor, at its end', unit: 'V' },
        { heading: 'light_mean_lm', label: 'LED, mean', unit: 'lm' },
        { heading: 'promised_min', label: 'promised', unit: 'min' },
        { heading: 'short_min', label: 'of it dark', unit: 'min' },
      ],
      rows: hours.map((hour) => [
        hour.local.replace('T', ' '),
        fixed(hour.light_W_m2, 1),
        fixed(hour.air_degC, 1),
        fixed(hour.jar_degC, 1),
        fixed(hour.capacitorLowest_V, 3),
        fixed(hour.capacitorEnd_V, 3),
        fixed(hour.light_lm, 3),
        fixed(hour.promised_min, 1),
        fixed(hour.short_min, 1),
      ]),
    },
    reader: {
      step: 'hour',
      ...whole,
      stops: {
        name: 'fall into the dark',
        rows: nights.flatMap(({ firstShort }) => (firstShort >= 0 ? [Math.floor(firstShort)] : [])),
      },
      first: Math.max(0, Math.floor(nights.find(({ failed }) => failed)?.firstShort ?? 0)),
    },
  };
}

function panels(whole: Plot, shares: readonly number[]): Plot[] {
  const all = shares.reduce((sum, share) => sum + share, 0);
  const room = whole.height - GAP * (shares.length - 1);
  let y = whole.y;
  return shares.map((share) => {
    const height = Math.round((room * share) / all);
    const plot = { ...whole, y, height };
    y += height + GAP;
    return plot;
  });
}

function nightBands(nights: FortnightHours['nights'], across: Across, plot: Plot): string {
  const right = plot.x + plot.width;
  const bands = nights
    .filter(({ dusk }) => !Number.isNaN(dusk))
    .map(({ dusk, dawn }) => {
      const from = Math.max(across(dusk), plot.x);
      return element('rect', {
        class: 'night',
        x: from,
        y: plot.y,
        width: Math.max(0, Math.min(across(dawn), right) - from),
        height: plot.height,
      });
    });
  return (
    element('rect', { class: 'day', x: plot.x, y: plot.y, width: plot.width, height: plot.height }) +
    bands.join('')
  );
}

function dayLines(hours: readonly FortnightHour[], across: Across, whole: Plot): string {
  const bottom = whole.y + whole.height;
  const midnights = hours.flatMap((hour, k) => (hour.local.endsWith('T00:00') ? [k] : []));
  const lines = midnights.map((k) => `M${shortNumber(across(k))} ${whole.y}V${bottom}`).join('');
  const words = midnights.map((k) =>
    label(
      across(k),
      bottom + 18,
      `${Number(hours[k]!.local.slice(8, 10))}.${Number(hours[k]!.local.slice(5, 7))}.`,
      { class: 'axis middle' },
    ),
  );
  return element('path', { class: 'onNight', d: lines || undefined }) + words.join('');
}

function heading(plot: Plot, words: string): string {
  return label(plot.x, plot.y - 8, words, { class: 'strong' });
}

function lightPanel(hours: readonly FortnightHour[], across: Across, plot: Plot): string {
  const up = scaleLinear(
    [0, Math.max(max(hours, (hour) => hour.light_W_m2) ?? 0, 10)],
    [plot.y + plot.height, plot.y],
  ).nice(3);
  const base = shortNumber(up(0));
  const wide = shortNumber(across(1) - across(0));
  const bars = hours.map(({ light_W_m2 }, k) =>
    light_W_m2 > 0 ? `M${across(k).toFixed(1)} ${base}V${up(light_W_m2).toFixed(1)}h${wide}V${base}z` : '',
  );
  return (
    heading(plot, 'Light on the cell, W/m2') +
    verticalAxis(up, plot, '', 3) +
    element('path', { class: 'sun', d: bars.join('') || undefined })
  );
}

function airPanel(hours: readonly FortnightHour[], across: Across, plot: Plot): string {
  const [least = 0, most = 1] = extent(hours.flatMap((hour) => [hour.air_degC, hour.jar_degC]));
  const up = scaleLinear([least - 1, most + 1], [plot.y + plot.height, plot.y]).nice(3);
  const curve = (value: (hour: FortnightHour) => number) =>
    line<FortnightHour>()
      .x((_, k) => across(k + 0.5))
      .y((hour) => up(value(hour)))
      .digits(1)(hours) ?? undefined;
  return (
    heading(plot, 'Temperature, °C') +
    verticalAxis(up, plot, '', 3) +
    element('path', { class: 'jar', d: curve((hour) => hour.jar_degC) }) +
    element('path', { class: 'air', d: curve((hour) => hour.air_degC) })
  );
}

function capacitorPanel(
  hours: readonly FortnightHour[],
  across: Across,
  plot: Plot,
  limits: CapacitorLimits,
): string {
  const highest_V = Math.max(max(hours, (hour) => hour.capacitorEnd_V) ?? 0, limits.cutoff_V);
  const up = scaleLinear([0, highest_V * 1.08], [plot.y + plot.height, plot.y]).nice(4);
  const curve = line<FortnightHour>()
    .x((_, k) => across(k + 1))
    .y((hour) => up(hour.capacitorEnd_V))
    .digits(1);
  const cutoff = up(limits.cutoff_V);
  return (
    heading(plot, 'Capacitor, V') +
    verticalAxis(up, plot, '', 4) +
    element('path', { class: 'limit', d: `M${plot.x} ${shortNumber(cutoff)}H${plot.x + plot.width}` }) +
    label(plot.x + 4, cutoff - 5, `cut-off ${limits.cutoff_V} V`, { class: 'strong halo' }) +
    element('path', { class: 'capacitor', d: curve(hours) ?? undefined })
  );
}

function ledPanel(hours: readonly FortnightHour[], across: Across, plot: Plot): string {
  const up = scaleLinear(
    [0, Math.max(max(hours, (hour) => hour.light_lm) ?? 0, 0.1)],
    [plot.y + plot.height, plot.y],
  ).nice(3);
  const bars = hours.map((hour, k) =>
    hour.light_lm > 0
      ? element('rect', {
          class: 'lit',
          x: across(k) + 0.3,
          y: up(hour.light_lm),
          width: across(1) - across(0) - 0.6,
          height: up(0) - up(hour.light_lm),
        })
      : '',
  );
  // Dark time hangs from the top of the panel, as long a part of its hour as it lasted.
  const dark = hours.map((hour, k) =>
    hour.short_min >= 0.5
      ? element('rect', {
          class: 'hatched',
          x: across(k),
          y: plot.y,
          width: across(1) - across(0),
          height: (plot.height * 0.5 * hour.short_min) / 60,
        })
      : '',
  );
  return heading(plot, 'LED, lm') + verticalAxis(up, plot, '', 3) + bars.join('') + dark.join('');
}

function fallsDark(nights: FortnightHours['nights'], across: Across, capacitor: Plot, led: Plot): string {
  return nights
    .filter(({ firstShort, failed }) => failed && firstShort >= 0)
    .map(({ firstShort, firstShort_local }) => {
      const x = shortNumber(across(firstShort));
      return (
        element('path', { class: 'event', d: `M${x} ${capacitor.y}V${led.y + led.height}` }) +
        element('path', { class: 'failure', d: `M${x} ${capacitor.y + capacitor.height + 3}l3.5 7h-7z` }) +
        label(across(firstShort) + 4, capacitor.y + 14, firstShort_local, { class: 'strong halo' })
      );
    })
    .join('');
}
