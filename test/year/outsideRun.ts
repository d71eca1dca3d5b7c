import type { LampParams } from '../../sim/lamp/params.ts';
import { PLAN } from '../../sim/year/NightPlan.ts';
import type { YearInput } from '../../sim/year/YearRun.ts';
import { type Branches, OutsideCircuit } from './OutsideCircuit.ts';
import { odexSolver } from './odexSolver.ts';

/** Instants are met to this. */
const EVENT_S = 1e-4;
const FIRST_STEP_S = 0.02;

/** What an outside integration says of hours and nights. Seconds count from the start of the record. */
export interface OutsideRun {
  /** Capacitor voltage at the end of each whole hour; NaN of others. */
  hourEnd_V: Float64Array;
  /** Promised time with the promised light, and without it, a value a night. */
  lit_s: Float64Array;
  short_s: Float64Array;
  stops_s: number[];
  restarts_s: number[];
  /** Capacitor voltages at even times, where they were asked for. */
  read_V: number[];
  evaluations: number;
}

/** Light on the cell by the hour in place of what the loop makes of it. */
export type OutsideInput = Omit<YearInput, 'hours'> & { light_W_m2: Float64Array };

/**
 * A lamp through the hours and instants of a plan by the library odex on the circuit written a second time
 * (`OutsideCircuit`): from instant to instant, split again where the driver stops or restarts, a boost or a limiter comes
 * to its kink, and where the light crosses the promised level. Corners that hardly bend the path, of an LED's or a
 * driver's table and of a switch, are met by the library's own short steps.
 *
 * in: lamp; input, what the loop runs over, its light as it is; start, volts of all branches, or one for all; tolerance_V of a step of the
 *   library; read_s, seconds between readings
 */
export function outsideRun(
  lamp: LampParams,
  input: OutsideInput,
  start: Branches | number,
  tolerance_V = 1e-9,
  read_s = Number.POSITIVE_INFINITY,
): OutsideRun {
  return new Course(lamp, input, start, tolerance_V).run(read_s);
}

type Change = 'stop' | 'restart' | 'level' | 'side' | 'limiter';

class Course {
  private readonly lamp: LampParams;
  private readonly input: OutsideInput;
  private readonly circuit: OutsideCircuit;
  private readonly solver: ReturnType<typeof odexSolver>;
  private readonly found: OutsideRun;
  private state: Branches;
  private now_s = 0;
  private night = 0;
  private promised = false;
  private latched = false;
  /** Whether the light stands at or above the promised level, and the terminals at or above the boundary. */
  private bright = false;
  private beyond = false;

  constructor(lamp: LampParams, input: OutsideInput, start: Branches | number, tolerance_V: number) {
    this.lamp = lamp;
    this.input = input;
    this.circuit = new OutsideCircuit(lamp);
    this.solver = odexSolver(3, tolerance_V);
    this.state = typeof start === 'number' ? [start, start, start] : [...start];
    this.circuit.limiting = this.state[0] > lamp.capacitor.limiter_V;
    this.found = {
      hourEnd_V: new Float64Array(input.count).fill(Number.NaN),
      lit_s: new Float64Array(input.plan.nights),
      short_s: new Float64Array(input.plan.nights),
      stops_s: [],
      restarts_s: [],
      read_V: [],
      evaluations: 0,
    };
  }

  run(read_s: number): OutsideRun {
    const { input, circuit, found } = this;
    const { plan, light_W_m2, jar_degC, count } = input;
    this.now_s = plan.from_s;
    let next = 0;
    let nextRead_s = read_s;
    for (let hour = Math.floor(plan.from_s / 3600); hour * 3600 < plan.to_s; hour++) {
      circuit.conditions(light_W_m2[hour % count]!, jar_degC[hour % count]!);
      const end_s = Math.min((hour + 1) * 3600, plan.to_s);
      while (next < plan.count && plan.at_s[next]! < end_s) {
        this.advanceTo(plan.at_s[next]!);
        this.follow(plan.what[next]!, plan.value[next]!, plan.glow[next]!);
        next++;
      }
      for (; nextRead_s <= end_s; nextRead_s += read_s) {
        this.advanceTo(nextRead_s);
        found.read_V.push(this.state[0]);
      }
      this.advanceTo(end_s);
      if (end_s === (hour + 1) * 3600) found.hourEnd_V[hour % count] = this.state[0];
    }
    found.evaluations = circuit.evaluations;
    return found;
  }

