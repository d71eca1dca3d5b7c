import { FULL_SUN_W_M2, KELVIN_AT_ZERO_CELSIUS, THERMAL_VOLTAGE_V_PER_K } from '../common/constants.ts';
import { CellDiodeCircuit } from '../lamp/CellDiodeCircuit.ts';
import { benchVoltages } from '../lamp/capacitor/step.ts';
import { diodeSaturation_A } from '../lamp/diode/step.ts';
import { LoadDraw } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';
import type { BenchCheck } from './BenchRows.ts';
import { restingVoltage } from './restingVoltage.ts';
import { steadyReachable } from './steadyReachable.ts';
import { type BenchLamp, toleranceBand } from './toleranceBand.ts';

/** A bright window without sun on it: common practice, no source. */
const WINDOW_W_M2 = 60;
const BENCH_DEG_C = 20;
/** Ammeter on its range of 10 A, leads included: from memory. */
const AMMETER_OHM = 0.02;
const SUPPLY_V = 5;
/** A day of sun before the rest, so that the delayed charge is most of the way in. */
const HELD_H = 8;
const NIGHT_H = 14;
const DISCHARGE_S = 1800;
/** The series of preferred values with 12 steps a decade. */
const E12 = [1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2] as const;

/**
 * What to measure at a lamp before its lid is closed, with which load, and what good parts show.
 *
 * in: lamp, as the scenario states or its readings settle it
 * out: checks in the order of the bench: cell, diode, capacitor, driver, the whole lamp
 * valid: bare cell and everything at 20 degC; bands by the tolerances of `toleranceBand`
 * source: IEC62391 (discharge from 0.8 to 0.4 of the rated voltage)
 */
export function benchChecks(lamp: LampParams): BenchCheck[] {
  return [
    ...cellChecks(lamp),
    ...diodeChecks(lamp),
    dischargeCheck(lamp),
    ...driverChecks(lamp),
    ...wholeChecks(lamp),
  ];
}

function cellChecks(lamp: LampParams): BenchCheck[] {
  const warmer = Math.abs(lamp.cell.voltageTempco_V_per_K * 10 * 1000).toFixed(0);
  const shortCircuit = (light_W_m2: number) => (of: BenchLamp) => shortCircuit_A(of, light_W_m2) * 1000;
  const open = (light_W_m2: number) => (of: BenchLamp) => pathIn(of, light_W_m2).openCircuit_V;
  return [
    {
      part: 'cell',
      what: 'short circuit in full sun',
      how: `bare cell square to a clear sun (${FULL_SUN_W_M2} W/m2), ammeter alone across it (10 A range)`,
      unit: 'mA',
      ...toleranceBand(lamp, shortCircuit(FULL_SUN_W_M2)),
    },
    {
      part: 'cell',
      what: 'open circuit in full sun',
      how: `the same light, voltmeter alone, cell still cool; ${warmer} mV less for each 10 K warmer than ${BENCH_DEG_C} degC`,
      unit: 'V',
      ...toleranceBand(lamp, open(FULL_SUN_W_M2)),
    },
    {
      part: 'cell',
      what: 'short circuit by window light',
      how: `bright window, no sun on the cell; turn the cell until the ammeter shows ${Number((WINDOW_W_M2 / FULL_SUN_W_M2).toPrecision(1))} of what it showed in full sun: ${WINDOW_W_M2} W/m2`,
      unit: 'mA',
      ...toleranceBand(lamp, shortCircuit(WINDOW_W_M2)),
    },
    {
      part: 'cell',
      what: 'open circuit by window light',
      how: 'the same light and place, voltmeter alone; much less is a cell with a poor shunt',
      unit: 'V',
      ...toleranceBand(lamp, open(WINDOW_W_M2)),
    },
  ];
}

function diodeChecks(lamp: LampParams): BenchCheck[] {
  const stated = { lamp, light: 1, driverCurrent: 1, driverVoltage: 1, resistor: 1 };
  const window_A = shortCircuit_A(stated, WINDOW_W_M2);
  return [window_A, window_A / 10].map((current_A) => {
    const load_ohm = preferred(SUPPLY_V / current_A);
    const drop = ({ lamp: { diode }, resistor }: BenchLamp) => {
      let drop_V = 0;
      // Each round shrinks the miss by the slope of the diode against the resistor.
      for (let round = 0; round < 50; round++)
        drop_V = drop_V + 0.5 * (diodeDrop_V(diode, (SUPPLY_V - drop_V) / (load_ohm * resistor)) - drop_V);
      return drop_V;
    };
    const mA = ((SUPPLY_V - drop(stated)) / load_ohm) * 1000;
    return {
      part: 'diode',
      what: `forward drop at ${Number(mA.toPrecision(2))} mA`,
      how: `${SUPPLY_V} V through ${ohms(load_ohm)} into the diode, voltmeter across the diode`,
      unit: 'V',
      ...toleranceBand(lamp, drop),
    };
  });
}

