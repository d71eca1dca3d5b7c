import { cross, least, max, mean, pairs, quantile, range, rollup, sum } from 'd3-array';
import { sampleCorrelation } from 'simple-statistics';
import { cos, sin } from '../../common/elementary/sin.ts';
import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import { solarPosition } from '../../sun/solarPosition.ts';
import { toCanonical } from '../../tables/units.ts';
import { clearest, dailyLight } from './clearDays.ts';
import type { SampleTimes } from './columnNumbers.ts';
import type { QuantityName } from './DetectedFormat.ts';
import { isSteadyShare } from './lightComingDown.ts';

/** The numbers of each column, undefined where it has none. */
type Numbers = readonly (Float64Array | undefined)[];

/** A column that its numbers alone show to hold a quantity, and what could have been it too. Columns are 0-based. */
export interface JudgedColumn {
  quantity: QuantityName;
  column: number;
  reason: string;
  runnerUp?: number | undefined;
}

const UNITS_OF_LIGHT = ['W/m2', 'J/cm2', 'kJ/m2', 'kW/m2', 'MJ/m2'] as const;

/**
 * Which columns hold global, direct and diffuse irradiance and air temperature, by their numbers alone: light is
 * dark at night and bounded by the light outside the air; global is diffuse plus the beam's vertical part; the
 * air's temperature follows the seasons and the day and never falls below the dew point.
 *
 * in: values of each column as they stand (codes taken out), undefined for columns of the stamp or of words; sample,
 * its times and place
 * out: what was found; columns that look like light in the same way, where the numbers do not settle which is which
 */
export function inferColumnsFromValues(
  columns: Numbers,
  sample: SampleTimes,
): { judged: JudgedColumn[]; undecided: number[] } {
  const lights = columns.flatMap((values, column) =>
    values !== undefined && looksLikeLight(values, sample) ? [column] : [],
  );
  const others = columns.map((values, column) => (lights.includes(column) ? undefined : values));
  const light = closing(lights, columns, sample) ?? fewLights(lights, columns, sample);
  return {
    judged: [...(light ?? []), ...judgeAir(others, sample)],
    undecided: light === undefined ? lights : [],
  };
}

/** Of one or two columns of light which is what; undefined where the numbers do not settle it. */
function fewLights(
  [a, b, ...more]: readonly number[],
  columns: Numbers,
  sample: SampleTimes,
): JudgedColumn[] | undefined {
  if (a === undefined) return [];
  if (b === undefined) {
    const reason = 'the only column that is dark at night and as bright by day as daylight';
    return [{ quantity: 'ghi', column: a, reason }];
  }
  const order = more.length === 0 ? never(columns[a]!, columns[b]!) : 0;
  if (order === 0) return undefined;
  const [greater, less] = order > 0 ? [a, b] : [b, a];
  const of = 'the greater of two columns of light, the other';
  const [part, whole] = [columns[less]!, columns[greater]!];
  if (isSteadyShare(part, whole))
    return [{ quantity: 'ghi', column: greater, reason: `${of} a small and steady share of it` }];
  // What a second meter in some shade shows too is not taken for diffuse light.
  if (!isDiffuse(part, whole, sample)) return undefined;
  const diffuse = 'all the light there is under thick cloud, and little of it under a clear sky';
  return [
    { quantity: 'ghi', column: greater, reason: `${of} its diffuse part` },
    { quantity: 'dhi', column: less, reason: diffuse },
  ];
}

function judgeAir(columns: Numbers, seen: SampleTimes): JudgedColumn[] {
  const list = columns.flatMap((values, column) => {
    if (values === undefined) return [];
    const air = airScore(values, seen.wall_ms, seen.latitude_deg ?? 45);
    return air.score > 0.35 ? [{ column, ...air }] : [];
  });
  list.sort((a, b) => b.score - a.score);
  let [best, runnerUp] = list;
  if (best === undefined) return [];
  // Of the air and its dew point the air is the one that is never below.
  for (const other of list.slice(1)) {
    if (other.tenths !== best.tenths) continue;
    const near = Math.abs(other.middle - best.middle) < 12 * best.tenths;
    if (near && never(columns[other.column]!, columns[best.column]!) > 0) [best, runnerUp] = [other, best];
  }
  const reason = 'follows the seasons and the hours of the day as air does';
  return [{ quantity: 'air_temperature', column: best.column, reason, runnerUp: runnerUp?.column }];
}