  private follow(what: number, value: number, glow: number): void {
    const { circuit, lamp } = this;
    const { restart_V, cutoff_V, restartNeedsDusk } = lamp.driver;
    if (what === PLAN.noon) this.night = value;
    if (what === PLAN.promise) this.promised = value === 1;
    if (what === PLAN.dusk) this.latched = false;
    const wasOff = circuit.glow === 0;
    if (what === PLAN.share) Object.assign(circuit, { duty: value, glow });
    if (what !== PLAN.dusk && what !== PLAN.share) return;
    const restarts = circuit.glow > 0 && (what === PLAN.dusk || wasOff);
    if (restarts && circuit.stopped && !this.latched && this.state[0] >= restart_V) circuit.stopped = false;
    this.settle(restarts);
    if (circuit.glow > 0 && !circuit.stopped && circuit.terminal_V <= cutoff_V) {
      circuit.stopped = true;
      this.latched = restartNeedsDusk;
      this.settle();
    }
  }

  /** Finds terminals and light after a change; a boost that begins takes the side that its resting terminals stand on. */
  private settle(begins = false): void {
    const { circuit, state } = this;
    if (begins) circuit.beyond = state[0] >= circuit.boundary_V;
    this.circuit.rates(this.state);
    this.bright = this.circuit.light_lm() >= this.input.leastLight_lm;
    this.beyond = this.circuit.beyond;
  }

  /** The change that a state lies beyond, if any; the circuit keeps its mode. */
  private changeAt(state: Branches): Change | undefined {
    const { circuit, lamp } = this;
    circuit.beyond = this.beyond;
    circuit.rates(state);
    const { terminal_V } = circuit;
    if (state[0] > lamp.capacitor.limiter_V !== circuit.limiting) return 'limiter';
    if (circuit.stopped) {
      return !this.latched && terminal_V >= lamp.driver.restart_V ? 'restart' : undefined;
    }
    const { watchesAlways, cutoff_V } = lamp.driver;
    if (terminal_V <= cutoff_V && (circuit.glow > 0 || watchesAlways)) return 'stop';
    if (circuit.glow === 0) return undefined;
    if (circuit.beyond !== this.beyond) return 'side';
    return circuit.light_lm() >= this.input.leastLight_lm === this.bright ? undefined : 'level';
  }

  private solve(from: Branches, duration_s: number, watched: boolean) {
    const { solver, circuit, beyond } = this;
    const step = { from_s: 0, to_s: 0, from, to: from };
    let change: Change | undefined;
    // Long first steps of a stiff circuit land where it is calm, and are believed.
    solver.initialStepSize = Math.min(FIRST_STEP_S, duration_s / 4);
    const { y, outcome } = solver.solve(
      (_, state) => {
        circuit.beyond = beyond;
        return circuit.rates(state as Branches);
      },
      0,
      from,
      duration_s,
      (_, from_s, to_s, state) => {
        step.from_s = from_s;
        step.from = step.to;
        step.to_s = to_s;
        step.to = [...state] as Branches;
        if (watched && to_s > from_s) change = this.changeAt(step.to);
        return change === undefined ? undefined : false;
      },
    );
    if (outcome === 1) throw new Error('odex gives up');
    return { y: y as Branches, step, change };
  }

  private advanceTo(target_s: number): void {
    const { found, circuit, lamp } = this;
    while (target_s - this.now_s > 1e-7) {
      let { y, step, change } = this.solve(this.state, target_s - this.now_s, true);
      let taken_s = target_s - this.now_s;
      if (change !== undefined) {
        let low_s = 0;
        let high_s = step.to_s - step.from_s;
        y = step.to;
        while (high_s - low_s > EVENT_S) {
          const middle_s = (low_s + high_s) / 2;
          const tried = this.solve(step.from, middle_s, false).y;
          const there = this.changeAt(tried);
          if (there === undefined) low_s = middle_s;
          else {
            high_s = middle_s;
            y = tried;
            change = there;
          }
        }
        taken_s = step.from_s + high_s;
      }
      this.note(taken_s);
      this.state = y;
      this.now_s += taken_s;
      if (change === 'stop') {
        circuit.stopped = true;
        this.latched = lamp.driver.restartNeedsDusk;
        found.stops_s.push(this.now_s);
      } else if (change === 'restart') {
        circuit.stopped = false;
        found.restarts_s.push(this.now_s);
      }
      circuit.beyond = this.beyond;
      circuit.limiting = this.state[0] > lamp.capacitor.limiter_V;
      if (change !== undefined) this.settle(change === 'restart');
    }
    this.now_s = target_s;
  }

  private note(taken_s: number): void {
    const { found, circuit, night, promised } = this;
    if (!promised) return;
    const lit = circuit.glow > 0 && !circuit.stopped && this.bright;
    (lit ? found.lit_s : found.short_s)[night]! += taken_s;
  }
}
