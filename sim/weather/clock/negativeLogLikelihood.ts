import { mean, range } from 'd3-array';
import { asin } from '../../common/elementary/atan2.ts';
import { exp } from '../../common/elementary/exp.ts';
import { log } from '../../common/elementary/log.ts';
import { cos, sin } from '../../common/elementary/sin.ts';
import { straightLines } from '../../common/numeric.ts';
import { haurwitzGlobal } from '../../sun/ineichenClearSky.ts';

/** Distance of the instants of a clear day's table, minutes of true solar time. */
export const CLEAR_STEP_MIN = 5;
const COUNT = 1440 / CLEAR_STEP_MIN;
const CELL_MIN = 2;
const CELLS = 1440 / CELL_MIN;

const DECLINATION_STEP_DEG = 0.5;
/** Place of the equinox among the clear days of all declinations. */
const EQUINOX = 47;

/** Light of the twilight sky at sunset and the depression over which it falls by a factor e. */
const SUNSET_W_M2 = 4;
const TWILIGHT_DEG = 1.23;

/**
 * Clear-sky global irradiance (W/m2) averaged over an interval, for every middle of that interval through a day of
 * true solar time. Twilight is kept, for first and last light is what settles a clock under cloud.
 *
 * in: latitude_deg, declination_deg; step_min, length of the interval
 * out: 289 means, for middles 0, 5, ... 1440 minutes after solar midnight (the last repeats the first)
 * valid: 20 percent above 10 degrees of altitude, a factor of two at the horizon; the same before and after noon
 * source: Haurwitz1945; TwilightIlluminance for the light of the sky with the sun down
 */
export function clearDay(latitude_deg: number, declination_deg: number, step_min: number): Float64Array {
  const rad = Math.PI / 180;
  const a = sin(latitude_deg * rad) * sin(declination_deg * rad);
  const b = cos(latitude_deg * rad) * cos(declination_deg * rad);
  // Integral from midnight in cells of two minutes, midpoint rule; the afternoon mirrors the morning.
  const morning = range(CELLS / 2).map(
    (i) => clear_W_m2(a - b * cos(((i + 0.5) / CELLS) * 2 * Math.PI), rad) * CELL_MIN,
  );
  const integral = new Float64Array(CELLS + 1);
  for (let i = 0; i < CELLS; i++)
    integral[i + 1] = integral[i]! + morning[i < CELLS / 2 ? i : CELLS - 1 - i]!;
  const within = straightLines(integral);
  const at = (minute: number): number => {
    const turns = Math.floor(minute / 1440);
    return turns * integral[CELLS]! + within((minute - turns * 1440) / CELL_MIN);
  };
  const means = new Float64Array(COUNT + 1);
  for (let i = 0; i <= COUNT; i++) {
    const middle = i * CLEAR_STEP_MIN;
    means[i] = (at(middle + step_min / 2) - at(middle - step_min / 2)) / step_min;
  }
  return means;
}

function clear_W_m2(sineOfAltitude: number, rad: number): number {
  if (sineOfAltitude > 0) return haurwitzGlobal(sineOfAltitude) + SUNSET_W_M2;
  return SUNSET_W_M2 * exp(asin(Math.max(-1, sineOfAltitude)) / rad / TWILIGHT_DEG);
}

/** Place of a declination among clear days that lie half a degree apart. */
export function clearIndexOf(declination_deg: number): number {
  return Math.round(declination_deg / DECLINATION_STEP_DEG) + EQUINOX;
}

/** Clear days of a latitude at the places wanted, none at the others; step_min, length of the interval. */
export function clearDaysOf(
  latitude_deg: number,
  step_min: number,
  wanted: Iterable<number>,
): Float64Array[] {
  const days: Float64Array[] = [];
  for (const index of wanted) {
    days[index] = clearDay(latitude_deg, (index - EQUINOX) * DECLINATION_STEP_DEG, step_min);
  }
  return days;
}

/** Mean over the day of a clear day, W/m2. */
export function meanOf(clear: Float64Array): number {
  return mean(clear.subarray(1))!;
}

/**
 * Spread of the logarithm of clearness that is taken as weather, not as clock. Wider than weather is (about 0.5), on
 * purpose: the clear-sky model is wrong by as much at the horizon under cloud, and a narrow one made the sum lumpy.
 */
const SPREAD = 0.8;
/** How fast clearness forgets itself, hours. */
const MEMORY_H = 0.3;
const FREEDOM = 4;
/** Logarithms nearer to zero than this cost nothing worth working out: the night. */
const NOTHING = 0.02;
/** Hours from noon over which an asymmetric day leans from none to all. */
const LEAN_H = 4;

/** Distance of the first look's offsets, minutes. */
export const FIRST_LOOK_MIN = 15;
/** The first look's offsets: round the clock. */
export const FIRST_LOOK: readonly number[] = range(-720, 720, FIRST_LOOK_MIN);

/** A day of a series, by the stamps; its samples are those from `first` until before `end`. */
export interface FoldedDay {
  /** Its start, UTC milliseconds. */
  ms: number;
  first: number;
  end: number;
  equationOfTime_min: number;
  /** What its clock is ahead of that of the other days: 0 but for clocks that do not run evenly. */
  shift_min: number;
}

