import type { CloserHours } from '../closerHours.ts';
import { type HourAxis, tickText } from './hourAxis.ts';
import { spoken } from './page.ts';

/** What the drawing asks of its surroundings: the hours to show; to hear of those shown, and of a wish for all. */
interface Surroundings {
  bounds: () => [number, number];
  say: (from: number, to: number) => void;
  all: () => void;
}

const HEIGHT = 300;

/** Draws light, reachable voltage and capacitor against the hours, and again where theme or width change. */
export function closerPlot(
  frame: HTMLElement,
  axis: HourAxis,
  drawn: CloserHours,
  { bounds, say, all }: Surroundings,
) {
  let plot: uPlot | undefined;
  const go = () => {
    const [min, max] = bounds();
    plot?.setScale('x', { min, max });
  };
  const data = dataOf(axis.count, drawn);
  const width = () => Math.max(frame.clientWidth, 260);
  const draw = () => {
    plot?.destroy();
    const [min, max] = bounds();
    plot = new uPlot(
      {
        width: width(),
        height: HEIGHT,
        legend: { live: true },
        cursor: { drag: { x: true, y: false, setScale: true } },
        scales: {
          x: { time: false, min, max },
          V: { range: (_u, _low, high) => [0, Math.max(high, drawn.rated_V || 0) * 1.05] },
          W: { range: (_u, _low, high) => [0, Math.max(high, 10) * 1.6] },
        },
        axes: axesOf(axis),
        series: seriesOf(axis),
        hooks: { setScale: [(u, key) => key === 'x' && say(...shownOf(u))] },
      },
      data,
      frame,
    );
    plot.over.addEventListener('dblclick', () => setTimeout(all, 0));
    say(min, max);
  };
  draw();
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => {
    if (frame.isConnected) draw();
  });
  new ResizeObserver(() => {
    if (plot !== undefined && frame.clientWidth > 0 && Math.abs(plot.width - frame.clientWidth) > 2)
      plot.setSize({ width: width(), height: HEIGHT });
  }).observe(frame);
  return { go, shown: () => (plot === undefined ? undefined : shownOf(plot)) };
}

function shownOf({ scales }: uPlot): [number, number] {
  return [scales.x!.min!, scales.x!.max!];
}

/** Hours, then columns in the order of the series; null where nothing applies. */
function dataOf(
  count: number,
  { lightOnCell_W_m2, reachable_V, capacitor_V, cutoff_V, rated_V }: CloserHours,
): uPlot.AlignedData {
  const known = (value: number) => (Number.isNaN(value) ? null : value);
  return [
    Float64Array.from({ length: count }, (_, i) => i + 1),
    ...[lightOnCell_W_m2, reachable_V, capacitor_V].map((values) => Array.from(values, known)),
    ...[cutoff_V, rated_V].map((volts) => new Array(count).fill(known(volts))),
  ];
}

function axesOf(axis: HourAxis): uPlot.Axis[] {
  const line = { stroke: colour('line'), width: 1 };
  const common = { stroke: colour('faint'), grid: line, ticks: line, font: '12px system-ui, sans-serif' };
  const withUnit = (unit: string) => (_u: uPlot, values: number[]) =>
    values.map((value) => `${value} ${unit}`);
  return [
    {
      ...common,
      splits: (u, _k, min, max) => axis.ticks(min, max, u.width),
      values: (u, values) => {
        const [min, max] = shownOf(u);
        return values.map((hour) => tickText(axis, hour, (max - min) / 24));
      },
    },
    { ...common, scale: 'V', size: 52, values: withUnit('V') },
    { ...common, scale: 'W', side: 1, size: 78, grid: { show: false }, values: withUnit('W/m²') },
  ];
}

function seriesOf(axis: HourAxis): uPlot.Series[] {
  const words = (value: number | null | undefined, write: (value: number) => string) =>
    typeof value === 'number' ? write(value) : '–';
  const line = (label: string, scale: string, decimals: number, stroke: string, style: uPlot.Series) => ({
    label,
    scale,
    stroke: colour(stroke),
    points: { show: false },
    value: (_u: uPlot, value: number | null) =>
      words(value, (number) => `${number.toFixed(decimals)} ${scale === 'W' ? 'W/m²' : scale}`),
    ...style,
  });
  const paths = uPlot.paths.stepped!({ align: -1 });
  return [
    { label: 'hour to', value: (_u, value) => words(value, (hour) => spoken(axis.localText(hour))) },
    line('light on the cell', 'W', 1, 'light', { width: 1, fill: colour('lightPale'), paths }),
    line('highest the cell can charge to', 'V', 3, 'lightDeep', { width: 1.5, paths }),
    line('capacitor', 'V', 3, 'accent', { width: 2 }),
    line('cut-off', 'V', 2, 'ink', { width: 1.25, dash: [7, 4] }),
    line('rated', 'V', 2, 'ink', { width: 1.25, dash: [2, 3] }),
  ];
}

/** A colour of the page's theme. */
function colour(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();
}
