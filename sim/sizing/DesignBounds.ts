import type { LampParams } from '../lamp/params.ts';
import type { NightStretch, YearOptions } from '../year/simulateYear.ts';
import { type DayCharges, dayCharges } from './DayCharges.ts';
import type { Design } from './Design.ts';
import type { DesignTrials } from './DesignTrials.ts';
import { fullDischarge } from './fullDischarge.ts';
import { type LitNights, litNights } from './LitNights.ts';
import { type UpperCourse, upperCourse } from './upperCourse.ts';

/** What a design's whole run cannot exceed. */
export interface Bounds {
  /** At least. */
  failedNights: number;
  winters: number;
  /** At most. */
  keptWinters: number;
  light_lm_h: number;
}

/** Seconds by which a night must be short beyond what is forgiven: many times what the loop errs by. */
const SURE_S = 120;
/** Of light: beyond the errors of the loop. */
const SURE_SHARE = 1.002;

/**
 * Bounds of what designs come to, without a run, by a course of the capacitor that no run exceeds.
 *
 * valid: bounds for the loop at its default tolerance (test/sizing/DesignBounds.test.ts); none on failed nights where a
 *   lamp may give too little light for having more voltage
 */
export class DesignBounds {
  private readonly trials: DesignTrials;
  private readonly options: YearOptions;
  private readonly stretch: NightStretch | undefined;
  private readonly nightsOf = new ByObjects<LitNights>();
  private readonly chargesOf = new ByObjects<DayCharges>();

  /**
   * in: trials; stretch, nights that are looked at alone, whatever was before them, at a part of the time; then nothing is
   *   known of the light
   */
  constructor(trials: DesignTrials, stretch?: NightStretch) {
    const { site, promise, start, seed } = trials.space.scenario;
    this.trials = trials;
    this.stretch = stretch;
    this.options = { timeZone: site.timeZone, promise, start, seed };
  }

  /** in: design; lamp, its parameters */
  of(design: Design, lamp: LampParams): Bounds {
    const nights = this.nights(design, lamp);
    const { first, end } = this.stretchOf(nights);
    const charges = this.charges(design, lamp, nights);
    const { promise } = this.options;
    const highest_V = this.highest_V(charges, lamp);
    const full = fullDischarge(lamp, highest_V);
    const enough_s = Math.max(0, ...nights.glows.map((glow) => full.enoughFor_s(promise.least_lumen / glow)));
    const allowed_s = 3600 * promise.tolerance_h + SURE_S;
    const course = upperCourse(lamp, nights, charges, full, { enough_s, allowed_s, highest_V, first, end });
    const bounds = boundsOf(nights, course);
    return this.stretch === undefined ? bounds : { ...bounds, light_lm_h: Number.POSITIVE_INFINITY };
  }

  private stretchOf({ count }: LitNights): NightStretch {
    const { first, end } = this.stretch ?? { first: 0, end: count };
    return { first: Math.max(0, first), end: Math.min(end, count) };
  }

  private nights({ spot, settled }: Design, lamp: LampParams): LitNights {
    const { site } = this.trials.space.scenario;
    const senses = settled.schedule.sense === undefined ? [] : [settled.cell, settled.jar];
    return this.nightsOf.of([spot, settled.schedule, ...senses], () =>
      litNights(lamp, this.trials.light(spot), site, this.options),
    );
  }

  private charges({ spot, settled }: Design, lamp: LampParams, nights: LitNights): DayCharges {
    // The noons of all schedules are the same.
    return this.chargesOf.of([spot, settled.cell, settled.diode, settled.jar], () =>
      dayCharges(lamp, this.trials.light(spot), nights, this.stretchOf(nights)),
    );
  }

  /** Highest voltage that the capacitor can come to. */
  private highest_V({ highest_V, most_A }: DayCharges, { capacitor }: LampParams): number {
    const { start } = this.options;
    const limited_V = capacitor.limiter_V + most_A * capacitor.limiter_ohm + NEAR_V;
    return Math.max(Math.min(highest_V, limited_V), typeof start === 'string' ? 0 : start.capacitor_V);
  }
}

const NEAR_V = 2e-3;

function boundsOf(nights: LitNights, { light_lm_h, fails }: UpperCourse): Bounds {
  const { winters, winter } = nights;
  const spoilt = new Set(winter.filter((_, night) => fails[night] === 1));
  return {
    winters,
    failedNights: fails.reduce((sum, one) => sum + one, 0),
    keptWinters: winters - spoilt.size,
    light_lm_h: (SURE_SHARE * light_lm_h) / winters,
  };
}

/** Things made for some objects, kept for the same ones. */
class ByObjects<Made> {
  private readonly numbers = new WeakMap<object, number>();
  private readonly made = new Map<string, Made>();
  private next = 0;

  of(objects: readonly object[], make: () => Made): Made {
    const key = objects.map((object) => this.number(object)).join();
    const known = this.made.get(key) ?? make();
    this.made.set(key, known);
    return known;
  }

  private number(object: object): number {
    const known = this.numbers.get(object) ?? this.next++;
    this.numbers.set(object, known);
    return known;
  }
}
