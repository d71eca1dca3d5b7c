import { CircuitCurrents } from './CircuitCurrents.ts';
import { correctByLook, correctByThird } from './correction.ts';
import { litStep, restStep } from './darkStep.ts';

/** The expansion may lie off the middle of the path by this, and by this share of the path. */
const CENTRED_V = 2e-3;
const CENTRED_SHARE = 0.3;
const MOST_CENTRINGS = 4;
/** Farthest the voltage goes in one step, and is guessed ahead. */
const FARTHEST_V = 0.5;
const AHEAD_V = 0.06;
/** A step whose third order tells of less than this share of what is allowed is taken as it is. */
const UNCORRECTED = 0.1;
/** What is left of the uneven flow into delayed branches, as a share of what it does. */
const LEFT_OF_DELAYED = 0.15;
const LEFT_OF_DELAYED_LIT = 0.4;
/** A step less stiff than this is slow: off its middle, it may be taken while its error stays below what is allowed. */
const SETTLES = 1.5;
/** Below this what is allowed shrinks no further: what looked-up currents miss does not either. */
const SHORT_STEP_S = 1;
/** So short a step is taken while its error is no more than this; and the shortest of all whatever its error. */
const SHORT_STEP_ERROR_V = 1e-3;
export const LEAST_STEP_S = 1e-3;
export const SHORTEST_STEP_S = 1e-7;
/** So near its voltage a limiter draws or not by where the capacitor is going. */
export const KINK_V = 1e-7;
const HOUR_S = 3600;

/**
 * Moves the lamp's circuit on by one step at a time under constant light and temperature.
 *
 * All currents are expanded about a point near the middle of the step; the voltage follows the closed path of
 * `VoltagePath`, corrected by what of the third order this leaves out. Where the next order could count, the true currents
 * at both ends are looked up: what they differ from the expansion's corrects the step and is the measure of its error.
 *
 * Set the mode and step_s, then `tryStep`, then `accept`.
 * source: HochbruckOstermann2010 (exponential integrators)
 */
export class LampStepper extends CircuitCurrents {
  /** Error of the capacitor's voltage allowed in a step of an hour. */
  tolerance_V = 1e-4;
  /** Length of the step to try. */
  step_s = 0;

  // Result of the last step tried.
  end_V = 0;
  rise_V = 0;
  deviation_V = 0;
  error_V = 0;
  /** Error allowed in the step. */
  allowed_V = 0;
  /** Driver's current and cell's at the end. */
  endLoad_A = 0;
  endIn_A = 0;
  /** Light of the LED while on, unless dimmed, in the middle and at the end, lumens. */
  middleLight_lm = 0;
  endLight_lm = 0;
  /** The middle in time: inner voltage. */
  middle_V = 0;
  /** Rate at the end, V/s. */
  endRate = 0;
  /** 1 for a slow step, more for one that settles. */
  stiff = 1;
  /** Rise before what delayed branches do to it by drawing unevenly. */
  evenRise_V = 0;
  /** The step was taken by the expansion of the whole circuit. */
  expanded = false;
  /** Mean of the inner voltage over the step, and mean square about it; after `averageStep`. */
  mean_V = 0;
  spread_V2 = 0;

  /** Takes the last tried step over as the present state. */
  accept(): void {
    this.main_V = this.end_V;
    this.startLoad_A = this.endLoad_A;
    this.startTerminal_V = this.terminal_V;
    this.lastRate = this.endRate;
    this.curve.in_A = this.endIn_A;
    if (this.delayed.exist) this.delayed.accept();
  }

