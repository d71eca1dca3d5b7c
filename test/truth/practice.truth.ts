import { CellDiodeCircuit } from '../../sim/lamp/CellDiodeCircuit.ts';
import { capacitorEnergy_J } from '../../sim/lamp/capacitor/step.ts';
import { jarTemperatureInto } from '../../sim/lamp/jar/step.ts';
import { ledAtPower } from '../../sim/lamp/led/step.ts';
import { PARTS } from '../../sim/scenario/parts.ts';
import { type LampInput, makeLamp } from '../lamp/makeLamp.ts';
import { libraryLamp } from '../year/days.ts';
import { secondsToCutoff } from '../year/secondsToCutoff.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Facts of the trade';

/** A fact with the lamp it is computed from, so that a test can move what was put in. */
export interface Fact extends TruthCase {
  lamp: LampInput;
  of: (lamp: LampInput) => number;
}

/** A fact as a band; reported, never tuned to. The parts are those of the library, but for what the facts are said of. */
const fact = (
  what: string,
  unit: string,
  [low, high]: readonly [number, number],
  why: string,
  of: (lamp: LampInput) => number,
  lamp = library(),
): Fact => ({
  topic,
  what,
  unit,
  expected: (low + high) / 2,
  tolerance: (high - low) / 2,
  why,
  source: 'common practice, no source',
  status: 'common practice',
  reportOnly: true,
  lamp,
  of,
  compute: () => of(lamp),
});
/** A fact that the lamp gives back as it was put in. */
const input = (...given: Parameters<typeof fact>): Fact => ({ ...fact(...given), status: 'input' });
/** A band that was computed apart, for a cell of 2.45 V behind a Schottky diode. */
const apart = (...given: Parameters<typeof fact>): Fact => ({
  ...fact(...given),
  source: 'own calculation, made apart',
  status: 'derived here',
});

const { capacitor: anyCapacitor, driver: anyDriver } = libraryLamp();
/** The capacitor that the facts are said of. */
const said = { ...anyCapacitor, capacitance_F: 500, esr_mohm: 5, leakage_uA: 1000 };
/** Its driver, by the inductance. */
const boost = (inductance_uH: number) =>
  ({ ...anyDriver, inductance_uH, frequency_kHz: 8 }) as LampInput['driver'];

function library(changes: Partial<LampInput> = {}): LampInput {
  return libraryLamp({
    capacitor: said,
    driver: boost(800),
    jar: { fixed_degC: 25 },
    schedule: { on: 'dusk', until: 'dawn' },
    ...changes,
  });
}

const energy_J = (lamp: LampInput, below_V: number) => capacitorEnergy_J(makeLamp(lamp).capacitor, below_V);
const share = (lamp: LampInput, below_V: number) => (100 * energy_J(lamp, below_V)) / energy_J(lamp, 2.7);

/** Cell and diode in a light at 25 degC. */
const inLight = (lamp: LampInput, light_W_m2: number) => {
  const { cell, diode } = makeLamp(lamp);
  const path = new CellDiodeCircuit(cell, diode);
  path.setConditions(light_W_m2, 25);
  return path;
};
const reachable_V = (lamp: LampInput, light_W_m2: number, shareOfLight: number) => {
  const path = inLight(lamp, light_W_m2);
  return path.reachable_V(shareOfLight * path.photocurrent_A);
};

