import { scaleBand } from 'd3-scale';
import { rect } from './element.ts';

/** A bar from zero up to a value; none where there is no value. */
export function bar(
  kind: string,
  x: number,
  width: number,
  value: number,
  up: (value: number) => number,
): string {
  if (!(value >= 0)) return '';
  return rect(kind, { x, y: up(value), width, height: up(0) - up(value) });
}

/** Bars of one month side by side, over a width, with a gap between them as a share of a bar and its gap. */
export function barGroup(
  bars: readonly { mark: string; value: number }[],
  x: number,
  width: number,
  gap: number,
  up: (value: number) => number,
): string[] {
  const within = scaleBand(bars.keys(), [0, width]).paddingInner(gap);
  return bars.map(({ mark, value }, k) =>
    bar(`${mark} edged`, x + (within(k) ?? 0), within.bandwidth(), value, up),
  );
}
