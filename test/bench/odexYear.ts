import type { LampParams } from '../../sim/lamp/params.ts';
import { type NightPlan, PLAN } from '../../sim/year/NightPlan.ts';
import { odexSolver } from './odexSolver.ts';
import { PlainCircuit } from './PlainCircuit.ts';

export interface OdexRun {
  hourEnd_V: Float64Array;
  evaluations: number;
  events: number;
}

/**
 * The same lamp through the same hours with the library odex: one call from instant to instant of the hours and the
 * plan, split again where the driver stops, restarts or leaves its formula. No ledger, no losses, no light.
 *
 * in: lamp; light and temperature by the hour; plan; start_V; tolerance of the library, volts; hours to run
 */
export function odexYear(
  lamp: LampParams,
  light_W_m2: Float64Array,
  jar_degC: Float64Array,
  plan: NightPlan,
  start_V: number,
  tolerance: number,
  hours: number,
): OdexRun {
  const circuit = new PlainCircuit(lamp);
  const solver = odexSolver(3, tolerance);
  const derivative = (_: number, y: number[]) => circuit.rates(y);
  const { cutoff_V, restart_V, law } = lamp.driver;
  const beyondShare = law.dcmBoundary_V(1);
  const run: OdexRun = { hourEnd_V: new Float64Array(hours), evaluations: 0, events: 0 };
  let state = [start_V, start_V, start_V];
  let next = 0;

  const solve = (from: number[], duration_s: number) => {
    solver.initialStepSize = Math.min(60, duration_s / 4);
    const { y, outcome } = solver.solve(derivative, 0, from, duration_s);
    if (outcome !== 0) throw new Error(`odex gives up with outcome ${outcome}`);
    circuit.rates(y);
    return y;
  };
  /** How far the driver's terminals are beyond what changes its mode; above 0 once passed. */
  const past = () => {
    const terminal_V = circuit.terminal_V;
    if (circuit.stopped) return terminal_V - restart_V;
    if (circuit.share === 0) return -1;
    const dcmBoundary_V = beyondShare * circuit.output_V(terminal_V);
    const toEdge = circuit.beyond ? dcmBoundary_V - terminal_V : terminal_V - dcmBoundary_V;
    return Math.max(cutoff_V - terminal_V, beyondShare < 1 ? toEdge : -1);
  };
  const passNow = () => {
    run.events++;
    if (circuit.stopped) circuit.stopped = false;
    else if (circuit.terminal_V <= cutoff_V + 1e-9) circuit.stopped = true;
    else circuit.setBeyond(!circuit.beyond);
  };
  const advance = (duration_s: number) => {
    let left_s = duration_s;
    while (left_s > 1e-6) {
      const whole = solve(state, left_s);
      if (past() <= 0) {
        state = whole;
        return;
      }
      let low_s = 0;
      let high_s = left_s;
      while (high_s - low_s > 0.01) {
        const middle_s = (low_s + high_s) / 2;
        solve(state, middle_s);
        if (past() > 0) high_s = middle_s;
        else low_s = middle_s;
      }
      state = solve(state, high_s);
      left_s -= high_s;
      passNow();
    }
  };

  for (let hour = 0; hour < hours; hour++) {
    circuit.conditions(light_W_m2[hour]!, jar_degC[hour]!);
    let now_s = hour * 3600;
    const end_s = now_s + 3600;
    while (next < plan.count && plan.at_s[next]! < end_s) {
      const at_s = plan.at_s[next]!;
      advance(at_s - now_s);
      now_s = Math.max(now_s, at_s);
      if (plan.what[next] === PLAN.share) {
        circuit.share = plan.value[next]!;
        circuit.rates(state);
        if (circuit.share > 0 && circuit.stopped && circuit.terminal_V >= restart_V) circuit.stopped = false;
        circuit.setBeyond(
          beyondShare < 1 && circuit.terminal_V >= beyondShare * circuit.output_V(circuit.terminal_V),
        );
      }
      next++;
    }
    advance(end_s - now_s);
    run.hourEnd_V[hour] = state[0]!;
  }
  run.evaluations = circuit.evaluations;
  return run;
}
