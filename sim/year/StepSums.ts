import type { Expansion } from './Expansion.ts';

/**
 * What flowed over one time step: coulombs, joules, lumen seconds. Each the integral of its own expansion along the
 * voltage's path, none by difference.
 */
export class StepSums {
  in_C = 0;
  /** Driver, leakage, balancing and limiter, standby. */
  out_C = 0;
  cell_J = 0;
  diode_J = 0;
  resistance_J = 0;
  delayed_J = 0;
  leakage_J = 0;
  limiter_J = 0;
  standby_J = 0;
  load_J = 0;
  led_J = 0;
  led_C = 0;
  light_lm_s = 0;

  /**
   * Integrates an expansion; delayed_J, led_J, led_C and light_lm_s are the caller's.
   *
   * in: at, the expansion; h, duration in seconds; x1 and x2, integrals of the way from the expansion's voltage and of
   *   its square, V s and V2 s; diode_ohm and capacitor_ohm, series resistances
   */
  integrate(
    at: Expansion,
    h: number,
    x1: number,
    x2: number,
    diode_ohm: number,
    capacitor_ohm: number,
  ): void {
    const { main_V, in_A, inSlope, inHalf, load_A, loadSlope, loadHalf } = at;
    const { terminal_V, terminalSlope, terminalHalf } = at;
    const load_C = h * load_A + loadSlope * x1 + loadHalf * x2;
    const leak_C = h * at.leak_A + at.leakSlope * x1 + at.leakHalf * x2;
    const bleed_C = h * at.bleed_A + at.bleedSlope * x1;
    const standby_C = h * at.standby_A + at.standbySlope * x1;
    this.in_C = h * in_A + inSlope * x1 + inHalf * x2;
    this.out_C = load_C + leak_C + bleed_C + standby_C;

    // Products of two expansions, to second order.
    const drop = at.junction_V + diode_ohm * in_A;
    const dropSlope = at.junctionSlope + diode_ohm * inSlope;
    const dropHalf = at.junctionHalf + diode_ohm * inHalf;
    this.diode_J =
      h * in_A * drop +
      x1 * (in_A * dropSlope + inSlope * drop) +
      x2 * (in_A * dropHalf + inSlope * dropSlope + inHalf * drop);
    this.cell_J =
      this.diode_J +
      h * in_A * terminal_V +
      x1 * (in_A * terminalSlope + inSlope * terminal_V) +
      x2 * (in_A * terminalHalf + inSlope * terminalSlope + inHalf * terminal_V);
    const through = in_A - load_A;
    const throughSlope = inSlope - loadSlope;
    this.resistance_J =
      capacitor_ohm *
      (h * through * through +
        x1 * 2 * through * throughSlope +
        x2 * (throughSlope * throughSlope + 2 * through * (inHalf - loadHalf)));
    this.leakage_J = main_V * leak_C + at.leak_A * x1 + at.leakSlope * x2;
    this.limiter_J = main_V * bleed_C + at.bleed_A * x1 + at.bleedSlope * x2;
    this.standby_J = main_V * standby_C + at.standby_A * x1 + at.standbySlope * x2;
    this.load_J =
      load_A === 0
        ? 0
        : h * terminal_V * load_A +
          x1 * (terminal_V * loadSlope + terminalSlope * load_A) +
          x2 * (terminalSlope * loadSlope + terminal_V * loadHalf + terminalHalf * load_A);
  }
}
