/**
 * The circuit about the middle of a time step: every quantity as value, slope and half bend against the capacitor's inner
 * voltage, so that at `main_V + x` it is value + slope x + half x^2. Plain fields, set by LampStepper.
 */
export class Expansion {
  main_V = 0;
  /** Capacitor's terminals, which slope a little where it has a series resistance. */
  terminal_V = 0;
  terminalSlope = 1;
  terminalHalf = 0;
  /** Blocking diode's junction. */
  junction_V = 0;
  junctionSlope = 0;
  junctionHalf = 0;
  /** Current from the cell. */
  in_A = 0;
  inSlope = 0;
  inHalf = 0;
  /** Current into the driver. */
  load_A = 0;
  loadSlope = 0;
  loadHalf = 0;
  leak_A = 0;
  leakSlope = 0;
  leakHalf = 0;
  /** Balancing and limiter. */
  bleed_A = 0;
  bleedSlope = 0;
  standby_A = 0;
  standbySlope = 0;
  /** dQ/dV of the main branch. */
  farad = 1;

  /** Half bend of all that flows into the main branch. */
  netHalf(): number {
    return this.inHalf - this.loadHalf - this.leakHalf;
  }
}
