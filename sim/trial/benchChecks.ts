import { FULL_SUN_W_M2, KELVIN_AT_ZERO_CELSIUS, THERMAL_VOLTAGE_V_PER_K } from '../common/constants.ts';
import { ChargingPath } from '../lamp/ChargingPath.ts';
import { diodeSaturation_A } from '../lamp/diode/step.ts';
import type { LampParams } from '../lamp/params.ts';
import { benchVoltages } from '../lamp/store/benchVoltages.ts';
import { LoadDraw } from '../year/LoadDraw.ts';
import type { BenchCheck } from './BenchRows.ts';
import { type BenchLamp, benchBand } from './benchBand.ts';
import { restingVoltage } from './restingVoltage.ts';
import { steadyCeiling } from './steadyCeiling.ts';

/** A bright window without sun on it: common practice, no source. */
const WINDOW_W_M2 = 60;
const BENCH_DEG_C = 20;
/** Ammeter on its range of 10 A, leads included: from memory. */
const AMMETER_OHM = 0.02;
const SUPPLY_V = 5;
/** A day of sun before the rest, so that the slow charge is most of the way in. */
const HELD_H = 8;
const NIGHT_H = 14;
const DISCHARGE_S = 1800;
/** The series of preferred values with 12 steps a decade. */
const E12 = [1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2] as const;

