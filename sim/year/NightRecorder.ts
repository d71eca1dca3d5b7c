import type { LampStepper } from './LampStepper.ts';
import { DIM, emptyNightTotals, NIGHT_SUMS, type NightTotals, SHORT_CAUSES } from './NightTotals.ts';
import type { Sum } from './RepeatedCycle.ts';

const STILL_EMPTY = SHORT_CAUSES.indexOf('still-empty');
const LOCKED_OUT = SHORT_CAUSES.indexOf('locked-out');
const RAN_EMPTY = SHORT_CAUSES.indexOf('ran-empty');
const LATE = SHORT_CAUSES.indexOf('switched-on-late');
const UNSCHEDULED = SHORT_CAUSES.indexOf('not-scheduled');

/** Adds every accepted step of a pass to its night. The run sets what is on, and says what happens. */
export class NightRecorder {
  readonly nights: NightTotals;
  /** Time steps taken. */
  steps = 0;
  /** Hours of so many steps that they were followed more coarsely than asked for. */
  coarseHours = 0;
  /** Seconds lit above a boost's boundary of discontinuous conduction. */
  beyondFormula_s = 0;
  /** First instant at which the capacitor reached the LED's voltage; NaN where it never did. */
  conductsThrough_s = Number.NaN;

  night = 0;
  /** Between dusk and dawn. */
  inNight = false;
  /** The dawn of this night lies within the next steps. */
  awaitsDawn = false;
  promised = false;
  /** The stated limit beyond discontinuous conduction holds. */
  beyondDcm = false;
  /** Light of the LED while on, unless dimmed, at the present instant; light it showed at this night's switching on. */
  light_lm = 0;
  duskLight_lm = 0;
  terminal_V = 0;
  /** Of the last step taken: promised time lit, dim and out, lumen seconds, seconds above the rated voltage. */
  lit_s = 0;
  dim_s = 0;
  out_s = 0;
  light_lm_s = 0;
  aboveRated_s = 0;

  private switchedOnTonight = false;
  /** Row of shortBy_s for the time that a stopped lamp is out. */
  private whyStopped = RAN_EMPTY;
  private dawn_s = 0;
  private dawnNight = 0;
  private readonly lamp: LampStepper;
  private readonly leastLight_lm: number;
  private readonly rated_V: number;
  private readonly conducts_V: number;

  /** in: lamp; nights of the run; leastLight_lm that counts as lit */
  constructor(lamp: LampStepper, nights: number, leastLight_lm: number) {
    this.lamp = lamp;
    this.nights = emptyNightTotals(nights);
    this.leastLight_lm = leastLight_lm;
    this.rated_V = lamp.lamp.capacitor.rated_V;
    const { driver, led } = lamp.lamp;
    this.conducts_V = driver.law.conductsFrom_V(led.forward_V[0]!);
  }

  beginNight(night: number): void {
    this.night = night;
    this.inNight = false;
    this.switchedOnTonight = false;
    this.whyStopped = RAN_EMPTY;
  }

  beginDusk(): void {
    const { nights, night, lamp } = this;
    nights.dusk_V[night] = lamp.main_V;
    nights.lowest_V[night] = lamp.main_V;
    this.inNight = true;
  }

  /** Notes that the LED is switched on. in: wasStopped, whether the lamp had stopped before */
  switchOn(wasStopped: boolean): void {
    const { lamp } = this;
    if (this.switchedOnTonight) return;
    this.switchedOnTonight = true;
    this.duskLight_lm = lamp.glow * this.light_lm;
    if (lamp.stopped)
      this.whyStopped = wasStopped && lamp.main_V > lamp.lamp.driver.cutoff_V ? LOCKED_OUT : STILL_EMPTY;
  }

  /** Notes that a stopped lamp started again: where it stops tonight it runs empty. */
  restart(): void {
    this.whyStopped = RAN_EMPTY;
  }

  /** Notes a dawn that no step ends at. in: at_s, not before the present instant */
  awaitDawn(at_s: number): void {
    this.awaitsDawn = true;
    this.dawn_s = at_s;
    this.dawnNight = this.night;
  }

  /** What the steps of this night are added to. */
  sums(): Sum[] {
    const { nights, night: at } = this;
    return [...NIGHT_SUMS.map((name) => nights[name]), ...nights.shortBy_s].map((column) => ({ column, at }));
  }

  /** The next instant at which something is noted that no step ends at; Infinity where there is none. */
  get awaited_s(): number {
    return this.awaitsDawn ? this.dawn_s : Number.POSITIVE_INFINITY;
  }

  /** Adds the tried step. in: step_s, its length; now_s, its beginning, seconds from the start of the record */
  take(step_s: number, now_s: number): void {
    const { lamp, nights, night } = this;
    const { main_V: from_V, end_V: to_V } = lamp;
    this.steps++;
    this.lit_s = 0;
    this.dim_s = 0;
    this.out_s = 0;
    this.light_lm_s = 0;
    this.aboveRated_s = 0;
    if (this.awaitsDawn && this.dawn_s <= now_s + step_s) this.takeDawn(step_s, now_s);
    else if (this.inNight) {
      const lower_V = Math.min(from_V, to_V);
      if (lower_V < nights.lowest_V[night]!) nights.lowest_V[night] = lower_V;
    }
    if (to_V > this.rated_V || from_V > this.rated_V) {
      this.aboveRated_s = step_s * shareAbove(from_V, to_V, this.rated_V);
      nights.aboveRated_s[night]! += this.aboveRated_s;
    }
    if (to_V >= this.conducts_V && Number.isNaN(this.conductsThrough_s)) this.conductsThrough_s = now_s;
    if (lamp.ready) this.takeLight(step_s, now_s);
    else if (this.promised) this.takeShort(step_s, now_s);
    this.terminal_V = lamp.terminal_V;
  }

