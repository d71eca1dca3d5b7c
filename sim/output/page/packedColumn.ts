import { powerOfTen } from '../../common/elementary/power.ts';
/** A column of numbers, two bytes a number. */
export interface PackedColumn {
  /** A number is its integer over this. */
  scale: number;
  /** 16-bit integers without sign, low byte first, in base 64; 65535 says 'does not apply'. */
  data: string;
}

/** Hours of a stretch of days, and how they stand in time. */
export interface PackedDays {
  /** Start of each day's first hour, hours after `start_ms`; hours a day; civil time less UTC, minutes. */
  from: number[];
  hours: number[];
  offset_min: number[];
}

/** The hours that the page draws for itself: the capacitor of each trial's worst winter, and the weather. */
export interface HourlyPack {
  start_ms: number;
  trials: Record<
    string,
    {
      days: PackedDays;
      cutoff_V: number | null;
      rated_V: number | null;
      capacitor_V: PackedColumn;
      reachable_V: PackedColumn;
      /** Key into `lights`. */
      light: string;
    }
  >;
  /** Light on the cell by spot and winter. */
  lights: Record<string, PackedColumn>;
  /** `heading` says what the light is: global, or on the cell where it was logged there. */
  weather: { days: PackedDays; heading: string; light: PackedColumn; mark: PackedColumn } | null;
}

const MOST = 65534;
const NOTHING = 65535;

/**
 * A column of numbers packed small, for the page.
 *
 * in: values, 0 or more (below counts as 0); finest, the most decimals wanted
 * out: integers with as many decimals as 16 bits hold, `finest` at most
 */
export function packedColumn(values: Float64Array, finest: number): PackedColumn {
  let highest = 0;
  for (const value of values) if (value > highest && Number.isFinite(value)) highest = value;
  let decimals = finest;
  while (decimals > 0 && highest * powerOfTen(decimals) > MOST) decimals--;
  const scale = powerOfTen(decimals);
  let bytes = '';
  for (const value of values) {
    const whole = Number.isFinite(value) ? Math.min(Math.max(Math.round(value * scale), 0), MOST) : NOTHING;
    bytes += String.fromCharCode(whole & 255, whole >> 8);
  }
  return { scale, data: btoa(bytes) };
}

/**
 * The numbers of a packed column, as the page's scripts read them.
 *
 * in: packed
 * out: values; NaN where it does not apply
 * @example unpackedColumn({ scale: 10, data: 'DAD//w==' })[0]; // => 1.2
 */
export function unpackedColumn({ scale, data }: PackedColumn): Float64Array {
  const bytes = atob(data);
  return Float64Array.from({ length: bytes.length / 2 }, (_, i) => {
    const whole = bytes.charCodeAt(2 * i) + 256 * bytes.charCodeAt(2 * i + 1);
    return whole === NOTHING ? Number.NaN : whole / scale;
  });
}