/**
 * What to measure at a lamp before its lid is closed, with which load, and what good parts show.
 *
 * in: lamp, as the scenario states or its readings settle it
 * out: checks in the order of the bench: cell, diode, store, driver, the whole lamp
 * valid: bare cell and everything at 20 degC; bands by the tolerances of `benchBand`
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
      ...benchBand(lamp, shortCircuit(FULL_SUN_W_M2)),
    },
    {
      part: 'cell',
      what: 'open circuit in full sun',
      how: `the same light, voltmeter alone, cell still cool; ${warmer} mV less for each 10 K warmer than ${BENCH_DEG_C} degC`,
      unit: 'V',
      ...benchBand(lamp, open(FULL_SUN_W_M2)),
    },
    {
      part: 'cell',
      what: 'short circuit by window light',
      how: `bright window, no sun on the cell; turn the cell until the ammeter shows ${Number((WINDOW_W_M2 / FULL_SUN_W_M2).toPrecision(1))} of what it showed in full sun: ${WINDOW_W_M2} W/m2`,
      unit: 'mA',
      ...benchBand(lamp, shortCircuit(WINDOW_W_M2)),
    },
    {
      part: 'cell',
      what: 'open circuit by window light',
      how: 'the same light and place, voltmeter alone; much less is a cell with a poor shunt',
      unit: 'V',
      ...benchBand(lamp, open(WINDOW_W_M2)),
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
      ...benchBand(lamp, drop),
    };
  });
}

function dischargeCheck(lamp: LampParams): BenchCheck {
  const { store } = lamp;
  const from_V = Math.min(0.8 * store.rated_V, store.limiter_V);
  const to_V = 0.5 * from_V;
  const whole_F = store.capacitance_F + 0.6 * store.rise_F_V * store.rated_V;
  const load_ohm = preferred(DISCHARGE_S / (whole_F * Math.LN2));
  const watt = from_V ** 2 / load_ohm;
  const minutes = (of: BenchLamp) => {
    const bank = of.lamp.store;
    const through_ohm = load_ohm * of.resistor;
    const loaded_ohm = 1 / (1 / through_ohm + bank.balancing_S);
    const [quick, slow] = bank.slow;
    const constant_s =
      loaded_ohm * (bank.capacitance_F + bank.rise_F_V * from_V + quick.capacitance_F + slow.capacitance_F);
    const times_s = Array.from({ length: 301 }, (_, k) => (k / 100) * constant_s);
    const shown = benchVoltages(bank, {
      start_V: from_V,
      held_h: 0.5,
      load_ohm: loaded_ohm,
      store_degC: BENCH_DEG_C,
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
    part: 'store',
    what: `discharge from ${from_V.toFixed(2)} V to ${to_V.toFixed(2)} V`,
    how: `whole bank alone, held half an hour at ${from_V.toFixed(2)} V by a supply with a current limit, then ${ohms(load_ohm)} across it (at least ${Number((2 * watt).toPrecision(2))} W), stopwatch`,
    unit: 'min',
    ...benchBand(lamp, minutes),
  };
}

function driverChecks(lamp: LampParams): BenchCheck[] {
  const { driver, store } = lamp;
  const most_V = Math.min(steadyCeiling(lamp, FULL_SUN_W_M2, BENCH_DEG_C), store.rated_V);
  const least_V = driver.floor_V + 0.05 + 0.1 * (most_V - driver.floor_V);
  const at = [most_V, (most_V + least_V) / 2, least_V].map((v) => Math.floor(v * 20) / 20);
  const lit = at.flatMap((store_V): BenchCheck[] => [
    {
      part: 'driver',
      what: `current drawn at ${store_V.toFixed(2)} V`,
      how: 'LED on; bench supply in place of the store, 1000 uF across it, ammeter in its lead; voltage read at the driver',
      unit: 'mA',
      ...benchBand(lamp, (of) => drawn(of.lamp, store_V).supply_mA * of.driverCurrent),
    },
    {
      part: 'driver',
      what: `LED current at ${store_V.toFixed(2)} V`,
      how: '1 ohm in the lead of the LED, millivolts across it are milliamperes, the mean of them',
      unit: 'mA',
      ...benchBand(lamp, (of) => drawn(of.lamp, store_V).led_mA * of.driverCurrent),
    },
  ]);
  const voltage = (what: string, how: string, value_V: number): BenchCheck => ({
    part: 'driver',
    what,
    how,
    unit: 'V',
    ...benchBand(lamp, (of) => value_V * of.driverVoltage),
  });
  return [
    ...lit,
    ...(driver.floor_V > 0
      ? [voltage('LED goes out at', 'turn the supply down slowly, LED on', driver.floor_V)]
      : []),
    voltage('LED comes back at', 'turn the supply up again slowly', driver.restart_V),
    {
      part: 'driver',
      what: `standby at ${at[1]!.toFixed(2)} V`,
      how: 'LED off (cell in light, or switch off); 1 kohm in the supply lead, millivolts across it are microamperes',
      unit: 'uA',
      ...benchBand(lamp, (of) => of.lamp.driver.standby_A * 1e6),
    },
  ];
}

function wholeChecks(lamp: LampParams): BenchCheck[] {
  const ceiling = (light_W_m2: number) => (of: BenchLamp) =>
    steadyCeiling(of.lamp, light_W_m2 * of.light, BENCH_DEG_C);
  const top_V = Math.min(steadyCeiling(lamp, FULL_SUN_W_M2, BENCH_DEG_C), lamp.store.rated_V);
  const rest = (hours: number) => (of: BenchLamp) =>
    restingVoltage(of.lamp, { from_V: top_V, held_h: HELD_H, hours, temperature_degC: BENCH_DEG_C });
  const start = `store held ${HELD_H} h at ${top_V.toFixed(2)} V; then cell covered, LED off, nothing else connected`;
  return [
    {
      part: 'whole lamp',
      what: 'ceiling by window light',
      how: `LED off, light as for the cell (${WINDOW_W_M2} W/m2); bring the store near it with a supply, take that off and wait until the voltage stands still`,
      unit: 'V',
      ...benchBand(lamp, ceiling(WINDOW_W_M2)),
    },
    {
      part: 'whole lamp',
      what: 'ceiling in full sun',
      how: `the same in the sun, everything at ${BENCH_DEG_C} degC; stop at ${lamp.store.rated_V.toFixed(2)} V, the rated voltage, whatever comes`,
      unit: 'V',
      ...benchBand(lamp, ceiling(FULL_SUN_W_M2)),
    },
    {
      part: 'whole lamp',
      what: `after one night (${NIGHT_H} h) at rest`,
      how: start,
      unit: 'V',
      ...benchBand(lamp, rest(NIGHT_H)),
    },
    {
      part: 'whole lamp',
      what: 'after three days at rest',
      how: 'the same, left alone; a store that falls further leaks',
      unit: 'V',
      ...benchBand(lamp, rest(72)),
    },
  ];
}

function pathIn({ lamp, light }: BenchLamp, light_W_m2: number): ChargingPath {
  const meter: LampParams['diode'] = {
    ...lamp.diode,
    kind: 'switch',
    on_ohm: AMMETER_OHM,
    series_ohm: 0,
    leak_S: 0,
  };
  const path = new ChargingPath(lamp.cell, meter);
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

function drawn(lamp: LampParams, store_V: number): { supply_mA: number; led_mA: number } {
  const { law } = lamp.driver;
  const draw = new LoadDraw(law, lamp.load);
  if (law.kind === 'boost') {
    const output_V = draw.at(draw.columns.output_V, store_V);
    draw.setBeyond(!Number.isNaN(law.limit_A) && store_V >= (1 - law.duty) * output_V);
  }
  draw.at_V(store_V, 1);
  return { supply_mA: draw.current_A * 1000, led_mA: draw.at(draw.columns.led_A, store_V) * 1000 };
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
