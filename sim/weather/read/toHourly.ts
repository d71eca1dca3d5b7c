import { HOUR_MS } from '../../common/time.ts';
import type { Site } from '../../sun/Site.ts';
import { sunColumns } from '../../sun/sunColumns.ts';
import { isLight, type QuantityName } from '../recognise/DetectedFormat.ts';
import type { NativeSeries } from './NativeSeries.ts';

/** Hourly columns on full hours of UTC, gaps kept. Row i covers the hour from start_ms + i h. */
export interface HourlyWithGaps {
  start_ms: number;
  count: number;
  /** Means over the hour (rain: the sum, m); NaN where too little of the hour was seen. */
  columns: Partial<Record<QuantityName, Float64Array>>;
  /** Share of the hour that was seen, 0 to 1. */
  coverage: Partial<Record<QuantityName, Float64Array>>;
  /** 1-based line of the first row in each hour, and which file it is in; 0 where there is none. */
  line: Uint32Array;
  file: Uint8Array;
}

/** Of an hour at least this share must be seen for it to have a value. */
const LEAST_SEEN = 0.75;

/**
 * Hours of a series once it is known what its stamps mean: means weighted by time (W/m2, degC, m, m/s; rain as
 * sum). Rows that lie across a full hour are shared out by time; rows longer than an hour, where the site is given,
 * by the height of the sun.
 *
 * in: series; minutesStampMinusMiddle, stamp minus middle of the measured interval; site, for rows longer than an hour
 * out: hours from the first to the last that was touched
 * valid: exact for steps that part the hour evenly and offsets that are whole steps or halves of one
 */
export function toHourly(
  series: NativeSeries,
  minutesStampMinusMiddle: number,
  site?: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): HourlyWithGaps {
  const width_ms = series.step_s * 1000;
  const rows = series.stamp_ms.length;
  const shift_ms = snapped(series, minutesStampMinusMiddle * 60_000, width_ms);
  const begin = (row: number): number => series.stamp_ms[row]! - shift_ms - width_ms / 2;
  const first = Math.floor(begin(0) / HOUR_MS);
  // The end of the last row, a rounding error below a full hour not counted.
  const count = Math.ceil((begin(rows - 1) + width_ms - 1) / HOUR_MS) - first;
  const hourly: HourlyWithGaps = {
    start_ms: first * HOUR_MS,
    count,
    columns: {},
    coverage: {},
    line: new Uint32Array(count),
    file: new Uint8Array(count),
  };
  for (let row = 0; row < rows; row++) {
    const hour = Math.floor(begin(row) / HOUR_MS) - first;
    if (hourly.line[hour] === 0) {
      hourly.line[hour] = series.line[row]!;
      hourly.file[hour] = series.file[row]!;
    }
  }
  const sun =
    site === undefined || width_ms <= HOUR_MS ? undefined : sunColumns(hourly.start_ms, count, site);
  for (const [name, values] of Object.entries(series.columns)) {
    const quantity = name as QuantityName;
    const sum = new Float64Array(count);
    const covered = new Float64Array(count);
    const part = { seen_ms: 0, integral: 0 };
    const cut = cutter(series, quantity, values, width_ms);
    for (let row = 0; row < rows; row++) {
      const from = begin(row) - first * HOUR_MS;
      let hour = Math.floor(from / HOUR_MS);
      const shape = sun !== undefined && isLight(quantity) ? meanHeight(sun, from, width_ms) : 0;
      let before_seen = 0;
      let before_integral = 0;
      for (let at = from; at < from + width_ms; hour++) {
        const to = Math.min(from + width_ms, (hour + 1) * HOUR_MS);
        cut(row, to - from, part);
        const weight = shape > 0 ? (sun!.upCosZenith[hour]! * sun!.upShare[hour]!) / shape : 1;
        sum[hour] = sum[hour]! + (part.integral - before_integral) * weight;
        covered[hour] = covered[hour]! + (part.seen_ms - before_seen);
        before_seen = part.seen_ms;
        before_integral = part.integral;
        at = to;
      }
    }
    // Rain is a sum over the step: its integral over the step's seconds is the sum.
    const isSum = quantity === 'rain';
    hourly.coverage[quantity] = covered.map((seen_ms) => Math.min(1, seen_ms / HOUR_MS));
    hourly.columns[quantity] = sum.map((integral, hour) => {
      const seen_ms = covered[hour]!;
      if (seen_ms < LEAST_SEEN * HOUR_MS) return Number.NaN;
      return isSum ? ((integral / width_ms) * HOUR_MS) / seen_ms : integral / seen_ms;
    });
  }
  return hourly;
}

/**
 * The shift that lays rows on full steps where they miss them by no more than 90 seconds, all alike (00:59 for the
 * end of an hour): there the clock is not that exact, and nothing is gained by cutting a minute off each row.
 */
function snapped(series: NativeSeries, shift_ms: number, width_ms: number): number {
  const miss = (row: number): number => {
    const begin = series.stamp_ms[row]! - shift_ms - width_ms / 2;
    return begin - Math.round(begin / width_ms) * width_ms;
  };
  const off_ms = miss(0);
  const alike = off_ms === miss(series.stamp_ms.length - 1) && off_ms === miss(series.stamp_ms.length >> 1);
  return alike && series.edges === undefined && Math.abs(off_ms) <= 90_000 ? shift_ms + off_ms : shift_ms;
}

/** What was seen of a row up to a moment inside it, and its integral to there. */
function cutter(
  series: NativeSeries,
  quantity: QuantityName,
  values: Float64Array,
  width_ms: number,
): (row: number, to_ms: number, part: { seen_ms: number; integral: number }) => void {
  const seen = series.seen?.[quantity];
  const edges = series.edges?.[quantity];
  return (row, to_ms, part) => {
    const value = values[row]!;
    const share = seen === undefined ? (Number.isNaN(value) ? 0 : 1) : seen[row]!;
    if (share === 0) {
      part.seen_ms = 0;
      part.integral = 0;
      return;
    }
    if (edges === undefined || to_ms === width_ms) {
      part.seen_ms = share * to_ms;
      part.integral = value * share * to_ms;
      return;
    }
    // The first file row stands apart, the others are spread over the rest.
    const edge_ms = series.fileStep_s * 1000;
    const edge = edges[row]!;
    const edgeSeen = Number.isNaN(edge) ? 0 : edge_ms;
    const edgeValue = edgeSeen === 0 ? 0 : quantity === 'rain' ? (edge * width_ms) / edge_ms : edge;
    const restSeen = share * width_ms - edgeSeen;
    const restIntegral = value * share * width_ms - edgeValue * edgeSeen;
    const ofEdge = Math.min(1, to_ms / edge_ms);
    const ofRest = Math.max(0, (to_ms - edge_ms) / (width_ms - edge_ms));
    part.seen_ms = edgeSeen * ofEdge + restSeen * ofRest;
    part.integral = edgeValue * edgeSeen * ofEdge + restIntegral * ofRest;
  };
}

/** Mean of cosine times sun-up share over a row, by hours; 0 where the sun stays down. */
function meanHeight(sun: ReturnType<typeof sunColumns>, from_ms: number, width_ms: number): number {
  let total = 0;
  let hour = Math.floor(from_ms / HOUR_MS);
  for (let at = from_ms; at < from_ms + width_ms; hour++) {
    const to = Math.min(from_ms + width_ms, (hour + 1) * HOUR_MS);
    total += (to - at) * (sun.upCosZenith[hour]! * sun.upShare[hour]!);
    at = to;
  }
  return total / width_ms;
}
