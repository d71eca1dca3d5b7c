import { type HourAxis, tickText } from './hourAxis.ts';
import { spoken } from './page.ts';

/** Columns of the hours that are drawn. */
interface Columns {
  light: Float64Array;
  reachable: Float64Array;
  capacitor: Float64Array;
}

/** Voltages that are drawn as lines across. */
interface Limits {
  cutoff_V: number | null;
  rated_V: number | null;
}

/** What the drawing asks of its surroundings. */
interface Surroundings {
  /** The hours to show. */
  bounds: () => [number, number];
  /** Hears of the hours that are shown. */
  say: (from: number, to: number) => void;
  /** A double click asks for all hours. */
  all: () => void;
}

const HEIGHT = 300;

/**
 * Draws light, reachable voltage and capacitor against the hours, once the frame comes near the window, and again
 * where theme or width change.
 */
export function closerPlot(
  frame: HTMLElement,
  axis: HourAxis,
  columns: Columns,
  limits: Limits,
  { bounds, say, all }: Surroundings,
) {
  let plot: uPlot | undefined;
  const go = () => {
    const [min, max] = bounds();
    plot?.setScale('x', { min, max });
  };
  const data = dataOf(axis.count, columns, limits);
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
          V: { range: (_u, _low, high) => [0, Math.max(high, limits.rated_V ?? 0) * 1.05] },
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
  const seen = new IntersectionObserver(
    (entries) => {
      if (!entries.some((entry) => entry.isIntersecting)) return;
      seen.disconnect();
      draw();
    },
    { rootMargin: '400px' },
  );
  seen.observe(frame.parentElement!);
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => {
    if (plot !== undefined) draw();
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
function dataOf(count: number, columns: Columns, { cutoff_V, rated_V }: Limits): uPlot.AlignedData {
  const holes = (values: Float64Array) => Array.from(values, (value) => (Number.isNaN(value) ? null : value));
  return [
    Float64Array.from({ length: count }, (_, i) => i + 1),
    holes(columns.light),
    holes(columns.reachable),
    holes(columns.capacitor),
    new Array(count).fill(cutoff_V),
    new Array(count).fill(rated_V),
  ];
}

function axesOf(axis: HourAxis): uPlot.Axis[] {
  const line = { stroke: colour('line'), width: 1 };
  const common = {
    stroke: colour('faint'),
    grid: line,
    ticks: line,
    font: '12px system-ui, sans-serif',
  };
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
    { ...common, scale: 'W', side: 1, size: 78, grid: { show: false }, values: withUnit('W/m2') },
  ];
}

function seriesOf(axis: HourAxis): uPlot.Series[] {
  const number = (decimals: number, unit: string) => (_u: uPlot, value: number | null | undefined) =>
    typeof value === 'number' ? `${value.toFixed(decimals)} ${unit}` : '–';
  const stepped = uPlot.paths.stepped!({ align: -1 });
  const line = { points: { show: false } };
  const limit = { ...line, scale: 'V', stroke: colour('ink'), width: 1.25, value: number(2, 'V') };
  return [
    {
      label: 'hour to',
      value: (_u, value: number | null | undefined) =>
        typeof value === 'number' ? spoken(axis.localText(value)) : '–',
    },
    {
      ...line,
      label: 'light on the cell',
      scale: 'W',
      stroke: colour('light'),
      fill: colour('lightPale'),
      width: 1,
      paths: stepped,
      value: number(1, 'W/m2'),
    },
    {
      ...line,
      label: 'reachable',
      scale: 'V',
      stroke: colour('lightDeep'),
      width: 1.5,
      paths: stepped,
      value: number(3, 'V'),
    },
    { ...line, label: 'capacitor', scale: 'V', stroke: colour('accent'), width: 2, value: number(3, 'V') },
    { ...limit, label: 'cut-off', dash: [7, 4] },
    { ...limit, label: 'rated', dash: [2, 3] },
  ];
}

/** A colour of the page's theme. */
function colour(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();
}
