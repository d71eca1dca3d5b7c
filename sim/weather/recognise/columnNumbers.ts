import { cross, least, max, mean, mode, pairs, quantile, range, rollup, sum } from 'd3-array';
import { sampleCorrelation } from 'simple-statistics';
import { cos, sin } from '../../common/elementary/sin.ts';
import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import { solarPosition } from '../../sun/solarPosition.ts';
import { parseDecimal } from '../../tables/parseNumber.ts';
import { toCanonical, type UnitName } from '../../tables/units.ts';
import { hasCodeShape } from '../read/rowValues.ts';
import { clearest, dailyLight, type Seen } from './clearDays.ts';
import { isLight, type Layout, type QuantityName } from './DetectedFormat.ts';

/** Times of a sample and its place on the globe, as far as they are known. */
interface SampleTimes extends Omit<Seen, 'values'> {
  /** What the clock is ahead of UTC, as far as claimed. */
  offset_ms: number;
  longitude_deg?: number | undefined;
}

/** The rows of a sample. */
export interface ColumnSample extends SampleTimes {
  layout: Layout;
  rows: readonly string[][];
  /** They hold no values. */
  stampColumns: ReadonlySet<number>;
}

/**
 * The numbers of all columns of a sample, codes for 'missing' taken out, and which of them are running sums; of those
 * what was added from row to row.
 *
 * in: sample
 * out: one list a column, undefined where it has no number
 */
export function columnNumbers(sample: ColumnSample): {
  values: (Float64Array | undefined)[];
  running: Set<number>;
} {
  const { layout, rows, wall_ms, step_s, stampColumns } = sample;
  const running = new Set<number>();
  const width = Math.max(layout.width, layout.headings.length);
  const values = Array.from({ length: width }, (_, column) => {
    if (stampColumns.has(column)) return undefined;
    const written = columnValues(rows, column, layout);
    const stand = written.map((value) => (hasCodeShape(value) ? Number.NaN : value));
    // A counter may have come to numbers that are written as codes are.
    const added =
      addedByRow(stand, wall_ms, step_s) ??
      (written.some(hasCodeShape) ? addedByRow(written, wall_ms, step_s) : undefined);
    if (added !== undefined) running.add(column);
    const numbers = added ?? stand;
    return numbers.some((value) => !Number.isNaN(value)) ? numbers : undefined;
  });
  return { values, running };
}

/**
 * The numbers of one column of a sample, as they stand in the file.
 *
 * in: rows; column, 0-based; layout, for its decimal mark
 * out: one value a row, NaN where there is no number
 */
export function columnValues(
  rows: readonly string[][],
  column: number,
  { decimal, thousands }: Pick<Layout, 'decimal' | 'thousands'>,
): Float64Array {
  return Float64Array.from(rows, (cells) => parseDecimal(cells[column] ?? '', decimal === ',', thousands));
}

/** A sum that starts anew falls below this share of what it was. */
const FALLS_TO = 0.3;
const FEWEST_FALLS = 5;
/** So many of its falls come at the same hour of the clock. */
const ALIKE = 0.9;
/** A counter is set back seldom, goes up in this share of all rows, and in so many hours of the clock in next to none. */
const MOST_RESETS = 3;
const GOES_UP = 0.1;
const STILL_HOURS = 3;
const STILL = 0.02;

/**
 * What was added from row to row, where a column holds running sums: they never fall but to near nothing, either at one
 * hour of the clock, as what starts anew each day, or next to never, as a counter that stands still by night.
 *
 * in: values of a sample; wall_ms, clock of each row; step_s of the rows
 * out: one value a row, NaN where the row before is missing; undefined where the column holds no such sums
 */
function addedByRow(values: Float64Array, wall_ms: Float64Array, step_s: number): Float64Array | undefined {
  const added = new Float64Array(values.length).fill(Number.NaN);
  /** Hours of the clock at which it falls. */
  const falls: number[] = [];
  let days = 0;
  for (let i = 1; i < values.length; i++) {
    const [before, now] = [values[i - 1]!, values[i]!];
    if (wall_ms[i]! - wall_ms[i - 1]! !== step_s * 1000 || Number.isNaN(now - before)) continue;
    if (before < 0 || now < 0 || (now < before && now > FALLS_TO * before)) return undefined;
    days += step_s / 86_400;
    added[i] = now < before ? now : now - before;
    if (now < before) falls.push(Math.floor((wall_ms[i]! / HOUR_MS) % 24));
  }
  const usual = mode(falls);
  const most = falls.filter((hour) => hour === usual).length;
  const startsDaily = falls.length >= FEWEST_FALLS && most >= ALIKE * falls.length;
  if (startsDaily && falls.length <= 1.2 * days + 2) return added;
  return falls.length <= MOST_RESETS && comesByDay(added, wall_ms) ? added : undefined;
}

