import { asin } from '../common/elementary/atan2.ts';
import { randomStream } from '../common/random.ts';
import { HOUR_MS } from '../common/time.ts';
import { CLEANEST_LINKE_TURBIDITY, ineichenClearSky } from '../sun/ineichenClearSky.ts';
import type { Site } from '../sun/Site.ts';
import { type SunColumns, sunColumns } from '../sun/sunColumns.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../weather/WeatherRecord.ts';
import { fitDay } from './fitDay.ts';
import { type LearnedClimate, normalShare, SEASON_DAYS, YEAR_DAYS } from './LearnedClimate.ts';
import { drawBrightness } from './persistence.ts';
import { DAY_H, outside_W_m2, seasonOf, solarMidnight_h } from './RecordedDays.ts';

/** The year that made winters are laid on: from 1 July (1 January in the south), at solar midnight; the same for all. */
export interface WinterFrame {
  site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>;
  sun: SunColumns;
  /** Light outside the air on level ground, and under the cleanest sky, W/m2. */
  outside_W_m2: Float64Array;
  clearest_W_m2: Float64Array;
  /** Day of the season of each of its days. */
  season: Uint16Array;
}

/** A year without a 29 February, whose sun is near the middle of the leap cycle. */
const FRAME_YEAR = 2001;

/**
 * The year that made winters are laid on at a site.
 *
 * in: site
 * out: 365 days
 * source: IneichenPerez2002 for the cleanest sky
 */
export function winterFrame(site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>): WinterFrame {
  const start_ms =
    Date.UTC(FRAME_YEAR, site.latitude_deg < 0 ? 0 : 6, 1) + solarMidnight_h(site.longitude_deg) * HOUR_MS;
  const count = YEAR_DAYS * DAY_H;
  const sun = sunColumns(start_ms, count, site);
  const clearest_W_m2 = Float64Array.from(sun.upShare, (share, i) => {
    const altitude_deg = (asin(sun.upCosZenith[i]!) * 180) / Math.PI;
    return (
      share *
      ineichenClearSky(
        altitude_deg,
        sun.extraterrestrial_W_m2[i]!,
        site.elevation_m,
        CLEANEST_LINKE_TURBIDITY,
      ).ghi_W_m2
    );
  });
  return {
    site,
    sun,
    outside_W_m2: Float64Array.from({ length: count }, (_, i) => outside_W_m2(sun, i)),
    clearest_W_m2,
    season: Uint16Array.from({ length: YEAR_DAYS }, (_, d) =>
      seasonOf(start_ms + (d * DAY_H + 12) * HOUR_MS),
    ),
  };
}

/** A recorded day for each day of a winter, and the clearness it is brought to; NaN leaves it as it is. */
export interface DayPlan {
  day: Uint32Array;
  clearness: Float64Array;
}

/** The hours of a day are those of one of so many days nearest in clearness. */
const ALIKE_DAYS = 5;

/**
 * A winter that has not happened: daily clearness by the distribution of its season and the persistence of the climate,
 * the hours of real days alike.
 *
 * in: climate; frame; seed; index of the winter, the same winter for the same seed and index
 * out: which recorded day each day takes its hours from, and its clearness
 */
export function drawnWinter(
  climate: LearnedClimate,
  frame: WinterFrame,
  seed: number,
  index: number,
): DayPlan {
  const { days, pools, persistence } = climate;
  const brightness = drawBrightness(persistence, YEAR_DAYS, seed, index);
  const random = randomStream(seed, 'days alike', index);
  const plan: DayPlan = { day: new Uint32Array(YEAR_DAYS), clearness: new Float64Array(YEAR_DAYS) };
  for (let d = 0; d < YEAR_DAYS; d++) {
    const pool = pools[frame.season[d]!]!;
    if (pool.length === 0) {
      plan.day[d] = anyDay(climate, frame.season[d]!, random.uniform());
      plan.clearness[d] = Number.NaN;
      continue;
    }
    const place = normalShare(brightness[d]!) * pool.length - 0.5;
    const below = Math.min(pool.length - 1, Math.max(0, Math.floor(place)));
    const above = Math.min(pool.length - 1, below + 1);
    const part = Math.min(1, Math.max(0, place - below));
    const [low, high] = [days.clearness[pool[below]!]!, days.clearness[pool[above]!]!];
    plan.clearness[d] = low + part * (high - low);
    const first = Math.min(
      Math.max(0, below - ((ALIKE_DAYS - 1) >> 1)),
      Math.max(0, pool.length - ALIKE_DAYS),
    );
    const among = Math.min(ALIKE_DAYS, pool.length);
    plan.day[d] = pool[first + Math.floor(random.uniform() * among)]!;
  }
  return plan;
}

/** A recorded day of the season: one whose light is known, or where the sun stays down whichever. */
function anyDay({ days, pools }: LearnedClimate, season: number, uniform: number): number {
  const pool = pools[season]!;
  if (pool.length > 0) return pool[Math.floor(uniform * pool.length)]!;
  const near: number[] = [];
  for (let d = 0; d < days.count; d++) {
    const away = Math.abs(days.season[d]! - season);
    if (Math.min(away, YEAR_DAYS - away) <= SEASON_DAYS) near.push(d);
  }
  return near[Math.floor(uniform * near.length)] ?? 0;
}

const BLOCK_DAYS = 10;
/** Share of the blocks that come from one winter, so that made winters differ as real ones do. */
const HOME_SHARE = 0.5;

/**
 * The same by another way, as a second opinion: blocks of ten recorded days of the season, half of them from one winter.
 *
 * in: climate; frame; seed; index of the winter
 * out: as drawnWinter; each day keeps its own clearness
 */