/** Whether a column is dark for a good part of the rows, never far below zero, bright in some unit, and not the same every clear day. */
export function looksLikeLight(values: Float64Array, seen: SampleTimes): boolean {
  const filled = values.filter((value) => !Number.isNaN(value));
  const most = max(filled) ?? 0;
  const dark = filled.filter((value) => value < 0.005 * most).length;
  if (filled.some((value) => value < -20) || filled.length < 24 || most <= 0) return false;
  if (dark < 0.2 * filled.length || dark > 0.9 * filled.length) return false;
  // Durations of sunshine reach their full step again and again; light has no such end.
  const full = filled.filter((value) => value === most).length;
  if (full > 0.05 * (filled.length - dark)) return false;
  const { index } = clearest({ ...seen, values }, { unit: 'W/m2' });
  const fits = UNITS_OF_LIGHT.some((unit) => {
    const inUnit = index * toCanonical(1, unit, seen.step_s > 0 ? seen.step_s : 3600);
    return inUnit > 0.15 && inUnit < 1.35;
  });
  if (!fits) return false;
  // Light outside the air keeps one ratio to itself on all days; weather does not.
  const light = dailyLight(values, seen.wall_ms, seen.latitude_deg);
  const normal = light.most.map((value) => value / Math.max(...light.most));
  const steady = normal.filter((share) => share > 0.9).length > 0.9 * normal.length;
  const shares = light.most.map((value, d) => value / light.noon_W_m2[d]!).sort((a, b) => a - b);
  const low = shares[Math.floor(shares.length * 0.1)]!;
  const high = shares[Math.floor(shares.length * 0.9)]!;
  return !steady && low < 0.85 * high;
}

/** Global, direct and diffuse among the columns of light, if any three close. */
function closing(
  lights: readonly number[],
  columns: Numbers,
  { wall_ms, latitude_deg, longitude_deg, offset_ms }: SampleTimes,
): JudgedColumn[] | undefined {
  if (lights.length < 3 || lights.length > 12) return undefined;
  if (latitude_deg === undefined || longitude_deg === undefined) return undefined;
  const few = range(0, wall_ms.length, Math.max(1, Math.floor(wall_ms.length / 3000)));
  const rows = few.filter((i) => !Number.isNaN(wall_ms[i]!));
  const triples = cross(lights, cross(lights, lights), (ghi, [dni, dhi]) => [ghi, dni, dhi] as const).filter(
    (triple) => new Set(triple).size === 3,
  );
  const trials = [-HOUR_MS / 2, 0, HOUR_MS / 2].flatMap((lag_ms) => {
    const sine = rows.map((i) => {
      const { altitude_deg } = solarPosition(wall_ms[i]! - offset_ms + lag_ms, latitude_deg, longitude_deg);
      return Math.max(0, sin((altitude_deg * Math.PI) / 180));
    });
    return triples.map((triple) => {
      const [ghi, dni, dhi] = triple.map((column) => rows.map((i) => columns[column]![i]!)) as [
        number[],
        number[],
        number[],
      ];
      // What is missing is left out of sums.
      const beam = dni.map((value, k) => value * sine[k]! + 0 * (ghi[k]! + dhi[k]!));
      const off = sum(beam, (vertical, k) => Math.abs(ghi[k]! - vertical - dhi[k]!));
      const total = sum(beam, (vertical, k) => ghi[k]! + 0 * vertical);
      return { triple, rest: total > 0 && sum(beam) > 0.1 * total ? off / total : Number.NaN };
    });
  });
  const best = least(trials, ({ rest }) => rest);
  if (best === undefined || !(best.rest < 0.12)) return undefined;
  const reason = `global = diffuse + direct x cosine of the zenith, to ${(best.rest * 100).toFixed(0)} percent`;
  return best.triple.map((column, k) => ({ quantity: (['ghi', 'dni', 'dhi'] as const)[k]!, column, reason }));
}