/** Samples of a series in true solar time, day by day, beside clear days of their own declination. */
export interface SolarSamples {
  /** Width of a sample, minutes: the step, or several steps joined to at least ten minutes. */
  step_min: number;
  /** Of each sample, in order of time: true solar time of the stamp, were the stamp the middle of its interval; minutes after solar midnight. */
  phase_min: Float64Array;
  /** Irradiance above the sensor's night reading. */
  ghi_W_m2: Float64Array;
  /** Natural logarithm of that plus the grain. */
  logGhi: Float64Array;
  /** Mean of the 24 hours around the sample over that of a clear day. */
  clearness: Float64Array;
  /** Which of `clearDays` belongs to the sample. */
  clearIndex: Uint16Array;
  clearDays: Float64Array[];
  /** 1 where the sample follows the one before it without a gap. */
  follows: Uint8Array;
  /** The days that are looked at. */
  days: FoldedDay[];
  /** Least light that is told from none, W/m2. */
  grain_W_m2: number;
}

/**
 * How badly the series fits the sun, day by day, for every offset of its stamps: the negative logarithm of the
 * likelihood of each sample given its neighbour (dimensionless). Costs of days add.
 *
 * The logarithm of irradiance over clear-sky irradiance wanders slowly whatever the cloud, fog or season, so that a
 * dull climate costs little; with the clock off it leaps at both ends of the day, where light stands in the dark or
 * none in the light. Each pair of neighbours is judged forwards and backwards, for a sum that looks one way in time
 * favours one end of the day. The distribution has heavy tails, so that single bad rows cost little.
 *
 * in: samples; offsets_min, stamp minus middle of the interval where a day's shift is 0; asymmetry, logarithm by
 *   which afternoons are clearer than the middle of the day, and mornings duller
 * out: the costs of each day, by offset
 * valid: steps of 10 minutes to 3 hours
 * source: StudentT for the heavy-tailed distribution
 */
export function negativeLogLikelihood(
  samples: SolarSamples,
  offsets_min: readonly number[],
  asymmetry = 0,
): Float64Array[] {
  const { phase_min, logGhi, clearness, clearIndex, follows, grain_W_m2: grain } = samples;
  const logGrain = log(grain);
  const dark = NOTHING * grain;
  const memory = exp(-samples.step_min / 60 / MEMORY_H);
  const scale = 1 / (FREEDOM * SPREAD * SPREAD * (1 - memory * memory));
  const scaleAlone = 1 / (FREEDOM * SPREAD * SPREAD);
  const weight = (FREEDOM + 1) / 2;
  const clearDays = samples.clearDays.map((means) => lean(means, asymmetry));
  const turn = 1440 / CLEAR_STEP_MIN;
  return samples.days.map(({ first, end, shift_min }) => {
    const costs = new Float64Array(offsets_min.length);
    for (let j = 0; j < costs.length; j++) {
      const offset = offsets_min[j]! + shift_min;
      let cost = 0;
      let before = 0;
      for (let i = first; i < end; i++) {
        let position = (phase_min[i]! - offset) / CLEAR_STEP_MIN;
        position -= Math.floor(position / turn) * turn;
        const low = position | 0;
        const means = clearDays[clearIndex[i]!]!;
        const here = means[low]!;
        const clear = here + (position - low) * (means[low + 1]! - here);
        const light = clearness[i]! * clear;
        const ratio = logGhi[i]! - (light < dark ? logGrain : log(light + grain));
        if (follows[i] === 0) cost += log(1 + ratio * ratio * scaleAlone);
        else if (Math.abs(ratio) + Math.abs(before) >= NOTHING) {
          const leap = ratio - memory * before;
          const back = before - memory * ratio;
          cost += 0.5 * log((1 + leap * leap * scale) * (1 + back * back * scale));
        }
        before = ratio;
      }
      costs[j] = cost * weight;
    }
    return costs;
  });
}

/** A clear day with its afternoon raised and its morning lowered by up to the factor exp(asymmetry). */
function lean(means: Float64Array, asymmetry: number): Float64Array {
  if (asymmetry === 0) return means;
  return means.map((mean, i) => {
    const hours = (i * CLEAR_STEP_MIN) / 60 - 12;
    return mean * exp(asymmetry * Math.max(-1, Math.min(1, hours / LEAN_H)));
  });
}

/** An offset brought into -720 .. 720 minutes: a day more or less is not seen. */
export function wrapped(offset_min: number): number {
  return offset_min - 1440 * Math.round(offset_min / 1440);
}

/** Costs of some days together, by offset. */
export function sumOfDays(costs: readonly Float64Array[]): Float64Array {
  const sums = new Float64Array(costs[0]?.length ?? 0);
  for (const day of costs) for (let j = 0; j < sums.length; j++) sums[j]! += day[j]!;
  return sums;
}

/** Costs of days without a shift, round the clock: what every question is looked up in first. */
export function firstLook(samples: SolarSamples): Float64Array[] {
  return negativeLogLikelihood(samples, FIRST_LOOK);
}

/** The first look at the same days were their clocks ahead by so many minutes, to half its step. */
export function shiftedLook(look: readonly Float64Array[], shift_min: readonly number[]): Float64Array[] {
  const width = FIRST_LOOK.length;
  return look.map((costs, d) => {
    const steps = Math.round(shift_min[d]! / FIRST_LOOK_MIN);
    return costs.map((_, j) => costs[(j + steps + width) % width]!);
  });
}
