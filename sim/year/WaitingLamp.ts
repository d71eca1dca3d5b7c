import type { LampStepper } from './LampStepper.ts';

/** The lamp that waited dark through a lit time, as high as it can have stood; see `YearInput.favourable`. */
export class WaitingLamp {
  private readonly lamp: LampStepper;
  private main_V = 0;
  private one_V = 0;
  private two_V = 0;

  constructor(lamp: LampStepper) {
    this.lamp = lamp;
  }

  /** A lit time begins. out: whether the lamp is one that can light */
  begin(): boolean {
    const { lamp } = this;
    const { delayed } = lamp;
    const { cutoff_V, restart_V } = lamp.lamp.driver;
    this.one_V = delayed.one.voltage_V;
    this.two_V = delayed.two.voltage_V;
    // Its delayed branches may lift it, but at its restart it waits no longer.
    this.main_V = Math.min(Math.max(lamp.main_V, this.one_V, this.two_V), restart_V);
    if (lamp.main_V <= cutoff_V) return false;
    lamp.stopped = false;
    return true;
  }

  /** Nothing but light charges it, by no more than the light current. */
  charge(step_s: number): void {
    const { lamp } = this;
    this.main_V += (step_s * lamp.curve.photocurrent_A) / lamp.c0;
  }

  /** The lit time ends: the lamp stands no lower than this one. */
  end(): void {
    const { lamp, main_V } = this;
    const { one, two } = lamp.delayed;
    lamp.main_V = Math.max(lamp.main_V, main_V);
    one.voltage_V = Math.max(one.voltage_V, this.one_V, main_V);
    two.voltage_V = Math.max(two.voltage_V, this.two_V, main_V);
  }
}