  /** Terminal voltage, driver's current and light at the present state, after a change of mode; out: the rate, V/s. */
  settle(): number {
    this.step_s = HOUR_S;
    this.begin();
    this.probe_V = this.main_V;
    this.probe();
    // Far from the current before, the first look is good to some nanoamperes only.
    if (this.lit) this.probe();
    this.lastRate = this.probeRate;
    this.startLoad_A = this.probeLoad_A;
    this.endLoad_A = this.probeLoad_A;
    this.terminal_V = this.main_V + this.ohm * (this.probeIn_A - this.probeLoad_A);
    this.startTerminal_V = this.terminal_V;
    this.endLight_lm = this.ready ? this.load.light_lm(this.terminal_V) : 0;
    return this.probeRate;
  }

  /**
   * Tries a step of step_s from the present state.
   * out: true where it holds the tolerance; then the result fields are those of the step. Else error_V says by how much
   *   it misses (Infinity: not at all), and the step must be shorter
   */
  tryStep(): boolean {
    this.begin();
    // By day an error is soon forgotten, in the dark it stays; what a limiter takes goes by the voltage within the step.
    const share = Math.max(this.step_s, SHORT_STEP_S) / HOUR_S;
    const part = this.charging ? Math.sqrt(share) : share;
    this.allowed_V = this.tolerance_V * part * (this.drains.limiting ? 0.1 : 1);
    const plain = !this.charging && !this.drains.limiting;
    this.expanded = !(plain && (this.lit ? litStep(this) : restStep(this)));
    if (this.expanded && !this.circuitStep()) {
      this.error_V = Number.POSITIVE_INFINITY;
      this.curve.recover();
      return false;
    }
    const { delayed } = this;
    this.end_V = this.main_V + this.rise_V;
    this.middle_V = this.main_V + 0.5 * this.rise_V + this.deviation_V;
    this.terminal_V = this.end_V + this.ohm * (this.endIn_A - this.endLoad_A);
    if (delayed.exist) {
      delayed.rise_V = this.rise_V;
      delayed.deviation_V = this.deviation_V;
      delayed.take();
    }
    if (this.ready) {
      this.endLight_lm = this.load.light_lm(this.terminal_V);
      this.middleLight_lm = this.load.light_lm(
        this.middle_V + this.ohm * (this.expandedIn_A(this.middle_V - this.at_V) - this.middleLoad_A),
      );
    }
    if (this.error_V <= this.allowed_V) return true;
    if (this.step_s <= LEAST_STEP_S && this.error_V <= SHORT_STEP_ERROR_V) return true;
    return this.step_s <= SHORTEST_STEP_S && this.error_V < Number.POSITIVE_INFINITY;
  }

  /** The step of the whole circuit; false where none of this length is found. */
  private circuitStep(): boolean {
    if (!this.centre()) return false;
    const { path, delayed } = this;
    this.rise_V = path.rise_V;
    this.deviation_V = path.deviation_V;
    this.endRate = path.endRate;
    const last_x = path.from_V + path.rise_V;
    this.endIn_A = this.expandedIn_A(last_x);
    this.endLoad_A = this.load_A + last_x * (this.loadSlope + 0.5 * last_x * this.loadSecond);
    if (this.lit || (this.error_V > UNCORRECTED * this.allowed_V && !correctByThird(this)))
      correctByLook(this);
    this.evenRise_V = this.rise_V;
    if (delayed.exist) this.spreadDelayed();
    if (!(this.main_V + this.rise_V >= 0 && this.rise_V < FARTHEST_V)) return false;
    if (this.lit) {
      const middle_x = this.main_V - this.at_V + 0.5 * this.rise_V + this.deviation_V;
      const middle_A = this.load_A + middle_x * (this.loadSlope + 0.5 * middle_x * this.loadSecond);
      this.load.terminal_V = this.at_V + middle_x + this.ohm * (this.expandedIn_A(middle_x) - middle_A);
      this.load.read();
      this.middleLoad_A = this.load.current_A;
    } else this.middleLoad_A = 0;
    return true;
  }