export function blockWinter(
  climate: LearnedClimate,
  frame: WinterFrame,
  seed: number,
  index: number,
): DayPlan {
  const { days, winters } = climate;
  const random = randomStream(seed, 'blocks of days', index);
  const pick = () => winters[Math.floor(random.uniform() * winters.length)]!;
  const home = pick();
  const plan: DayPlan = {
    day: new Uint32Array(YEAR_DAYS),
    clearness: new Float64Array(YEAR_DAYS).fill(Number.NaN),
  };
  for (let from = 0; from < YEAR_DAYS; from += BLOCK_DAYS) {
    const winter = random.uniform() < HOME_SHARE ? home : pick();
    const shift = Math.floor(random.uniform() * (2 * SEASON_DAYS + 1)) - SEASON_DAYS;
    for (let d = from; d < Math.min(YEAR_DAYS, from + BLOCK_DAYS); d++) {
      const season = (frame.season[d]! + shift + YEAR_DAYS) % YEAR_DAYS;
      const day = dayOf(climate, winter, season);
      const known = day !== undefined && !Number.isNaN(days.clearness[day]!);
      plan.day[d] = known ? day : anyDay(climate, frame.season[d]!, random.uniform());
    }
  }
  return plan;
}

/** The day of a season of a winter; undefined where the record lacks it. */
function dayOf({ days }: LearnedClimate, winter: number, season: number): number | undefined {
  // Winters are short: a walk of at most 366 days.
  let low = 0;
  let high = days.count;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (days.winter[middle]! < winter) low = middle + 1;
    else high = middle;
  }
  for (let d = low; d < days.count && days.winter[d] === winter; d++) if (days.season[d] === season) return d;
  return undefined;
}

/** Clouds beside the sun may bring an hour so far above the clearest sky, as a share of it; common practice, no source. */
const BRIGHTEST_SHARE = 1.1;

/** Index of the mark that made hours bear. */
export const SYNTHETIC = WEATHER_MARKS.indexOf('synthetic');

/**
 * The hours of a made winter: those of the recorded days, laid on the sun of their new date and brought to their
 * clearness, no hour above the clearest sky or what was measured; air, rain and wind of the same days, the air joined at
 * midnight; snow as it lay in one recorded winter.
 *
 * in: plan; climate; frame
 * out: a weather record of 8760 hours, marked as made
 */
export function weatherOfDays(plan: DayPlan, climate: LearnedClimate, frame: WinterFrame): WeatherRecord {
  const { days } = climate;
  const { record } = days;
  const count = YEAR_DAYS * DAY_H;
  const ghi_W_m2 = new Float64Array(count);
  const bound_W_m2 = new Float64Array(DAY_H);
  for (let d = 0; d < YEAR_DAYS; d++) {
    const from = d * DAY_H;
    const donor = days.hour[plan.day[d]!]!;
    const aim = plan.clearness[d]!;
    let outside = 0;
    for (let h = 0; h < DAY_H; h++) {
      const up = frame.outside_W_m2[from + h]!;
      const kt = days.hourClearness[donor + h]!;
      const clearest = frame.clearest_W_m2[from + h]!;
      ghi_W_m2[from + h] = Math.min(kt * up, BRIGHTEST_SHARE * clearest);
      bound_W_m2[h] = Math.max(clearest, ghi_W_m2[from + h]!);
      outside += up;
    }
    if (!Number.isNaN(aim)) fitDay(ghi_W_m2.subarray(from, from + DAY_H), bound_W_m2, aim * outside);
  }
  const take = (column: Float64Array, from = plan.day) =>
    Float64Array.from({ length: count }, (_, i) => {
      return column[days.hour[from[Math.floor(i / DAY_H)]!]! + (i % DAY_H)]!;
    });
  const { snowDepth_m, rain_mm, wind_m_s } = record;
  return {
    start_ms: frame.sun.start_ms,
    step_s: 3600,
    count,
    ghi_W_m2,
    air_degC: joined(take(record.air_degC)),
    ...(snowDepth_m === undefined ? {} : { snowDepth_m: take(snowDepth_m, snowDays(plan, climate, frame)) }),
    ...(rain_mm === undefined ? {} : { rain_mm: take(rain_mm) }),
    ...(wind_m_s === undefined ? {} : { wind_m_s: take(wind_m_s) }),
    sun: frame.sun,
    mark: new Uint8Array(count).fill(SYNTHETIC),
    origin: { file: record.origin.file, sha256: record.origin.sha256, options: {}, filledHours: 0 },
  };
}

/** Near the shortest day of the year, counted from the beginning of a made winter. */
const SHORTEST_DAY = 172;

/**
 * The days whose snow lies on those of a made winter: all of the winter that the shortest day comes from, for snow that
 * changed from day to day would fall on the lid anew each time.
 */
function snowDays({ day }: DayPlan, climate: LearnedClimate, { season }: WinterFrame): Uint32Array {
  const winter = climate.days.winter[day[SHORTEST_DAY]!]!;
  return day.map((own, d) => dayOf(climate, winter, season[d]!) ?? own);
}

/** Air temperature whose days meet at midnight: each is tilted by half of what the seams on either side jump. */
function joined(air_degC: Float64Array): Float64Array {
  const days = air_degC.length / DAY_H;
  const jump = Float64Array.from({ length: days + 1 }, (_, d) =>
    d === 0 || d === days ? 0 : air_degC[d * DAY_H]! - air_degC[d * DAY_H - 1]!,
  );
  return air_degC.map((value, i) => {
    const d = Math.floor(i / DAY_H);
    const part = (i % DAY_H) / (DAY_H - 1);
    return value - (jump[d]! / 2) * (1 - part) + (jump[d + 1]! / 2) * part;
  });
}