/** Whether what is added comes as daylight does: often, and in some hours of the clock hardly ever. */
function comesByDay(added: Float64Array, wall_ms: Float64Array): boolean {
  const rows = range(added.length).filter((i) => !Number.isNaN(added[i]!));
  const goesUp = (list: readonly number[]) => mean(list, (i) => (added[i]! > 0 ? 1 : 0)) ?? 0;
  const byHour = [...rollup(rows, goesUp, (i) => Math.floor((wall_ms[i]! / HOUR_MS) % 24)).values()];
  return goesUp(rows) >= GOES_UP && byHour.filter((share) => share <= STILL).length >= STILL_HOURS;
}

/**
 * Numbers that say 'missing' although they could be values: written as codes are, standing at hours at which the
 * quantity is always something else (999 W/m2 in the night).
 *
 * in: values of a sample as they stand, times; quantity, unit
 * out: such numbers
 */
export function codesWithin(
  values: Float64Array,
  wall_ms: Float64Array,
  quantity: QuantityName,
  unit: UnitName,
): number[] {
  if (!isLight(quantity)) return [];
  const rows = range(values.length).filter((i) => !Number.isNaN(values[i]! + wall_ms[i]!));
  const suspects = rows.filter((i) => hasCodeShape(values[i]!));
  if (suspects.length === 0) return [];
  const hourOf = (i: number): number => new Date(wall_ms[i]!).getUTCHours();
  const size_W_m2 = (value: number): number => Math.abs(toCanonical(value, unit, 3600));
  const usual = rollup(
    rows.filter((i) => !hasCodeShape(values[i]!)),
    (list) => quantile(list, 0.9, (i) => values[i]!)!,
    hourOf,
  );
  const counts = rollup(
    suspects.filter((i) => size_W_m2(values[i]!) > 50 + 20 * size_W_m2(usual.get(hourOf(i)) ?? 0)),
    (list) => list.length,
    (i) => values[i]!,
  );
  return [...counts].filter(([, count]) => count >= 2).map(([value]) => value);
}

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
  const light = closing(lights, columns, sample) ?? fewLights(lights, columns);
  return {
    judged: [...(light ?? []), ...judgeAir(others, sample)],
    undecided: light === undefined ? lights : [],
  };
}

/** Of one or two columns of light which is what; undefined where the numbers do not settle it. */
function fewLights([a, b, ...more]: readonly number[], columns: Numbers): JudgedColumn[] | undefined {
  if (a === undefined) return [];
  if (b === undefined) {
    const reason = 'the only column that is dark at night and as bright by day as daylight';
    return [{ quantity: 'ghi', column: a, reason }];
  }
  const order = more.length === 0 ? never(columns[a]!, columns[b]!) : 0;
  if (order === 0) return undefined;
  const [greater, less] = order > 0 ? [a, b] : [b, a];
  const global = 'the greater of two columns of light, never below the other';
  const diffuse = 'the lesser of two columns of light, never above the other';
  return [
    { quantity: 'ghi', column: greater, reason: global },
    ...(allOfItSometimes(columns[less]!, columns[greater]!)
      ? [{ quantity: 'dhi', column: less, reason: diffuse } as const]
      : []),
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

/** Dark for a good part of the rows, never far below zero, bright in some unit, and not the same every clear day. */
function looksLikeLight(values: Float64Array, seen: SampleTimes): boolean {
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

/** Under a closed cloud diffuse light is all there is; what the ground sends back is a part of it throughout. */
function allOfItSometimes(part: Float64Array, whole: Float64Array): boolean {
  const most = max(whole) ?? 0;
  const shares = part.map((value, i) => value / whole[i]!).filter((_, i) => whole[i]! > 0.03 * most);
  return shares.filter((share) => share > 0.7).length > 0.02 * shares.length;
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