/**
 * Diffuse light is nearly all there is under thick cloud, and a part under a clear sky, at whatever time of day. A meter
 * that lacks some of the sky lacks it under cloud too; one that is dirty or out of the sun for hours lacks as much, or
 * nothing, in other clear hours. How clear an hour is shows beside the brightest at the same time of day within some
 * weeks. On a typical year of a weather service the shares are 1.0 and 0.51; common practice else, no source.
 */
const DIFFUSE = { thick: 0.25, ofThick: 0.8, clear: 0.85, ofClear: 0.7, days: 20, rows: 10 } as const;

function isDiffuse(part: Float64Array, whole: Float64Array, { wall_ms }: SampleTimes): boolean {
  const lit = 0.05 * (max(whole) ?? 0);
  const rows = range(whole.length).filter((i) => !Number.isNaN(part[i]! + whole[i]! + wall_ms[i]!));
  const timeOf = (i: number): string =>
    `${Math.floor(wall_ms[i]! / DIFFUSE.days / DAY_MS)} ${wall_ms[i]! % DAY_MS}`;
  const brightest = rollup(rows, (list) => max(list, (i) => whole[i]!)!, timeOf);
  const shareWhere = (fits: (clearness: number) => boolean, share: number): number => {
    const shares = rows.flatMap((i) => {
      const top = brightest.get(timeOf(i))!;
      return top > lit && whole[i]! > 0 && fits(whole[i]! / top) ? [part[i]! / whole[i]!] : [];
    });
    return shares.length < DIFFUSE.rows ? Number.NaN : quantile(shares, share)!;
  };
  return (
    shareWhere((clearness) => clearness < DIFFUSE.thick, 0.5) > DIFFUSE.ofThick &&
    shareWhere((clearness) => clearness > DIFFUSE.clear, 0.75) < DIFFUSE.ofClear
  );
}

/** 1 where the first is never below the second (and sometimes above), -1 the other way round, 0 else. */
function never(a: Float64Array, b: Float64Array): number {
  const above = sum(a, (value, i) => Number(value > b[i]! + 1e-9));
  const below = sum(a, (value, i) => Number(value < b[i]! - 1e-9));
  if (above > 20 && below < 0.01 * above) return 1;
  return below > 20 && above < 0.01 * below ? -1 : 0;
}

/** How well a column follows the seasons (a month late) and changes slowly, about 0 to 1; 0 where it is no temperature. */
function airScore(
  values: Float64Array,
  wall_ms: Float64Array,
  latitude_deg: number,
): { score: number; tenths: 1 | 10; middle: number } {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  const at = (share: number): number => sorted[Math.floor(sorted.length * share)] ?? 0;
  const [low, middle, high] = [at(0.02), at(0.5), at(0.98)];
  const tenths = low < -60 || high > 60 ? 10 : 1;
  const none = { score: 0, tenths, middle } as const;
  if (sorted.length < 48 || low / tenths < -60 || high / tenths > 55 || high - low < 4) return none;
  const season = (ms: number): number =>
    -cos(((ms / DAY_MS - 20) / 365.2425) * 2 * Math.PI) * (latitude_deg < 0 ? -1 : 1);
  const known = range(values.length).filter((i) => !Number.isNaN(values[i]! + wall_ms[i]!));
  const [degrees, seasons] = [known.map((i) => values[i]!), known.map((i) => season(wall_ms[i]!))];
  const years = sampleCorrelation(degrees, seasons);
  // From hour to hour the air changes little.
  const jumps = mean(
    pairs(values, (a, b) => (Number.isNaN(b - a) ? b - a : +(Math.abs(b - a) > 0.15 * (high - low)))),
  );
  if (jumps! > 0.07 || years < 0.4) return none;
  // Temperatures are written in fractions of a degree and fall below zero; counts and depths do not.
  const fractions = tenths === 1 && sorted.some((value) => !Number.isInteger(value)) ? 0.15 : 0;
  const frost = low < 0 ? 0.15 : 0;
  return { score: years + fractions + frost - (tenths === 10 ? 0.2 : 0), tenths, middle };
}