function dischargeCheck(lamp: LampParams): BenchCheck {
  const { capacitor } = lamp;
  const from_V = Math.min(0.8 * capacitor.rated_V, capacitor.limiter_V);
  const to_V = 0.5 * from_V;
  const whole_F = capacitor.capacitance_F + 0.6 * capacitor.rise_F_V * capacitor.rated_V;
  const load_ohm = preferred(DISCHARGE_S / (whole_F * Math.LN2));
  const watt = from_V ** 2 / load_ohm;
  const minutes = (of: BenchLamp) => {
    const bank = of.lamp.capacitor;
    const through_ohm = load_ohm * of.resistor;
    const loaded_ohm = 1 / (1 / through_ohm + bank.balancing_S);
    const [quick, delayed] = bank.delayed;
    const constant_s =
      loaded_ohm *
      (bank.capacitance_F + bank.rise_F_V * from_V + quick.capacitance_F + delayed.capacitance_F);
    const times_s = Array.from({ length: 301 }, (_, k) => (k / 100) * constant_s);
    const shown = benchVoltages(bank, {
      start_V: from_V,
      held_h: 0.5,
      load_ohm: loaded_ohm,
      capacitor_degC: BENCH_DEG_C,
      times_s,
    });
    const after = shown.findIndex((voltage_V) => voltage_V <= to_V);
    const [high_V, low_V] = [shown[after - 1]!, shown[after]!];
    return (
      (times_s[after - 1]! + ((high_V - to_V) / (high_V - low_V)) * (times_s[after]! - times_s[after - 1]!)) /
      60
    );
  };
  return {
    part: 'capacitor',
    what: `discharge from ${from_V.toFixed(2)} V to ${to_V.toFixed(2)} V`,
    how: `whole bank alone, held half an hour at ${from_V.toFixed(2)} V by a supply with a current limit, then ${ohms(load_ohm)} across it (at least ${Number((2 * watt).toPrecision(2))} W), stopwatch`,
    unit: 'min',
    ...toleranceBand(lamp, minutes),
  };
}

function driverChecks(lamp: LampParams): BenchCheck[] {
  const { driver, capacitor } = lamp;
  const most_V = Math.min(steadyReachable(lamp, FULL_SUN_W_M2, BENCH_DEG_C), capacitor.rated_V);
  const least_V = driver.cutoff_V + 0.05 + 0.1 * (most_V - driver.cutoff_V);
  const at = [most_V, (most_V + least_V) / 2, least_V].map((v) => Math.floor(v * 20) / 20);
  const lit = at.flatMap((capacitor_V): BenchCheck[] => [
    {
      part: 'driver',
      what: `current drawn at ${capacitor_V.toFixed(2)} V`,
      how: 'LED on; bench supply in place of the capacitor, 1000 uF across it, ammeter in its lead; voltage read at the driver',
      unit: 'mA',
      ...toleranceBand(lamp, (of) => drawn(of.lamp, capacitor_V).supply_mA * of.driverCurrent),
    },
    {
      part: 'driver',
      what: `LED current at ${capacitor_V.toFixed(2)} V`,
      how: '1 ohm in the lead of the LED, millivolts across it are milliamperes, the mean of them',
      unit: 'mA',
      ...toleranceBand(lamp, (of) => drawn(of.lamp, capacitor_V).led_mA * of.driverCurrent),
    },
  ]);
  const voltage = (what: string, how: string, value_V: number): BenchCheck => ({
    part: 'driver',
    what,
    how,
    unit: 'V',
    ...toleranceBand(lamp, (of) => value_V * of.driverVoltage),
  });
  return [
    ...lit,
    ...(driver.cutoff_V > 0
      ? [voltage('LED goes out at', 'turn the supply down slowly, LED on', driver.cutoff_V)]
      : []),
    voltage('LED comes back at', 'turn the supply up again slowly', driver.restart_V),
    {
      part: 'driver',
      what: `standby at ${at[1]!.toFixed(2)} V`,
      how: 'LED off (cell in light, or switch off); 1 kohm in the supply lead, millivolts across it are microamperes',
      unit: 'uA',
      ...toleranceBand(lamp, (of) => of.lamp.driver.standby_A * 1e6),
    },
  ];
}

