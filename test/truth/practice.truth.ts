import { CellDiodeCircuit } from '../../sim/lamp/CellDiodeCircuit.ts';
import { capacitorEnergy_J } from '../../sim/lamp/capacitor/step.ts';
import { jarTemperatureInto } from '../../sim/lamp/jar/step.ts';
import { ledAtPower } from '../../sim/lamp/led/step.ts';
import { type LampInput, makeLamp } from '../lamp/makeLamp.ts';
import { libraryLamp } from '../year/days.ts';
import { secondsToCutoff } from '../year/secondsToCutoff.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Facts of the trade';

/** A fact as a band; reported, never tuned to. The parts are those of the library, but for what the facts are said of. */
const fact = (
  what: string,
  unit: string,
  low: number,
  high: number,
  why: string,
  compute: () => number,
): TruthCase => ({
  topic,
  what,
  unit,
  expected: (low + high) / 2,
  tolerance: (high - low) / 2,
  why,
  source: 'common practice, no source',
  status: 'practice',
  compute,
  reportOnly: true,
});

const { capacitor: anyCapacitor, driver: anyDriver } = libraryLamp();
/** The capacitor that the facts are said of. */
const said = { ...anyCapacitor, capacitance_F: 500, esr_mohm: 5, leakage_uA: 1000 };
/** Its driver, by the inductance. */
const boost = (inductance_uH: number) =>
  ({ ...anyDriver, inductance_uH, frequency_kHz: 8 }) as LampInput['driver'];

const library = (changes: Partial<LampInput> = {}) =>
  makeLamp(
    libraryLamp({
      capacitor: said,
      driver: boost(800),
      jar: { fixed_degC: 25 },
      schedule: { on: 'dusk', until: 'dawn' },
      ...changes,
    }),
  );

const share = (below_V: number) => {
  const { capacitor } = library();
  return (100 * capacitorEnergy_J(capacitor, below_V)) / capacitorEnergy_J(capacitor, 2.7);
};

/** Library cell and diode in a light at 25 degC. */
const inLight = (light_W_m2: number) => {
  const { cell, diode } = library();
  const path = new CellDiodeCircuit(cell, diode);
  path.setConditions(light_W_m2, 25);
  return path;
};
const reachable_V = (light_W_m2: number, shareOfLight: number) => {
  const path = inLight(light_W_m2);
  return path.reachable_V(shareOfLight * path.photocurrent_A);
};

/** Energy into a capacitor charged from 0.9 to 1.8 V in steady light, over what the best point would have given meanwhile. */
function takenShare(light_W_m2: number): number {
  const path = inLight(light_W_m2);
  const steps = 900;
  const step_V = 0.9 / steps;
  let energy = 0;
  let time = 0;
  for (let k = 0; k < steps; k++) {
    const volts = 0.9 + (k + 0.5) * step_V;
    energy += volts * step_V;
    time += step_V / path.solve(volts);
  }
  return energy / (path.bestPower_W() * time);
}

function jarInSummer_degC(): number {
  const hours = 12;
  const inside = new Float64Array(hours);
  const { jar } = makeLamp(libraryLamp());
  jarTemperatureInto(inside, new Float64Array(hours).fill(30), new Float64Array(hours).fill(1000), jar);
  return inside[hours - 1]!;
}

/** Milliamperes at which the library's LED gives most lumens a watt. */
function bestCurrent_mA(): number {
  const { led } = library();
  let best = { efficacy: 0, current_mA: 0 };
  for (let power_W = 1e-3; power_W < 0.1; power_W += 1e-4) {
    const state = ledAtPower(led, power_W);
    const efficacy = state.light_lm / power_W;
    if (efficacy > best.efficacy) best = { efficacy, current_mA: state.current_A * 1000 };
  }
  return best.current_mA;
}

const litHours = (changes: Partial<LampInput> = {}) => secondsToCutoff(library(changes), 2.2) / 3600;

export const cases: TruthCase[] = [
  fact(
    'energy of a 2.7 V part below a cut-off of 0.9 V',
    '%',
    10.5,
    11.5,
    'said of an ideal capacitance',
    () => share(0.9),
  ),
  fact(
    'energy of a 2.7 V part above 2.2 V',
    '%',
    33.5,
    34.5,
    'said of an ideal capacitance',
    () => 100 - share(2.2),
  ),
  fact(
    'energy of a 2.7 V part from 2.2 to 0.9 V',
    '%',
    54,
    55.4,
    'said of an ideal capacitance',
    () => share(2.2) - share(0.9),
  ),
  fact(
    '500 F from 2.2 to 0.9 V',
    'J',
    1000,
    1014,
    'said of an ideal capacitance',
    () => capacitorEnergy_J(library().capacitor, 2.2) - capacitorEnergy_J(library().capacitor, 0.9),
  ),
  fact(
    'reachable voltage in 1000 W/m2 where 5 percent of the light still flows',
    'V',
    2.1,
    2.25,
    'cell of 2.45 V, Schottky diode',
    () => reachable_V(1000, 0.05),
  ),
  fact(
    'reachable voltage in 60 W/m2 where 5 percent of the light still flows',
    'V',
    1.8,
    2,
    'cell of 2.45 V, Schottky diode',
    () => reachable_V(60, 0.05),
  ),
  fact(
    'reachable voltage in 10 W/m2 where 5 percent of the light still flows',
    'V',
    1.3,
    1.5,
    'cell of 2.45 V, Schottky diode',
    () => reachable_V(10, 0.05),
  ),
  fact('reachable voltage in 1000 W/m2 under 20 uA', 'V', 2.33, 2.37, 'cell of 2.45 V, Schottky diode', () =>
    inLight(1000).reachable_V(20e-6),
  ),
  ...[300, 600, 1000].map((light) =>
    fact(
      `energy taken from 0.9 to 1.8 V over best-point energy, ${light} W/m2`,
      '1',
      0.65,
      0.85,
      'about 75 percent is commonly expected',
      () => takenShare(light),
    ),
  ),
  fact(
    'lit time from 2.2 V to the cut-off without light, 800 uH',
    'h',
    15,
    20,
    'one cell, one capacitor',
    () => litHours(),
  ),
  fact(
    'lit time from 2.2 V to the cut-off without light, 400 uH, two capacitors',
    'h',
    15,
    20,
    'two cells, two capacitors, twice the light',
    () => litHours({ capacitor: { ...said, parallel: 2 }, driver: boost(400) }),
  ),
  fact(
    'share of its draw that a boost driver makes into LED power',
    '%',
    87,
    93,
    'about 90 percent is commonly expected',
    () => 100 * library().driver.efficiency[0]!,
  ),
  fact(
    'current of most lumens a watt',
    'mA',
    4.9,
    6.1,
    'near 5 to 6 mA is commonly expected of white LEDs of this class',
    bestCurrent_mA,
  ),
  fact(
    'air in a closed jar in summer sun of 1000 W/m2 and 30 degC',
    'degC',
    45,
    55,
    'about 50 degC is commonly expected',
    jarInSummer_degC,
  ),
];
