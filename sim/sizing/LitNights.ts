import type { LampParams } from '../lamp/params.ts';
import { nightLedger } from '../night/nightLedger.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { overWinters } from '../statistics/overWinters.ts';
import { winterStatistics } from '../statistics/winterStatistics.ts';
import type { Site } from '../sun/Site.ts';
import { PLAN } from '../year/NightPlan.ts';
import { emptyNightTotals } from '../year/NightTotals.ts';
import { lampPlan, type YearOptions } from '../year/simulateYear.ts';

const HOUR_S = 3600;

/** What a schedule does in every night of a record, whatever the lamp's charge: one number a night, from noon to noon. */
export interface LitNights {
  count: number;
  /** Index in the spot's calendar of night 0. */
  firstNight: number;
  /** Winter that a night counts in, from 0; -1 of a night that counts in none. */
  winter: Int32Array;
  winters: number;
  /** Seconds at full light, by the dark and by light on the cell. */
  dark_s: Float64Array;
  light_s: Float64Array;
  /** Light on the cell while the LED is on, J/m2. */
  light_J_m2: Float64Array;
  /** Promised seconds. */
  promised_s: Float64Array;
  /** The shares of full light that it is lit with, and the least share of full current that it draws. */
  glows: readonly number[];
  leastShare: number;
  /** When each night begins, and the last ends, seconds from the start of the record. */
  noon_s: Float64Array;
}

/**
 * The lit times of a lamp's schedule.
 *
 * in: lamp; light, the spot's; site; options, as of the run
 */
export function litNights(lamp: LampParams, light: SpotLight, site: Site, options: YearOptions): LitNights {
  const { plan, firstNight, joined } = lampPlan(lamp, light, options);
  const count = plan.nights;
  const nights: LitNights = {
    count,
    firstNight,
    ...countedIn(lamp, light, site, { nights: emptyNightTotals(count), firstNight, joined }),
    dark_s: new Float64Array(count),
    light_s: new Float64Array(count),
    light_J_m2: new Float64Array(count),
    promised_s: new Float64Array(count),
    glows: [],
    leastShare: 1,
    noon_s: new Float64Array(count + 1).fill(plan.to_s),
  };
  const glows = new Set<number>();
  let night = 0;
  let [duty, glow, promised] = [0, 0, 0];
  let from_s = plan.from_s;
  for (let i = 0; i <= plan.count; i++) {
    const to_s = i < plan.count ? plan.at_s[i]! : plan.to_s;
    if (glow > 0) takeLit(nights, light, { night, from_s, to_s, share: duty * glow });
    nights.promised_s[night]! += promised * (to_s - from_s);
    from_s = to_s;
    if (i === plan.count) break;
    if (plan.what[i] === PLAN.noon) {
      night = plan.value[i]!;
      nights.noon_s[night] = to_s;
    }
    if (plan.what[i] === PLAN.promise) promised = plan.value[i]!;
    if (plan.what[i] !== PLAN.share) continue;
    [duty, glow] = [plan.value[i]!, plan.glow[i]!];
    if (glow > 0) glows.add(glow);
    if (duty * glow > 0) nights.leastShare = Math.min(nights.leastShare, duty * glow);
  }
  return { ...nights, glows: [...glows] };
}

interface Stretch {
  night: number;
  from_s: number;
  to_s: number;
  share: number;
}

function takeLit(
  nights: LitNights,
  { planeOfArray_W_m2, count }: SpotLight,
  { night, from_s, to_s, share }: Stretch,
) {
  for (let at_s = from_s; at_s < to_s; ) {
    const hour = Math.floor(at_s / HOUR_S + 1e-12);
    const until_s = Math.min((hour + 1) * HOUR_S, to_s);
    const light_W_m2 = planeOfArray_W_m2[hour % count]!;
    if (light_W_m2 > 0) {
      nights.light_s[night]! += share * (until_s - at_s);
      nights.light_J_m2[night]! += light_W_m2 * (until_s - at_s);
    } else nights.dark_s[night]! += share * (until_s - at_s);
    at_s = until_s;
  }
}

type Counted = Parameters<typeof nightLedger>[0];

/** The winters that nights count in: no lamp changes that. */
function countedIn(lamp: LampParams, light: SpotLight, site: Site, year: Counted) {
  const rows = nightLedger(year, light, site, { capacitor: lamp.capacitor, cutoff_V: 0, tolerance_h: 0 });
  const names = overWinters(winterStatistics(rows, site.latitude_deg)).winters.map(({ winter }) => winter);
  return {
    winter: Int32Array.from(rows, ({ winter, complete }) => (complete ? names.indexOf(winter) : -1)),
    winters: names.length,
  };
}