function wholeChecks(lamp: LampParams): BenchCheck[] {
  const reachable = (light_W_m2: number) => (of: BenchLamp) =>
    steadyReachable(of.lamp, light_W_m2 * of.light, BENCH_DEG_C);
  const top_V = Math.min(steadyReachable(lamp, FULL_SUN_W_M2, BENCH_DEG_C), lamp.capacitor.rated_V);
  const rest = (hours: number) => (of: BenchLamp) =>
    restingVoltage(of.lamp, { from_V: top_V, held_h: HELD_H, hours, temperature_degC: BENCH_DEG_C });
  const start = `capacitor held ${HELD_H} h at ${top_V.toFixed(2)} V; then cell covered, LED off, nothing else connected`;
  return [
    {
      part: 'whole lamp',
      what: 'reachable voltage by window light',
      how: `LED off, light as for the cell (${WINDOW_W_M2} W/m2); bring the capacitor near it with a supply, take that off and wait until the voltage stands still`,
      unit: 'V',
      ...toleranceBand(lamp, reachable(WINDOW_W_M2)),
    },
    {
      part: 'whole lamp',
      what: 'reachable voltage in full sun',
      how: `the same in the sun, everything at ${BENCH_DEG_C} degC; stop at ${lamp.capacitor.rated_V.toFixed(2)} V, the rated voltage, whatever comes`,
      unit: 'V',
      ...toleranceBand(lamp, reachable(FULL_SUN_W_M2)),
    },
    {
      part: 'whole lamp',
      what: `after one night (${NIGHT_H} h) at rest`,
      how: start,
      unit: 'V',
      ...toleranceBand(lamp, rest(NIGHT_H)),
    },
    {
      part: 'whole lamp',
      what: 'after three days at rest',
      how: 'the same, left alone; a capacitor that falls further leaks',
      unit: 'V',
      ...toleranceBand(lamp, rest(72)),
    },
  ];
}

function pathIn({ lamp, light }: BenchLamp, light_W_m2: number): CellDiodeCircuit {
  const meter: LampParams['diode'] = {
    ...lamp.diode,
    kind: 'switch',
    on_ohm: AMMETER_OHM,
    series_ohm: 0,
    leak_S: 0,
  };
  const path = new CellDiodeCircuit(lamp.cell, meter);
  path.setConditions(light_W_m2 * light, BENCH_DEG_C);
  return path;
}

/** Through the ammeter, which stands where the diode would. */
function shortCircuit_A(of: BenchLamp, light_W_m2: number): number {
  return pathIn(of, light_W_m2).solve(0);
}

function diodeDrop_V(diode: LampParams['diode'], current_A: number): number {
  if (diode.kind === 'switch') return current_A * (diode.on_ohm + diode.series_ohm);
  const thermal_V = diode.ideality * THERMAL_VOLTAGE_V_PER_K * (BENCH_DEG_C + KELVIN_AT_ZERO_CELSIUS);
  return (
    thermal_V * Math.log1p(current_A / diodeSaturation_A(diode, BENCH_DEG_C)) + current_A * diode.series_ohm
  );
}

/** What the lit driver draws and gives; by its formula too where no limit is stated. */
function drawn({ load, driver }: LampParams, capacitor_V: number): { supply_mA: number; led_mA: number } {
  const draw = new LoadDraw(load);
  const limit_A = driver.law.limited?.current_A(capacitor_V, 0) ?? 0;
  draw.setAbove(capacitor_V >= load.dcmBoundary_V && !Number.isNaN(limit_A));
  draw.at_V(capacitor_V, 1);
  return { supply_mA: draw.current_A * 1000, led_mA: draw.at(draw.columns.led_A, capacitor_V) * 1000 };
}

function preferred(ohm: number): number {
  const decade = 10 ** Math.floor(Math.log10(ohm));
  const near = [...E12, 10].reduce((best, step) =>
    Math.abs(Math.log(ohm / (step * decade))) < Math.abs(Math.log(ohm / (best * decade))) ? step : best,
  );
  return Number((near * decade).toPrecision(2));
}

function ohms(ohm: number): string {
  return ohm >= 1000 ? `${ohm / 1000} kohm` : `${ohm} ohm`;
}
