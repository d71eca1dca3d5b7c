import type { LampParams } from '../lamp/params.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { ChargingCurve } from '../year/ChargingCurve.ts';
import { hourLimits } from '../year/hourLimits.ts';
import { lampPlan, type NightStretch, simulateNights, type YearOptions } from '../year/simulateYear.ts';
import { thermalTable } from '../year/thermalTable.ts';
import type { Design } from './Design.ts';
import type { DesignTrials } from './DesignTrials.ts';
import { darkStretches } from './darkStretches.ts';
import { type FullDischarge, fullDischarge, lightWithin } from './fullDischarge.ts';
import { energyByNight, type LitNights, litNights } from './LitNights.ts';

/** What a cell gives in a spot at the best, whatever hangs behind it. */
interface CellAtBest {
  /** Voltage that nothing charged by it exceeds, and its most current. */
  highest_V: number;
  most_A: number;
  /** Of 1 W/m2, at most. */
  most_A_W_m2: number;
  energy_J: Float64Array;
}

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
 * Bounds of what a design comes to, for a small part of a whole run.
 *
 * valid: bounds for the loop at its default tolerance (test/sizing/DesignBounds.property.test.ts); none on failed nights
 *   where a lamp may give too little light for having more voltage
 */
export class DesignBounds {
  private readonly trials: DesignTrials;
  private readonly options: YearOptions;
  private readonly nightsOf = new ByObjects<LitNights>();
  private readonly cellOf = new ByObjects<CellAtBest>();
  private readonly stretchesOf = new ByObjects<readonly NightStretch[]>();

  constructor(trials: DesignTrials) {
    const { site, promise, start, seed } = trials.space.scenario;
    this.trials = trials;
    this.options = { timeZone: site.timeZone, promise, start, seed };
  }

  /** Bounds by what the schedule asks for and the cell gives, without a run. */
  still(design: Design, lamp: LampParams): Bounds {
    const nights = this.nights(design, lamp);
    const cell = this.cell(design, lamp, nights);
    const full = fullDischarge(lamp, this.highest_V(cell, lamp));
    const { winters } = nights;
    return {
      failedNights: 0,
      winters,
      keptWinters: winters,
      light_lm_h: (SURE_SHARE * mostLight_lm_h(nights, cell, full)) / winters,
    };
  }

  /** The same with the nights that fail even where the dark weeks begin with a capacitor as full as it can be. */
  tried(design: Design, lamp: LampParams): Bounds {
    const still = this.still(design, lamp);
    const nights = this.nights(design, lamp);
    const cell = this.cell(design, lamp, nights);
    const highest_V = this.highest_V(cell, lamp);
    const full = fullDischarge(lamp, highest_V);
    const { promise, timeZone, seed } = this.options;
    if (!nights.glows.every((glow) => full.staysAbove(promise.least_lumen / glow))) return still;
    const light = this.trials.light(design.spot);
    const options = { timeZone, promise, seed, start: { capacitor_V: highest_V }, favourable: true };
    const allowed_s = 3600 * promise.tolerance_h + SURE_S;
    const perLight_s = cell.most_A_W_m2 / (full.least_A * nights.leastShare);
    const spoilt = new Set<number>();
    let failedNights = 0;
    for (const stretch of this.stretches(design, light, nights)) {
      const { nights: totals, firstNight } = simulateNights(thrifty(lamp), light, options, stretch);
      for (let n = 0; n < totals.count; n++) {
        const night = firstNight + n - nights.firstNight;
        const short_s = totals.promised_s[n]! - totals.lit_s[n]!;
        if (nights.winter[night]! < 0 || !(short_s > allowed_s + perLight_s * nights.light_J_m2[night]!))
          continue;
        failedNights++;
        spoilt.add(nights.winter[night]!);
      }
    }
    return { ...still, failedNights, keptWinters: nights.winters - spoilt.size };
  }

  private nights({ spot, settled }: Design, lamp: LampParams): LitNights {
    const { site } = this.trials.space.scenario;
    const senses = settled.schedule.sense === undefined ? [] : [settled.cell, settled.jar];
    return this.nightsOf.of([spot, settled.schedule, ...senses], () =>
      litNights(lamp, this.trials.light(spot), site, this.options),
    );
  }

  private cell({ spot, settled }: Design, lamp: LampParams, nights: LitNights): CellAtBest {
    return this.cellOf.of([spot, settled.cell, settled.diode, settled.jar, nights], () =>
      cellAtBest(lamp, this.trials.light(spot), nights, this.options),
    );
  }

  private stretches({ spot }: Design, light: SpotLight, nights: LitNights): readonly NightStretch[] {
    return this.stretchesOf.of([spot], () => darkStretches(light, nights));
  }

  /** Highest voltage that the capacitor can come to. */
  private highest_V({ highest_V, most_A }: CellAtBest, { capacitor }: LampParams): number {
    const { start } = this.options;
    const limited_V = capacitor.limiter_V + most_A * capacitor.limiter_ohm + NEAR_V;
    return Math.max(Math.min(highest_V, limited_V), typeof start === 'string' ? 0 : start.capacitor_V);
  }
}

const NEAR_V = 2e-3;

/** The same lamp whose driver at rest draws the less of what it does stopped and waiting. */
function thrifty(lamp: LampParams): LampParams {
  const rest_A = Math.min(lamp.driver.standby_A, lamp.driver.belowCutoff_A);
  return { ...lamp, driver: { ...lamp.driver, standby_A: rest_A, belowCutoff_A: rest_A } };
}

function cellAtBest(lamp: LampParams, light: SpotLight, nights: LitNights, options: YearOptions): CellAtBest {
  const { jar_degC } = lampPlan(lamp, light, options);
  const thermal = thermalTable(lamp, jar_degC);
  const curve = new ChargingCurve(lamp, thermal);
  const most = { highest_V: 0, most_A: 0, most_A_W_m2: 0 };
  const { planeOfArray_W_m2 } = light;
  for (let hour = 0; hour < light.count; hour++) {
    if (!(planeOfArray_W_m2[hour]! > 0)) continue;
    curve.setHour(planeOfArray_W_m2[hour]!, jar_degC[hour]!);
    most.highest_V = Math.max(most.highest_V, curve.highest_V);
    most.most_A = Math.max(most.most_A, curve.photocurrent_A);
    most.most_A_W_m2 = Math.max(most.most_A_W_m2, curve.photocurrent_A / planeOfArray_W_m2[hour]!);
  }
  const { bestPower_W } = hourLimits(lamp, thermal, planeOfArray_W_m2, jar_degC);
  return { ...most, energy_J: energyByNight(nights, bestPower_W) };
}

/**
 * Most light of all nights that count: of each what a full lamp gives in its lit time, and over all what the energy of the
 * cell at its best gives through the driver and LED at theirs, out of a capacitor that holds no more than it can.
 */
function mostLight_lm_h(nights: LitNights, { energy_J }: CellAtBest, full: FullDischarge): number {
  const { stored_J, most_lm_W, most_lm } = full;
  let held_J = stored_J;
  let light_lm_s = 0;
  for (let night = 0; night < nights.count; night++) {
    held_J += energy_J[night]!;
    if (nights.winter[night]! >= 0) {
      const asked_lm_s = lightWithin(full, nights.dark_s[night]!) + most_lm * nights.light_s[night]!;
      const given_lm_s = Math.min(asked_lm_s, most_lm_W * held_J);
      light_lm_s += given_lm_s;
      held_J -= given_lm_s / most_lm_W;
    }
    held_J = Math.min(held_J, stored_J);
  }
  return light_lm_s / 3600;
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