/** Energy into a capacitor charged from 0.9 to 1.8 V in steady light, over what the best point would have given meanwhile. */
function takenShare(lamp: LampInput, light_W_m2: number): number {
  const path = inLight(lamp, light_W_m2);
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

function jarInSummer_degC(lamp: LampInput): number {
  const hours = 12;
  const inside = new Float64Array(hours);
  const { jar } = makeLamp(lamp);
  jarTemperatureInto(inside, new Float64Array(hours).fill(30), new Float64Array(hours).fill(1000), jar);
  return inside[hours - 1]!;
}

/** Milliamperes at which the LED gives most lumens a watt, by trisection: it gives fewer on both sides. */
function bestCurrent_mA(lamp: LampInput): number {
  const { led } = makeLamp(lamp);
  const efficacy = (power_W: number) => ledAtPower(led, power_W).light_lm / power_W;
  let [low_W, high_W] = [1e-3, 0.08];
  while (high_W - low_W > 1e-9) {
    const third = (high_W - low_W) / 3;
    if (efficacy(low_W + third) <= efficacy(high_W - third)) low_W += third;
    else high_W -= third;
  }
  return ledAtPower(led, low_W).current_A * 1000;
}

const litHours = (lamp: LampInput) => secondsToCutoff(makeLamp(lamp), 2.2) / 3600;

const IDEAL = 'said of an ideal capacitance';
const SCHOTTKY = 'cell of 2.45 V, Schottky diode';

export const cases: Fact[] = [
  fact('energy of a 2.7 V part below a cut-off of 0.9 V', '%', [10.5, 11.5], IDEAL, (lamp) =>
    share(lamp, 0.9),
  ),
  fact('energy of a 2.7 V part above 2.2 V', '%', [33.5, 34.5], IDEAL, (lamp) => 100 - share(lamp, 2.2)),
  fact(
    'energy of a 2.7 V part from 2.2 to 0.9 V',
    '%',
    [54, 55.4],
    IDEAL,
    (lamp) => share(lamp, 2.2) - share(lamp, 0.9),
  ),
  fact(
    '500 F from 2.2 to 0.9 V',
    'J',
    [1000, 1014],
    IDEAL,
    (lamp) => energy_J(lamp, 2.2) - energy_J(lamp, 0.9),
  ),
  fact(
    'reachable voltage in 1000 W/m2 where 5 percent of the light still flows',
    'V',
    [2.1, 2.25],
    SCHOTTKY,
    (lamp) => reachable_V(lamp, 1000, 0.05),
  ),
  apart(
    'reachable voltage in 60 W/m2 where 5 percent of the light still flows',
    'V',
    [1.8, 2],
    SCHOTTKY,
    (lamp) => reachable_V(lamp, 60, 0.05),
  ),
  apart(
    'reachable voltage in 10 W/m2 where 5 percent of the light still flows',
    'V',
    [1.3, 1.5],
    SCHOTTKY,
    (lamp) => reachable_V(lamp, 10, 0.05),
  ),
  apart('reachable voltage in 1000 W/m2 under 20 uA', 'V', [2.33, 2.37], SCHOTTKY, (lamp) =>
    inLight(lamp, 1000).reachable_V(20e-6),
  ),
  ...[300, 600, 1000].map((light) =>
    fact(
      `energy taken from 0.9 to 1.8 V over best-point energy, ${light} W/m2`,
      '1',
      [0.65, 0.85],
      'about 75 percent is commonly expected',
      (lamp) => takenShare(lamp, light),
    ),
  ),
  fact(
    'lit time from 2.2 V to the cut-off without light, 800 uH',
    'h',
    [15, 20],
    'one cell, one capacitor',
    litHours,
  ),
  fact(
    'lit time from 2.2 V to the cut-off without light, 400 uH, two capacitors',
    'h',
    [15, 20],
    'two cells, two capacitors, twice the light',
    litHours,
    library({ capacitor: { ...said, parallel: 2 }, driver: boost(400) }),
  ),
  input(
    'share of its draw that a boost driver makes into LED power, from 2 V',
    '%',
    [87, 93],
    'about 90 percent is commonly expected',
    (lamp) => {
      const { efficiency, efficiencyAt_V } = makeLamp(lamp).driver;
      return 100 * efficiency[efficiencyAt_V.indexOf(2)]!;
    },
  ),
  input(
    'current of most lumens a watt',
    'mA',
    [4.9, 6.1],
    'near 5 to 6 mA is commonly expected of white LEDs of this class',
    bestCurrent_mA,
  ),
  input(
    'air in a closed jar in summer sun of 1000 W/m2 and 30 degC',
    'degC',
    [45, 55],
    'about 50 degC is commonly expected',
    jarInSummer_degC,
    libraryLamp({ jar: PARTS.jar['small-jar']!.values }),
  ),
];