  /** The voltage at a dawn within the tried step, on its parabola. */
  private takeDawn(step_s: number, now_s: number): void {
    const { lamp, nights, dawnNight } = this;
    const part = (this.dawn_s - now_s) / step_s;
    const dawn_V = lamp.main_V + lamp.rise_V * part + 4 * lamp.deviation_V * part * (1 - part);
    nights.dawn_V[dawnNight] = dawn_V;
    nights.lowest_V[dawnNight] = Math.min(nights.lowest_V[dawnNight]!, lamp.main_V, dawn_V);
    this.awaitsDawn = false;
    this.inNight = false;
  }

  /** Notes time with the LED on, or ready for motion: what it shows while on counts, not the mean. */
  private takeLight(step_s: number, now_s: number): void {
    const { lamp, nights, night } = this;
    const before_lm = this.light_lm;
    const after_lm = lamp.endLight_lm;
    const perShown = 1 / lamp.glow;
    this.light_lm_s = lamp.share * (step_s / 6) * (before_lm + 4 * lamp.middleLight_lm + after_lm);
    nights.light_lm_h[night]! += this.light_lm_s / 3600;
    nights.shining_s[night]! += step_s;
    if (this.beyondDcm) this.beyondFormula_s += lamp.duty * step_s;
    const dusk_lm = perShown * this.duskLight_lm;
    const bright = this.shareAboveLight(perShown * this.leastLight_lm, before_lm, after_lm);
    nights.aboveHalf_s[night]! += step_s * this.shareAboveLight(0.5 * dusk_lm, before_lm, after_lm);
    nights.aboveFifth_s[night]! += step_s * this.shareAboveLight(0.2 * dusk_lm, before_lm, after_lm);
    const bright_s = step_s * bright;
    if (this.promised) {
      nights.promised_s[night]! += bright_s;
      nights.lit_s[night]! += bright_s;
      this.lit_s = bright_s;
      // Fading light darkens the end of a step, brightening light its beginning.
      if (bright < 1) this.takeShort(step_s - bright_s, now_s + (after_lm < before_lm ? bright_s : 0));
    } else nights.litBeyondPromise_s[night]! += bright_s;
    this.light_lm = after_lm;
  }

  /** Notes promised time without the promised light: too dim, or out for another reason. */
  private takeShort(short_s: number, begins_s: number): void {
    const { lamp, nights, night } = this;
    nights.promised_s[night]! += short_s;
    if (Number.isNaN(nights.firstShort_s[night]!)) nights.firstShort_s[night] = begins_s;
    let cause = DIM;
    if (lamp.glow === 0) cause = this.switchedOnTonight ? UNSCHEDULED : LATE;
    else if (lamp.stopped) cause = this.whyStopped;
    if (cause === DIM) this.dim_s = short_s;
    else this.out_s = short_s;
    nights.shortBy_s[cause]![night]! += short_s;
  }

  /** Share of the tried step, 0 to 1, in which the light stands above a level. */
  private shareAboveLight(level_lm: number, before_lm: number, after_lm: number): number {
    if (before_lm >= level_lm && after_lm >= level_lm) return 1;
    return before_lm < level_lm && after_lm < level_lm ? 0 : +this.shareTo(level_lm, before_lm, after_lm);
  }

  /**
   * The same where the light passes the level; the terminal voltage is taken along the step's parabola.
   * valid: one crossing in the step, to a second in an hour
   */
  private shareTo(level_lm: number, before_lm: number, after_lm: number): number {
    const { lamp } = this;
    const { load } = lamp;
    const from_V = this.terminal_V;
    const rise_V = lamp.terminal_V - from_V;
    const bend = lamp.rise_V === 0 ? 0 : (4 * lamp.deviation_V) / lamp.rise_V;
    let low = 0;
    let high = 1;
    let atLow = before_lm - level_lm;
    let atHigh = after_lm - level_lm;
    let part = 0.5;
    // False position in the Illinois form.
    for (let round = 0; round < 12; round++) {
      part = (low * atHigh - high * atLow) / (atHigh - atLow);
      const off_lm = load.light_lm(from_V + rise_V * part * (1 + bend * (1 - part))) - level_lm;
      if (off_lm < 1e-9 && off_lm > -1e-9) break;
      if (off_lm > 0 === atHigh > 0) {
        high = part;
        atHigh = off_lm;
        atLow *= 0.5;
      } else {
        low = part;
        atLow = off_lm;
        atHigh *= 0.5;
      }
    }
    return after_lm < before_lm ? part : 1 - part;
  }
}

function shareAbove(from: number, to: number, level: number): number {
  if (from >= level && to >= level) return 1;
  const inside = (level - from) / (to - from);
  return to > from ? 1 - inside : inside;
}
