import { jarTemperatureInto } from '../../sim/lamp/jar/step.ts';
import type { LampParams } from '../../sim/lamp/params.ts';
import type { SpotLight } from '../../sim/spot/spotLight.ts';
import { planNights } from '../../sim/year/planNights.ts';
import { simulateYear, type YearOptions, type YearResult } from '../../sim/year/simulateYear.ts';
import { type OutsideInput, type OutsideRun, outsideRun } from './outsideRun.ts';

/** A lamp from a stated voltage through a record. */
export interface Trip {
  lamp: LampParams;
  light: SpotLight;
  options: YearOptions & { start: { capacitor_V: number } };
}

/** How far the loop is from the outside integration. */
export interface Gap {
  hours: number;
  squares_V2: number;
  /** Largest at the end of an hour, and which. */
  most_V: number;
  hour: number;
  /** Lit time of all nights: the loop's and the outside's; farthest of one night. */
  lit_s: number;
  outsideLit_s: number;
  night_s: number;
  /** Nights that failed in one of both, though not within 30 s of the tolerance. */
  judgedOtherwise: number;
}

const LENIENT_S = 30;

/** The same trip by the outside integration. */
export function outside({ lamp, light, options }: Trip, tolerance_V?: number): OutsideRun {
  const { count, start_ms, nights, air_degC, planeOfArray_W_m2: light_W_m2 } = light;
  const jar_degC = new Float64Array(count);
  jarTemperatureInto(jar_degC, air_degC, light_W_m2, lamp.jar);
  const { timeZone, promise, start } = options;
  const { plan } = planNights({ start_ms, count, nights, timeZone, joined: false }, lamp.schedule, promise);
  const input: OutsideInput = { count, light_W_m2, jar_degC, plan, leastLight_lm: promise.least_lumen };
  return outsideRun(lamp, input, start.capacitor_V, tolerance_V);
}

export function loop({ lamp, light, options }: Trip, tolerance_V?: number): YearResult {
  return simulateYear(lamp, light, { ...options, tolerance_V });
}

/** in: what both gave for the same trip; tolerance_h of the promise */
export function gapOf(year: YearResult, reference: OutsideRun, tolerance_h = 0.25): Gap {
  const gap = { hours: 0, squares_V2: 0, most_V: 0, hour: -1, lit_s: 0, outsideLit_s: 0, night_s: 0 };
  reference.hourEnd_V.forEach((outside_V, hour) => {
    if (Number.isNaN(outside_V)) return;
    const off_V = Math.abs(year.columns.capacitorEnd_V[hour]! - outside_V);
    gap.hours++;
    gap.squares_V2 += off_V ** 2;
    if (off_V <= gap.most_V) return;
    gap.most_V = off_V;
    gap.hour = hour;
  });
  let judgedOtherwise = 0;
  reference.lit_s.forEach((outside_s, night) => {
    const lit_s = year.nights.lit_s[night]!;
    gap.lit_s += lit_s;
    gap.outsideLit_s += outside_s;
    gap.night_s = Math.max(gap.night_s, Math.abs(lit_s - outside_s));
    const over_s = reference.short_s[night]! - 3600 * tolerance_h;
    const short_s = year.nights.promised_s[night]! - lit_s;
    if (Math.abs(over_s) > LENIENT_S && over_s > 0 !== short_s > 3600 * tolerance_h) judgedOtherwise++;
  });
  return { ...gap, judgedOtherwise };
}

/** Several trips of one lamp as one. */
export function together(gaps: readonly Gap[]) {
  const sum = (of: (gap: Gap) => number) => gaps.reduce((total, gap) => total + of(gap), 0);
  const worst = gaps.reduce((most, gap) => (gap.most_V > most.most_V ? gap : most));
  const outsideLit_s = sum((gap) => gap.outsideLit_s);
  return {
    rms_V: Math.sqrt(sum((gap) => gap.squares_V2) / sum((gap) => gap.hours)),
    most_V: worst.most_V,
    hour: worst.hour,
    night_s: Math.max(...gaps.map((gap) => gap.night_s)),
    litShare: outsideLit_s === 0 ? 0 : Math.abs(sum((gap) => gap.lit_s) / outsideLit_s - 1),
    judgedOtherwise: sum((gap) => gap.judgedOtherwise),
  };
}