  /** What holds for the whole step. */
  private begin(): void {
    const { drains, delayed, main_V } = this;
    this.charging = this.curve.reaches(this.lit ? main_V - this.ohm * this.startLoad_A : main_V);
    if (delayed.exist) {
      delayed.main_V = main_V;
      delayed.step_s = this.step_s;
      delayed.begin();
    }
    const over_V = main_V - drains.limiter_V;
    drains.limiting = over_V > 0;
    if (over_V < KINK_V && over_V > -KINK_V) {
      // On the kink itself the side is the one the voltage goes to.
      drains.limiting = false;
      this.probe_V = main_V;
      this.probe();
      drains.limiting = this.probeRate > 0;
    }
  }

  /** Expands about a point near the middle of the path; false where no path of the step's length is found. */
  private centre(): boolean {
    const { path, main_V, step_s: h } = this;
    let ahead_V = 0.5 * h * this.lastRate;
    if (this.charging) {
      ahead_V = (0.5 * h * this.curve.in_A) / (this.c0 + this.c1 * main_V + this.delayed.follow_F);
      if (ahead_V < 4e-3 || this.lit) ahead_V = 0;
    }
    this.aim_V = main_V + (ahead_V > AHEAD_V ? AHEAD_V : Math.max(ahead_V, -AHEAD_V));
    path.duration_s = h;
    for (let round = 1; ; round++) {
      this.expand();
      const from_x = main_V - this.at_V;
      path.from_V = from_x;
      if (!path.follow()) return false;
      const rise_V = path.rise_V;
      const far = rise_V < 0 ? -rise_V : rise_V;
      if (!(far < 1e3)) return false;
      const to_x = from_x + rise_V;
      const start = from_x < 0 ? -from_x : from_x;
      const end = to_x < 0 ? -to_x : to_x;
      const reach = Math.max(start, end);
      this.stiff = path.slope < 0 ? 1 - path.slope * h : 1;
      const third = Math.abs(path.third);
      // What the fourth order adds, if orders go on as they grew.
      const next = third === 0 ? 0 : third * Math.min((0.25 * reach * third) / Math.abs(path.second), 1);
      const left = Math.abs(path.missed) + next;
      this.error_V = (left * reach * reach * reach * h * (1 / 24)) / this.stiff;
      const middle_x = from_x + 0.5 * rise_V;
      const most = CENTRED_V + CENTRED_SHARE * far;
      const centred = middle_x < most && middle_x > -most;
      // A slow step only has to hold its error; the mean of one that settles is read off the expansion.
      const slow = this.stiff < SETTLES && this.error_V < this.allowed_V;
      if (centred || slow || round > MOST_CENTRINGS) return far < FARTHEST_V;
      const half_V = 0.5 * (far < FARTHEST_V ? rise_V : rise_V < 0 ? -FARTHEST_V : FARTHEST_V);
      this.aim_V = main_V + half_V < 0 ? 0.5 * main_V : main_V + half_V;
    }
  }

  /**
   * What delayed branches do to the step by drawing unevenly: a bent path's share, and what their early draw leaves. The
   * bend comes late: at half time there is little of it.
   */
  spreadDelayed(): void {
    const { delayed, path, perC } = this;
    const z = this.stiff - 1;
    const perHalfSettled = perC / (1 + 0.5 * z);
    delayed.rise_V = this.rise_V;
    delayed.spread();
    const bent_V = (delayed.reaction_FC * perC - delayed.kappa_F * this.deviation_V) * perHalfSettled;
    this.deviation_V -= delayed.half_C * perHalfSettled + 0.5 * bent_V;
    const early_V = (-path.slope * delayed.ahead_Cs * perC) / (1 + z * (0.5 + z * (1 / 6)));
    this.rise_V += bent_V + early_V;
    const both_V = (bent_V < 0 ? -bent_V : bent_V) + (early_V < 0 ? -early_V : early_V);
    this.error_V += (this.lit ? LEFT_OF_DELAYED_LIT : LEFT_OF_DELAYED) * both_V;
  }
}
