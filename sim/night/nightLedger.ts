import type { CapacitorParams } from '../lamp/capacitor/params.ts';
import { capacitorEnergy_J } from '../lamp/capacitor/step.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { winterOf } from '../sun/NightCalendar.ts';
import type { Site } from '../sun/Site.ts';
import { DIM, type NightTotals, SHORT_CAUSES, type ShortCause } from '../year/NightTotals.ts';
import type { YearNights } from '../year/simulateYear.ts';
import type { YearColumns } from '../year/YearColumns.ts';
import { mostOver, nightDays } from './nightDays.ts';

export type NightOutcome = 'kept' | 'failed' | 'nothing-promised';
/** Snow: a lamp that failed, and would not have with the snow brushed off its lid. */
export type NightCause = 'none' | 'snow' | ShortCause;

/** One night of a trial: a row of the night ledger. NaN says 'does not apply'. */
export interface NightRow {
  /** '2025/26' north of the equator, '2025' south of it. */
  winter: string;
  /** Civil date of the evening. */
  night: string;
  complete: boolean;
  /** UTC milliseconds; NaN in a white night. */
  dusk_ms: number;
  dawn_ms: number;
  promised_h: number;
  lit_h: number;
  /** Promised hours dim or out. */
  short_h: number;
  /** On, below the promised light. */
  dim_h: number;
  /** Off. */
  out_h: number;
  /** A short night that was out for longer than the tolerance, or for longer than dim, counts as out, any other as dim. */
  wentOut: boolean;
  litBeyondPromise_h: number;
  outcome: NightOutcome;
  /** What made it short: too dim, or where it went out, what most of that came from. */
  cause: NightCause;
  /** UTC milliseconds of the first short instant in promised time; NaN where there is none. */
  firstShort_ms: number;
  /** Light on the cell over the civil date of the evening. */
  lightOnCell_Wh_m2: number;
  /** Global horizontal irradiation over the same date; NaN where it does not apply. */
  ghi_Wh_m2: number;
  /** NaN where a run of nights alone has no hours. */
  highestReachable_V: number;
  capacitorDusk_V: number;
  capacitorLowest_V: number;
  capacitorDawn_V: number;
  /** Energy above the cut-off at dawn; negative below it. */
  reserveDawn_J: number;
  lightGiven_lm_h: number;
  aboveRated_h: number;
  /** Hours of the same date with snow on the lid. */
  snowOnLid_h: number;
  filledWeather_h: number;
  /** Hours with more than half, and more than a fifth, of the light at switching on. */
  aboveHalf_h: number;
  aboveFifth_h: number;
}

/** What the ledger needs to know of the lamp and its promise. */
export interface LedgerTerms {
  capacitor: CapacitorParams;
  cutoff_V: number;
  tolerance_h: number;
}

/** Less short time than this is rounding, not a short night. */
const ROUNDING_S = 0.5;

/** The nights of a run, with its hours or without. */
export interface LedgerYear extends Pick<YearNights, 'nights' | 'firstNight' | 'joined'> {
  columns?: Pick<YearColumns, 'count'> & Partial<Pick<YearColumns, 'reachable_V'>>;
}

/**
 * The night ledger: one row a night, in the order of time.
 *
 * A single year that was run through its seam has one winter, named '2025 joined'; its rows begin with the first
 * evening of the record.
 *
 * in: year, the night totals of a trial, and its hours where there are any; light, its spot's; site; terms
 * out: the rows
 */
export function nightLedger(year: LedgerYear, light: SpotLight, site: Site, terms: LedgerTerms): NightRow[] {
  const { nights: totals, firstNight, joined } = year;
  const reachable_V = year.columns?.reachable_V;
  const calendar = light.nights;
  const days = nightDays(light, site.timeZone, joined);
  const atCutoff_J = capacitorEnergy_J(terms.capacitor, terms.cutoff_V);
  const joinedWinter = joined ? `${firstDate(light).slice(0, 4)} joined` : undefined;
  const rows: NightRow[] = [];
  for (let n = 0; n < totals.count; n++) {
    const k = firstNight + n;
    const night = calendar.eveningDate[k]!;
    const white = calendar.hasNight[k] === 0;
    const promised_s = totals.promised_s[n]!;
    const lit_s = totals.lit_s[n]!;
    const short_s = promised_s - lit_s > ROUNDING_S ? promised_s - lit_s : 0;
    const dim_s = Math.min(totals.shortBy_s[DIM]![n]!, short_s);
    const out_s = short_s - dim_s;
    const wentOut = out_s > terms.tolerance_h * 3600 + ROUNDING_S || out_s > dim_s;
    const dawn_V = totals.dawn_V[n]!;
    const firstShort_s = short_s > 0 ? totals.firstShort_s[n]! : Number.NaN;
    const day = days[k]!;
    rows.push({
      winter: joinedWinter ?? winterOf(night, site.latitude_deg),
      night,
      complete: joined || calendar.complete[k] === 1,
      dusk_ms: white ? Number.NaN : calendar.dusk_ms[k]!,
      dawn_ms: white ? Number.NaN : calendar.dawn_ms[k]!,
      promised_h: promised_s / 3600,
      lit_h: (promised_s - short_s) / 3600,
      short_h: short_s / 3600,
      dim_h: dim_s / 3600,
      out_h: out_s / 3600,
      wentOut,
      litBeyondPromise_h: totals.litBeyondPromise_s[n]! / 3600,
      outcome: outcomeOf(promised_s, short_s, terms.tolerance_h),
      cause: short_s === 0 ? 'none' : wentOut ? whyOut(totals, n) : 'too-dim',
      firstShort_ms: light.start_ms + firstShort_s * 1000,
      lightOnCell_Wh_m2: day.lightOnCell_Wh_m2,
      ghi_Wh_m2: day.ghi_Wh_m2,
      highestReachable_V: reachable_V === undefined ? Number.NaN : mostOver(day, reachable_V),
      capacitorDusk_V: totals.dusk_V[n]!,
      capacitorLowest_V: totals.lowest_V[n]!,
      capacitorDawn_V: dawn_V,
      reserveDawn_J: capacitorEnergy_J(terms.capacitor, dawn_V) - atCutoff_J,
      lightGiven_lm_h: totals.light_lm_h[n]!,
      aboveRated_h: totals.aboveRated_s[n]! / 3600,
      snowOnLid_h: day.snowOnLid_h,
      filledWeather_h: day.filledWeather_h,
      aboveHalf_h: totals.aboveHalf_s[n]! / 3600,
      aboveFifth_h: totals.aboveFifth_s[n]! / 3600,
    });
  }
  return rows;
}

/** Date of the first evening that the record holds from its noon on. */
function firstDate({ nights, start_ms }: SpotLight): string {
  return nights.eveningDate[nights.noon_ms.findIndex((noon_ms) => noon_ms >= start_ms)]!;
}

function outcomeOf(promised_s: number, short_s: number, tolerance_h: number): NightOutcome {
  if (promised_s <= 0) return 'nothing-promised';
  return short_s > tolerance_h * 3600 + ROUNDING_S ? 'failed' : 'kept';
}

/** What most of the time without light came from. */
function whyOut({ shortBy_s }: NightTotals, n: number): ShortCause {
  let most = 0;
  for (let c = 1; c < SHORT_CAUSES.length; c++) {
    if (c !== DIM && shortBy_s[c]![n]! > shortBy_s[most]![n]!) most = c;
  }
  return SHORT_CAUSES[most]!;
}
